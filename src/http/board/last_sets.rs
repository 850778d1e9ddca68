//! The last paced sets.

use maud::{Markup, html};

use super::page::Page;
use crate::coaching::Change;
use crate::desk::board::Paced;
use crate::reply::{Label, repeat_shorthand, shown};

/// A row a swimmer: held of how many, the fade, the one change.
pub fn part(page: Page<'_>) -> Markup {
    let all = &page.board.paced;
    let inside = html! {
        @if all.is_empty() { p.calm { (page.label(Label::NothingPaced)) } }
        ul.rows { @for one in page.some(all) { (row(page, one)) } }
        (page.more(all.len()))
    };
    page.folded("paced", page.label(Label::Paced), None, &inside)
}

fn row(page: Page<'_>, one: &Paced) -> Markup {
    let voice = page.voice;
    let (feedback, change) = (&one.feedback, &one.feedback.change);
    let fade = feedback.shape.as_ref().and_then(|shape| shape.fade).map(|fade| fade.get());
    let target = change.set.target.map_or_else(String::new, shown);
    // Rest after a set that was held is for their illness, not for the set.
    let held = feedback.analysis.as_ref().is_some_and(|analysis| analysis.missed == 0);
    let next = match change.what {
        Change::Rest if held => voice.easy_version().to_owned(),
        what => voice.change(what, &repeat_shorthand(&change.set, voice), &target, held),
    };
    html! {
        li {
            p.who { (page.named(&one.who)) }
            div.told {
                @if let Some(analysis) = &feedback.analysis {
                    p.big { (voice.held_of(analysis.held, analysis.repeats)) }
                }
                p.soft {
                    (repeat_shorthand(&one.set, voice)) ", " (page.day(one.on))
                    // Under half a tenth it is no fade.
                    @if let Some(fade) = fade.filter(|fade| fade.abs() >= 0.05) {
                        "; " (voice.fade(fade))
                    }
                }
                p.change { (next) }
            }
        }
    }
}
