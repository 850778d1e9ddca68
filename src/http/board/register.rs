//! The night's register.

use maud::{Markup, html};

use super::page::Page;
use crate::desk::board::Person;
use crate::reply::Label;

/// Behind the head count a list for each answer there is.
pub fn part(page: Page<'_>) -> Markup {
    let register = &page.board.register;
    let heading = match page.is_tonight() {
        true => page.label(Label::TonightsRegister),
        false => page.label(Label::Register),
    };
    let plain =
        |people: &[Person]| -> Vec<Markup> { people.iter().map(|who| page.person(who)).collect() };
    let late: Vec<Markup> = register
        .late
        .iter()
        .map(|(who, minutes)| {
            html! { (page.person(who)) " " span.mark { (page.voice.minutes_late(*minutes)) } }
        })
        .collect();
    let inside = html! {
        (list(page, Label::Here, &plain(&register.here)))
        (list(page, Label::Late, &late))
        (list(page, Label::Coming, &plain(&register.coming)))
        (list(page, Label::Unsaid, &plain(&register.unsaid)))
        (list(page, Label::Out, &plain(&register.out)))
        (list(page, Label::Absent, &plain(&register.absent)))
    };
    let count = html! {
        span.soft { (page.voice.head_count(register.here.len(), register.all())) }
    };
    page.folded("register", heading, Some(&count), &inside)
}

fn list(page: Page<'_>, label: Label, people: &[Markup]) -> Markup {
    html! {
        @if !people.is_empty() {
            h3 { (page.label(label)) " " span.of { (people.len()) } }
            ul.names { @for person in page.some(people) { li { (person) } } }
            (page.more(people.len()))
        }
    }
}
