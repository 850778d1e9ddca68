//! The lanes as they swim: what each is on, when the next leaves, each swimmer's
//! own time to hold.

use jiff::ToSpan;
use jiff::civil::Time;
use maud::{Markup, html};

use super::page::{Page, to_minute, to_second};
use crate::coaching::evening::Position;
use crate::coaching::lanes::Gap;
use crate::desk::board::{LaneClock, LaneNow, Placed};
use crate::reply::{Label, line_shorthand, shown};
use crate::session::{Part, Repeat};

/// A card a lane, all of it readable without a touch.
pub fn part(page: Page<'_>) -> Markup {
    let lanes = &page.board.lanes;
    let inside = html! {
        (of_all_lanes(page))
        @if lanes.lanes.is_empty() { p.calm { (page.label(Label::NoLanes)) } }
        @if page.board.clock.lanes.is_empty() { p.calm { (page.label(Label::NoSet)) } }
        ol.lanes { @for lane in &lanes.lanes { (card(page, lane)) } }
        @if !lanes.in_none.is_empty() {
            h3 { (page.label(Label::InNoLane)) }
            ul.names { @for who in &lanes.in_none { li { (page.briefly(who)) } } }
        }
        @if let Some(advice) = &lanes.advice { p.advice { (page.voice.one_move(advice)) } }
    };
    page.part("poolside", page.label(Label::Lanes), &inside)
}

/// What holds for every lane: how far apart they leave, what the figures are.
fn of_all_lanes(page: Page<'_>) -> Markup {
    let lanes = &page.board.lanes;
    let gap = lanes.gap.map(|gap| page.voice.gap(Gap::seconds(gap)));
    let has_own = |lane: &LaneNow| {
        let aimed = aimed(page, lane);
        lane.swimmers.iter().any(|placed| aimed.is_some_and(|line| placed.target(line).is_some()))
    };
    let own = lanes.lanes.iter().any(has_own).then(|| page.label(Label::OwnTimes).to_owned());
    let told: Vec<String> = gap.into_iter().chain(own).collect();
    html! { @if !told.is_empty() { p.gap { (told.join("; ")) } } }
}

fn clock_of<'p>(page: Page<'p>, lane: &LaneNow) -> Option<&'p LaneClock> {
    page.board.clock.lanes.iter().find(|one| one.lane == lane.lane)
}

/// The line that those of a lane look at their own times for.
fn aimed<'p>(page: Page<'p>, lane: &LaneNow) -> Option<&'p Repeat> {
    clock_of(page, lane).and_then(|clock| clock.aimed.as_ref())
}

fn card(page: Page<'_>, lane: &LaneNow) -> Markup {
    let aimed = aimed(page, lane);
    html! {
        li {
            h3.lane { (page.voice.lane(lane.lane)) }
            @if let Some(clock) = clock_of(page, lane) { (now(page, clock)) }
            @if lane.swimmers.is_empty() { p.calm.order { (page.label(Label::EmptyLane)) } }
            ol.order.long[is_long(lane)] { @for placed in &lane.swimmers { (place(page, placed, aimed)) } }
        }
    }
}

/// A name of more letters than half a telephone is wide (ours).
const LONG: usize = 11;

fn is_long(lane: &LaneNow) -> bool {
    lane.swimmers.iter().any(|placed| placed.who.name.as_str().len() > LONG)
}

/// Where the lane should be by the clock on the wall, and when the next leaves.
fn now(page: Page<'_>, lane: &LaneClock) -> Markup {
    let voice = page.voice;
    let under_way = match &lane.position {
        Some(Position::Swimming { line, .. }) => Some(line),
        _ => None,
    };
    html! {
        div.now {
            @match &lane.position {
                Some(Position::Swimming { part, round: (round, rounds), line, number, next_s }) => {
                    p.doing {
                        @if line.count > 1 { b { (voice.nth_of(*number)) } " " }
                        (line_shorthand(line, voice))
                        span.soft {
                            @if *part != Part::Main { ", " (voice.part(*part)) }
                            @if *rounds > 1 { ", " span.marked { (voice.round_of(*round, *rounds)) } }
                        }
                    }
                    (leaves(page, *next_s))
                },
                Some(Position::Changing { next, in_s }) => {
                    p.doing { b { (voice.part(*next)) } }
                    (leaves(page, *in_s))
                },
                Some(Position::Over) => p.doing { b { (page.label(Label::Over)) } },
                None => {},
            }
            @if let Some(aimed) = lane.aimed.as_ref().filter(|aimed| Some(*aimed) != under_way) {
                p.aimed { (page.label(Label::ToHold)) " " (line_shorthand(aimed, voice)) }
            }
            @if lane.over_min > 0 { p.over { (voice.over_by(lane.over_min)) } }
        }
    }
}

fn leaves(page: Page<'_>, in_s: u32) -> Markup {
    let at: Time = page.board.at.wrapping_add(i64::from(in_s).seconds());
    html! {
        p.leaves {
            (page.label(Label::NextLeaves)) " " b { (to_second(at)) }
            // Our script counts down in it; without one it stays empty.
            " " span.count data-in=(in_s) aria-hidden="true" {}
        }
    }
}

fn place(page: Page<'_>, placed: &Placed, aimed: Option<&Repeat>) -> Markup {
    let own = aimed.and_then(|line| placed.target(line));
    let late = page.board.register.late.iter().any(|(who, _)| who.name == placed.who.name);
    html! {
        li {
            span.swimmer {
                (page.briefly(&placed.who))
                @if late { " " span.mark { (page.label(Label::NotYet)) } }
                @if placed.gently { " " span.mark { (page.label(Label::Gently)) } }
                @if placed.guessed && own.is_some() { " " span.mark { (page.label(Label::Guessed)) } }
            }
            @if let Some(own) = own { b.own { (shown(own)) } }
        }
    }
}

/// When the night starts and ends, for the head.
pub fn hours(page: Page<'_>) -> Markup {
    let clock = &page.board.clock;
    html! {
        @match (clock.starts, clock.ends) {
            (None, _) => (page.label(Label::NoStart)),
            (Some(starts), ends) => {
                @if clock.left.is_none() { (page.label(Label::Starts)) " " b { (to_minute(starts)) } " " }
                @if let Some(ends) = ends { (page.label(Label::BookedTo)) " " b { (to_minute(ends)) } }
            },
        }
    }
}
