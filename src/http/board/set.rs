//! All that each lane swims, when it ends, what to give up where it is too long.

use maud::{Markup, html};

use super::page::{Page, to_minute};
use crate::desk::board::{LaneClock, LaneNow};
use crate::reply::Label;
use crate::session::Part;

/// A row a lane, with what each of its swimmers is to think of.
pub fn part(page: Page<'_>) -> Markup {
    let clock = &page.board.clock;
    let inside = html! {
        @if clock.lanes.is_empty() { p.calm { (page.label(Label::NoSet)) } }
        ol.sets { @for lane in &clock.lanes { (row(page, lane)) } }
        p.soft { (page.label(Label::Prints)) }
    };
    page.folded("set", page.label(Label::Clock), None, &inside)
}

fn row(page: Page<'_>, lane: &LaneClock) -> Markup {
    let swum = page.board.lanes.lanes.iter().find(|one| one.lane == lane.lane);
    html! {
        li {
            h3.lane { (page.voice.lane(lane.lane)) }
            div.swum {
                @if let Some(ends) = lane.ends {
                    p { (page.label(Label::Ends)) " " b { (to_minute(ends)) } }
                }
                (too_long(page, lane))
                ul.blocks {
                    @for block in &lane.session.blocks {
                        li.main[is_main(block.part)] { (page.voice.block_line(block)) }
                    }
                }
                @if let Some(swum) = swum { (focuses(swum)) }
            }
        }
    }
}

fn too_long(page: Page<'_>, lane: &LaneClock) -> Markup {
    html! {
        @if lane.over_min > 0 {
            p.advice {
                (page.voice.over_by(lane.over_min)) ". "
                @if lane.give_up.is_empty() {
                    (page.voice.never_fits())
                } @else {
                    (page.voice.fits_with(&page.voice.without(&lane.give_up)))
                }
            }
        }
    }
}

fn focuses(lane: &LaneNow) -> Markup {
    let told = lane.swimmers.iter().filter_map(|one| Some((&one.who, one.focus.as_ref()?)));
    html! {
        @for (who, focus) in told { p.focusing { span.name { (who.name) } ": " (focus) } }
    }
}

const fn is_main(part: Part) -> bool {
    matches!(part, Part::Main | Part::Test)
}
