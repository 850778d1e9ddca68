//! Tests.

use maud::{Markup, html};

use super::page::Page;
use crate::desk::board::{Due, Tested};
use crate::reply::{Label, Trend};

/// A row a swimmer: who is due, the last result, whether it is a real change.
pub fn part(page: Page<'_>) -> Markup {
    let all = &page.board.tested;
    let inside = html! {
        @if all.is_empty() { p.calm { (page.label(Label::NoSwimmers)) } }
        ul.rows { @for one in page.some(all) { (row(page, one)) } }
        (page.more(all.len()))
    };
    let due = page.due(Label::Due, all.iter().filter(|one| one.due.is_some()).count());
    page.folded("tests", page.label(Label::Tests), Some(&due), &inside)
}

fn row(page: Page<'_>, one: &Tested) -> Markup {
    html! {
        li {
            p.who { (page.named(&one.who)) }
            div.told {
                @match &one.last {
                    Some(last) => {
                        p.big { (page.voice.trial(last)) }
                        p.soft {
                            (page.day(last.on)) ": "
                            span.sign aria-hidden="true" { (sign(one.trend)) }
                            " " (page.voice.verdict(one.trend))
                            @if let Some(before) = &one.before {
                                ", " (page.label(Label::Before)) " " (before.time.short())
                            }
                            @if one.across { " (" (page.voice.across(last.meet)) ")" }
                        }
                    },
                    None => p.soft { (page.label(Label::NoTest)) },
                }
                @match one.due {
                    Some(Due::TestNight) => p { strong.mark.due { (page.label(Label::DueTestNight)) } },
                    Some(Due::Tonight | Due::Overdue) => p { strong.mark.due { (page.label(Label::Due)) } },
                    None => {},
                }
            }
        }
    }
}

/// Beside the words, never instead of them.
pub const fn sign(trend: Trend) -> &'static str {
    match trend {
        Trend::Up => "\u{2197}",
        Trend::Flat => "\u{2192}",
        Trend::Down => "\u{2198}",
        Trend::Unknown => "\u{25CB}",
    }
}
