//! On paper: a sheet a lane, to hang at its end. Handles, the set, own times to
//! hold, boxes; nothing that is private. Behind them the coach's own.

use maud::{Markup, html};

use super::marks;
use super::page::{Page, to_minute};
use crate::coaching::lanes::Gap;
use crate::desk::board::{LaneClock, LaneNow, Placed};
use crate::reply::{Label, line_shorthand, shown};
use crate::session::Repeat;

/// For how many lines of a set a sheet has boxes: those with most repeats (ours;
/// more does not fit on a page with eight swimmers).
const TIMED: usize = 2;
/// How many boxes a line has at most, and how many where nothing is timed (ours).
const MOST_BOXES: u16 = 24;
const BOXES: u16 = 8;

/// The sheets, which the screen doesn't show and paper shows alone.
pub fn sheets(page: Page<'_>) -> Markup {
    let swum = page.board.lanes.lanes.iter().filter(|lane| !lane.swimmers.is_empty());
    let swum: Vec<&LaneNow> = swum.collect();
    html! {
        div.sheets {
            @for lane in &swum { (sheet(page, lane)) }
            (marks::sheet(page))
        }
    }
}

fn sheet(page: Page<'_>, lane: &LaneNow) -> Markup {
    let clock = page.board.clock.lanes.iter().find(|one| one.lane == lane.lane);
    let timed = clock.map(|clock| timed(clock, lane)).unwrap_or_default();
    html! {
        section.sheet {
            header {
                p.lane { (page.voice.lane(lane.lane)) }
                div {
                    h2 { (page.board.squad) }
                    p { (page.voice.day(page.board.on)) (hours(page, clock)) }
                }
            }
            @if let Some(clock) = clock {
                ul.blocks { @for block in &clock.session.blocks { li { (page.voice.block_line(&block.for_all())) } } }
            }
            table {
                tbody { @for placed in &lane.swimmers { (row(page, placed, &timed)) } }
            }
        }
    }
}

/// ` 20:00-21:00, 5 s apart`
fn hours(page: Page<'_>, clock: Option<&LaneClock>) -> Markup {
    html! {
        @if let Some(starts) = page.board.clock.starts { ", " b { (to_minute(starts)) } }
        @if let Some(ends) = clock.and_then(|clock| clock.ends) {
            ", " (page.label(Label::Ends)) " " b { (to_minute(ends)) }
        }
        @if let Some(gap) = page.board.lanes.gap { ", " (page.voice.gap(Gap::seconds(gap))) }
    }
}

/// The lines with boxes, in the order swum, and how many each has.
fn timed(clock: &LaneClock, lane: &LaneNow) -> Vec<(Repeat, u16)> {
    let mut lines: Vec<(Repeat, u16)> = Vec::new();
    for block in &clock.session.blocks {
        for line in &block.repeats {
            let boxes = line.count.saturating_mul(block.rounds);
            let is_aimed = lane.swimmers.iter().any(|placed| placed.target(line).is_some());
            match lines.iter_mut().find(|(one, _)| one == line) {
                Some((_, all)) => *all = all.saturating_add(boxes),
                None if is_aimed => lines.push((line.clone(), boxes)),
                None => {}
            }
        }
    }
    let mut by_count: Vec<u16> = lines.iter().map(|(_, boxes)| *boxes).collect();
    by_count.sort_unstable_by(|one, other| other.cmp(one));
    let least = by_count.get(TIMED - 1).copied().unwrap_or_default();
    lines.retain(|(_, boxes)| *boxes >= least);
    lines.truncate(TIMED);
    lines
}

fn row(page: Page<'_>, placed: &Placed, timed: &[(Repeat, u16)]) -> Markup {
    html! {
        tr {
            th scope="row" { (placed.who.name) }
            td {
                @for (line, count) in timed {
                    div.timed {
                        span.line { (each(page, line)) }
                        b.own { @if let Some(own) = placed.target(line) { (shown(own)) } }
                        (boxes(*count))
                    }
                }
                @if timed.is_empty() { div.timed { (boxes(BOXES)) } }
            }
        }
    }
}

/// `50`: its send-off stands in the set above.
fn each(page: Page<'_>, line: &Repeat) -> String {
    let one = Repeat { count: 1, send_off: None, rest: None, ..line.clone() };
    line_shorthand(&one, page.voice)
}

fn boxes(count: u16) -> Markup {
    html! { span.boxes { @for _ in 0..count.min(MOST_BOXES) { i {} } } }
}
