//! Four weeks of coming.

use maud::{Markup, html};

use super::page::Page;
use crate::desk::board::Weeks;
use crate::reply::Label;

/// How high the bars of the weeks are, and how wide and far apart, in units of
/// the drawing.
const HIGH: u32 = 24;
const WIDE: u32 = 14;
const APART: u32 = 18;

/// A row a swimmer: whom to ring, nights, days reported, metres by week.
pub fn part(page: Page<'_>) -> Markup {
    let all = &page.board.weeks;
    let most = all.iter().flat_map(|one| one.amounts).max().unwrap_or_default();
    let inside = html! {
        @if all.is_empty() { p.calm { (page.label(Label::NoSwimmers)) } }
        ul.rows { @for one in page.some(all) { (row(page, one, most)) } }
        (page.more(all.len()))
    };
    let due = html! {
        (page.due(Label::Ring, all.iter().filter(|one| one.ring).count()))
        (page.due(Label::Jumped, all.iter().filter(|one| one.jumped).count()))
    };
    page.folded("weeks", page.label(Label::Weeks), Some(&due), &inside)
}

fn row(page: Page<'_>, one: &Weeks, most: u32) -> Markup {
    let (came, of) = one.came;
    let by_week: Vec<String> = one.amounts.iter().map(u32::to_string).collect();
    let by_week = format!("{} {}", by_week.join(", "), one.unit.name());
    html! {
        li {
            p.who { (page.named(&one.who)) }
            div.told {
                @if one.ring { p { strong.mark.due { (page.label(Label::Ring)) } } }
                p.soft {
                    @if of > 0 { (page.label(Label::Came)) " " b { (page.voice.nights(came, of)) } ", " }
                    (page.label(Label::Reported)) " " b { (page.voice.days(one.reported)) }
                    @if one.away { " " span.mark { (page.label(Label::Away)) } }
                    @if one.ill { " " span.mark { (page.label(Label::Ill)) } }
                }
                div.metres {
                    (bars(page, &one.amounts, most))
                    p {
                        b { (by_week) }
                        @if let Some(planned) = one.planned {
                            br; (page.label(Label::Planned)) " " (planned)
                        }
                        @if one.jumped { " " strong.mark.due { (page.label(Label::Jumped)) } }
                    }
                }
            }
        }
    }
}

/// The four weeks as bars, the last one set off by its edge; what they say
/// stands beside them in figures.
fn bars(page: Page<'_>, amounts: &[u32; 4], most: u32) -> Markup {
    let bars = (0u32..).zip(amounts).map(|(at, amount)| {
        let high = (u64::from(*amount) * u64::from(HIGH)).div_ceil(u64::from(most.max(1)));
        (at, high.max(1))
    });
    let width = APART * 3 + WIDE;
    html! {
        svg viewBox=(format!("0 0 {width} {HIGH}")) role="img" aria-label=(page.label(Label::ByWeek)) {
            @for (at, high) in bars {
                rect.last[at == 3] x=(at * APART) y=(u64::from(HIGH) - high) width=(WIDE) height=(high) {}
            }
        }
    }
}
