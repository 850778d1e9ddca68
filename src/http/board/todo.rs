//! What waits for whoever runs the squad, before all that is folded.

use maud::{Markup, html};

use super::page::Page;
use crate::desk::board::{Person, Slower};
use crate::reply::Label;

/// How many names a line has at most; the part it leads to has all (ours: two lines
/// of a telephone).
const NAMES: usize = 8;

/// A line for each thing to do, with who it is about, and a link to the part that
/// says more.
pub fn part(page: Page<'_>) -> Markup {
    let todo = &page.board.todo;
    let inside = html! {
        @if todo.is_nothing() { p.calm { (page.label(Label::NothingToDo)) } }
        ul.lines {
            (line(page, Some("tests"), Label::Owed, &names(page, &todo.owed)))
            (line(page, Some("tests"), Label::Overdue, &names(page, &todo.overdue)))
            (line(page, Some("tests"), Label::Slower, &slower(page, &todo.slower)))
            (line(page, Some("weeks"), Label::Ring, &names(page, &todo.ring)))
            (line(page, Some("weeks"), Label::Jumped, &names(page, &todo.jumped)))
            (line(page, None, Label::Waiting, &names(page, &todo.waiting)))
        }
    };
    page.part("todo", page.label(Label::ToDo), &inside)
}

fn names(page: Page<'_>, people: &[Person]) -> Vec<Markup> {
    people.iter().map(|who| page.named(who)).collect()
}

fn slower(page: Page<'_>, all: &[Slower]) -> Vec<Markup> {
    let told = all.iter().map(|one| {
        html! {
            (page.named(&one.who)) " " (page.voice.trial(&one.last))
            " " b { (format!("{:+.1} s", one.by.seconds())) }
            " " (page.voice.since(&page.day(one.since)))
        }
    });
    told.collect()
}

fn line(page: Page<'_>, part: Option<&str>, what: Label, who: &[Markup]) -> Markup {
    let named = html! { (page.label(what)) " " span.of { (who.len()) } };
    html! {
        @if !who.is_empty() {
            li {
                @match part {
                    Some(part) => a.what href=(format!("#{part}")) { (named) },
                    None => span.what { (named) },
                }
                span.who {
                    @for one in who.iter().take(NAMES) { span { (one) } " " }
                    @if who.len() > NAMES { span.soft { "+" (who.len() - NAMES) } }
                }
            }
        }
    }
}
