//! 4. The set and the clock.

use jiff::ToSpan;
use jiff::civil::Time;
use maud::{Markup, html};

use super::page::{Page, to_minute, to_second};
use crate::coaching::evening::Position;
use crate::desk::board::LaneClock;
use crate::reply::{Label, repeat_shorthand};
use crate::session::Part;

/// The night's figures, then where each lane should be.
pub fn part(page: Page<'_>) -> Markup {
    let clock = &page.board.clock;
    let inside = html! {
        @if let Some(starts) = clock.starts {
            p.figures {
                span { (page.label(Label::Starts)) " " b { (to_minute(starts)) } }
                @if let Some(ends) = clock.ends {
                    span { (page.label(Label::Ends)) " " b { (to_minute(ends)) } }
                }
                @if let Some(left) = clock.left_min {
                    span.left { b { (left) } " " (page.label(Label::MinutesLeft)) }
                }
            }
        } @else {
            p.calm { (page.label(Label::NoStart)) }
        }
        @if clock.lanes.is_empty() { p.calm { (page.label(Label::NoSet)) } }
        ol.lanes { @for lane in &clock.lanes { (row(page, lane)) } }
    };
    page.part(4, page.label(Label::Clock), "clock", &inside)
}

fn row(page: Page<'_>, lane: &LaneClock) -> Markup {
    html! {
        li {
            h3.lane { (page.voice.lane(lane.lane)) }
            div.swum {
                @if let Some(position) = &lane.position { (now(page, position)) }
                @if let Some(ends) = lane.ends {
                    p.ends { (page.label(Label::Ends)) " " b { (to_minute(ends)) } }
                }
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
                ul.set {
                    @for block in &lane.session.blocks {
                        li.main[is_main(block.part)] { (page.voice.block_line(block)) }
                    }
                }
            }
        }
    }
}

const fn is_main(part: Part) -> bool {
    matches!(part, Part::Main | Part::Test)
}

/// Where the lane should be, by the clock on the wall.
fn now(page: Page<'_>, position: &Position) -> Markup {
    let voice = page.voice;
    let at = |in_s: u32| -> Time { page.board.at.wrapping_add(i64::from(in_s).seconds()) };
    html! {
        p.now {
            span.sign aria-hidden="true" { "\u{25B6}" }
            " " span.label { (page.label(Label::Now)) } " "
            @match position {
                Position::Over => b { (page.label(Label::Over)) },
                Position::Changing { next, in_s } => {
                    b { (voice.changing(voice.part(*next), &to_second(at(*in_s)))) }
                },
                Position::Swimming { part, round: (round, rounds), line, number, next_s } => {
                    b { (voice.number_of(*number, line.count)) }
                    " " (voice.part(*part))
                    @if *rounds > 1 { ", " (voice.round_of(*round, *rounds)) }
                    span.line { (repeat_shorthand(line, voice)) }
                    span.next { (voice.next_leaves(&to_second(at(*next_s)))) }
                },
            }
        }
    }
}
