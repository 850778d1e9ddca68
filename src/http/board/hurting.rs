//! Who is stopped or hurting now.

use maud::{Markup, html};

use super::page::{Page, to_minute};
use crate::desk::board::{Hurting, MayRelease, Open};
use crate::profile::TroubleKind;
use crate::reply::Label;

/// Those who must not swim first, a line each; what it changes is folded.
pub fn part(page: Page<'_>) -> Markup {
    let all = &page.board.hurting;
    let inside = html! {
        @if all.is_empty() { p.calm { (page.label(Label::NobodyHurting)) } }
        ul.open { @for one in all.iter().filter(|one| !one.at_home) { (line(page, one)) } }
        @if !all.is_empty() {
            details.care id="care" {
                summary { (page.label(Label::CareHow)) (at_home(page, all)) }
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
            @for open in &one.open { " " (opened(page, open)) }
            @if let Some(contact) = &one.contact { (call(page, contact)) }
        }
    }
}

/// How many are ill and not here.
fn at_home(page: Page<'_>, all: &[Hurting]) -> Markup {
    let number = all.iter().filter(|one| one.at_home).count();
    html! { @if number > 0 { " " span.mark { (page.label(Label::Ill)) ": " (number) } } }
}

fn person(page: Page<'_>, one: &Hurting) -> Markup {
    html! {
        article {
            h3 { (page.person(&one.who)) }
            @for open in &one.open { p { (opened(page, open)) } }
            dl {
                dt { (page.label(Label::Changed)) }
                dd { (changed(page, one)) }
                dt { (page.label(Label::Release)) }
                dd { (release(page, one)) }
            }
        }
    }
}

fn opened(page: Page<'_>, open: &Open) -> Markup {
    let when = open.at.map_or_else(|| page.day(open.on), to_minute);
    html! {
        span.what { (what(page, &open.kind)) } " " span.since { (page.voice.since(&when)) }
    }
}

fn what(page: Page<'_>, kind: &TroubleKind) -> Markup {
    let label = |label| html! { (page.label(label)) };
    match kind {
        TroubleKind::Faint => label(Label::Stopped),
        TroubleKind::Pain { place, level: Some(level) } => {
            html! { (page.voice.hurts(place)) " " (page.voice.of_ten(*level)) }
        }
        TroubleKind::Pain { place, level: None } => {
            html! { (page.voice.hurts(place)) ", " (page.label(Label::NoLevel)) }
        }
        TroubleKind::Ill { fever: false, .. } => label(Label::Ill),
        TroubleKind::Ill { fever: true, .. } => label(Label::Fever),
        TroubleKind::Held | TroubleKind::Eased => label(Label::HeldEasy),
    }
}

/// What the gravest changed; while they are stopped nothing else matters.
fn changed(page: Page<'_>, one: &Hurting) -> String {
    one.open.first().map(|open| page.voice.changed(&open.kind)).unwrap_or_default()
}

fn release(page: Page<'_>, one: &Hurting) -> Markup {
    let Some(MayRelease { you, cleared, guardian }) = one.release else {
        return html! { (page.voice.ends_herself()) };
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
                a href=(format!("tel:{number}")) { (page.label(Label::Call)) " " (contact) }
            } @else {
                (page.label(Label::Call)) " " (contact)
            }
        }
    }
}

/// Fewer figures are no telephone number (ours; emergency numbers have three).
const SHORTEST_NUMBER: usize = 3;
