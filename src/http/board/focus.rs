//! Focus and next date.

use maud::{Markup, html};

use super::page::Page;
use crate::desk::board::Focus;
use crate::reply::Label;

/// A row a swimmer: the next race, the one thing to work on, the last note.
pub fn part(page: Page<'_>) -> Markup {
    let all = &page.board.focus;
    let inside = html! {
        @if all.is_empty() { p.calm { (page.label(Label::NothingAhead)) } }
        ul.rows { @for one in page.some(all) { (row(page, one)) } }
        (page.more(all.len()))
    };
    page.folded("focus", page.label(Label::Focus), None, &inside)
}

fn row(page: Page<'_>, one: &Focus) -> Markup {
    html! {
        li {
            p.who { (page.named(&one.who)) }
            div.told {
                @if let Some(race) = &one.race {
                    p {
                        span.label { (page.label(Label::Race)) } " "
                        b { (race.distance.amount()) " " (page.voice.stroke(race.stroke)) }
                        ", " (page.voice.day(race.on))
                        @if let Some(goal) = race.goal { ", " (goal.short()) }
                    }
                }
                @if let Some(focus) = &one.focus { p.big { (focus) } }
                @if let Some((on, note)) = &one.note {
                    p.soft { span.label { (page.label(Label::Note)) } " " (page.day(*on)) ": " (note) }
                }
            }
        }
    }
}
