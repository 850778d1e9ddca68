//! 3. Lanes: the sheet that is printed.

use maud::{Markup, html};

use super::page::Page;
use crate::coaching::lanes::Gap;
use crate::desk::board::{LaneNow, Placed};
use crate::reply::{Label, block_shorthand};

/// A row a lane: its number, who leads off, the main set with its send-offs.
pub fn part(page: Page<'_>) -> Markup {
    let lanes = &page.board.lanes;
    let inside = html! {
        @if lanes.lanes.is_empty() { p.calm { (page.label(Label::NoLanes)) } }
        @if let Some(gap) = lanes.gap { p.gap { (page.voice.gap(Gap::seconds(gap))) } }
        ol.lanes { @for lane in &lanes.lanes { (row(page, lane)) } }
        @if !lanes.in_none.is_empty() {
            h3 { (page.label(Label::InNoLane)) }
            ul.names { @for who in &lanes.in_none { li { (page.person(who)) } } }
        }
        @match &lanes.advice {
            Some(advice) => p.advice { (page.voice.one_move(advice)) },
            None if lanes.gap.is_some() => p.calm.advised { (page.label(Label::NoMove)) },
            None => {},
        }
    };
    page.part(3, page.label(Label::Lanes), "sheet", &inside)
}

fn row(page: Page<'_>, lane: &LaneNow) -> Markup {
    html! {
        li {
            h3.lane { (page.voice.lane(lane.lane)) }
            div.swum {
                @if lane.swimmers.is_empty() { p.calm { (page.label(Label::EmptyLane)) } }
                ol.order { @for placed in &lane.swimmers { (place(page, placed)) } }
                @for block in &lane.main {
                    p.sendoff { (block_shorthand(block, page.voice)) }
                }
            }
        }
    }
}

fn place(page: Page<'_>, placed: &Placed) -> Markup {
    html! {
        li.gone[placed.stopped] {
            (page.person(&placed.who))
            @if placed.stopped {
                " " strong.mark.private { (page.label(Label::Stopped)) }
            } @else if placed.gently {
                " " span.mark.private { (page.label(Label::Gently)) }
            }
            @if placed.guessed { " " span.mark { (page.label(Label::Guessed)) } }
            @if let Some(focus) = &placed.focus { span.focusing { (focus) } }
        }
    }
}
