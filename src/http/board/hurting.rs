//! Who is stopped or hurting now.

use maud::{Markup, html};

use super::page::{Page, to_minute};
use crate::desk::board::{Hurting, MayRelease, Open, Swims};
use crate::history::TroubleKind;
use crate::reply::Label;

/// Those who must not swim first, a line each: whether they swim, and why. More of
/// it is folded.
pub fn part(page: Page<'_>) -> Markup {
    let all = &page.board.hurting;
    let inside = html! {
        @if all.is_empty() { p.calm { (page.label(Label::NobodyHurting)) } }
        ul.open { @for one in all.iter().filter(|one| !one.at_home) { (line(page, one)) } }
        @if !all.is_empty() {
            details.care id="care" {
                summary { (page.label(Label::CareHow)) " " (at_home(page, all)) }
                @for one in all { (person(page, one)) }
            }
        }
    };
    page.part("hurting", page.label(Label::Hurting), &inside)
}

fn line(page: Page<'_>, one: &Hurting) -> Markup {
    html! {
        li.stopped[one.is_stopped()] {
            (page.named(&one.who))
            @match one.swims {
                Swims::Never => @for open in &one.open { " " (opened(page, open)) },
                Swims::NotToday => (swims(page, one, Label::OutToday)),
                Swims::Easily => (swims(page, one, Label::SwimsEasy)),
            }
            @if let Some(contact) = &one.contact { (call(page, contact)) }
        }
    }
}

fn swims(page: Page<'_>, one: &Hurting, label: Label) -> Markup {
    html! {
        " " span.what { (page.label(label)) }
        @for open in &one.open { " " span.why { (what(page, open)) } }
    }
}

/// How many who are ill are named before what is folded (ours: a line of a telephone).
const NAMED_ILL: usize = 3;

/// Who is ill and not here.
fn at_home(page: Page<'_>, all: &[Hurting]) -> Markup {
    let ill: Vec<&str> =
        all.iter().filter(|one| one.at_home).map(|one| one.who.name.as_str()).collect();
    let named = ill.iter().take(NAMED_ILL).copied().collect::<Vec<_>>().join(", ");
    html! {
        @if !ill.is_empty() {
            span.mark {
                (page.label(Label::Ill)) ": " (named)
                @if ill.len() > NAMED_ILL { " +" (ill.len() - NAMED_ILL) }
            }
        }
    }
}

fn person(page: Page<'_>, one: &Hurting) -> Markup {
    html! {
        article {
            h3 { (page.person(&one.who)) }
            @for open in &one.open { p { (opened(page, open)) } }
            dl {
                dt { (page.label(Label::MaySwim)) }
                dd { (lets_swim(page, one)) }
                dt { (page.label(Label::Until)) }
                dd { (until(page, one)) }
            }
        }
    }
}

fn opened(page: Page<'_>, open: &Open) -> Markup {
    let when = open.at.map_or_else(|| page.day(open.on), to_minute);
    html! {
        span.what { (what(page, open)) } " " span.since { (page.voice.since(&when)) }
    }
}

fn what(page: Page<'_>, open: &Open) -> Markup {
    let label = |label| html! { (page.label(label)) };
    match &open.kind {
        TroubleKind::Pain { place, .. } if open.asked => {
            html! { (page.voice.hurts(place)) ", " (page.label(Label::Unanswered)) }
        }
        TroubleKind::Ill { .. } if open.asked => {
            html! { (page.label(Label::Ill)) ", " (page.label(Label::Unanswered)) }
        }
        TroubleKind::Faint => label(Label::Stopped),
        TroubleKind::Pain { place, level: Some(level) } => {
            html! { (page.voice.hurts(place)) " " (page.voice.level_of_ten(*level)) }
        }
        TroubleKind::Pain { place, level: None } => {
            html! { (page.voice.hurts(place)) ", " (page.label(Label::NoLevel)) }
        }
        TroubleKind::Ill { fever: false, .. } => label(Label::Ill),
        TroubleKind::Ill { fever: true, .. } => label(Label::Fever),
        TroubleKind::Held | TroubleKind::Eased => label(Label::HeldEasy),
    }
}

/// What the gravest lets them swim; while they are stopped nothing else matters.
fn lets_swim(page: Page<'_>, one: &Hurting) -> String {
    match one.open.first().map(|open| &open.kind) {
        // Ill, and not coming in spite of it.
        Some(TroubleKind::Ill { .. }) if one.swims == Swims::NotToday => {
            page.voice.no_swimming().to_owned()
        }
        Some(kind) => page.voice.lets_swim(kind),
        None => String::new(),
    }
}

fn until(page: Page<'_>, one: &Hurting) -> Markup {
    let Some(MayRelease { you, cleared, guardian }) = one.release else {
        return html! { (page.voice.ends_it_alone()) };
    };
    html! {
        (page.voice.released_by(you, one.who.name.as_str()))
        @if let Some(said) = cleared { "; " (page.voice.clinicians_word(said)) }
        @if let Some(said) = guardian { "; " (page.voice.guardians_word(said)) }
    }
}

/// One tap, where what they gave can be rung.
fn call(page: Page<'_>, contact: &str) -> Markup {
    let number: String = contact.chars().filter(|c| c.is_ascii_digit() || *c == '+').collect();
    html! {
        p.call {
            @if number.len() >= SHORTEST_NUMBER {
                a href=(format!("tel:{number}")) { (page.label(Label::Call)) " " span { (contact) } }
            } @else {
                (page.label(Label::Call)) " " (contact)
            }
        }
    }
}

/// Fewer figures are no telephone number (ours; emergency numbers have three).
const SHORTEST_NUMBER: usize = 3;
