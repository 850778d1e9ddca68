//! On paper, for whoever runs the evening alone: everybody on one page, with a box to
//! tick and the marks behind their names. It says who is out of the water, and never
//! why.

use maud::{Markup, html};

use super::page::{Page, to_minute};
use crate::desk::board::{LaneNow, Person, Placed};
use crate::reply::{Label, shown};

/// The sheet: the lanes in their order, who is there or comes and is in none, and who
/// is out.
pub fn sheet(page: Page<'_>) -> Markup {
    let board = page.board;
    let lanes = &board.lanes.lanes;
    let is_placed = |who: &Person| {
        lanes.iter().flat_map(|lane| &lane.swimmers).any(|placed| placed.who.name == who.name)
    };
    let register = &board.register;
    let late = register.late.iter().map(|(who, _)| who);
    let to_come: Vec<&Person> =
        register.coming.iter().chain(late).filter(|who| !is_placed(who)).collect();
    let stopped = board.hurting.iter().filter(|one| one.is_stopped()).map(|one| &one.who);
    html! {
        section.sheet.coach {
            header {
                div {
                    h2 { (board.squad) ": " (page.label(Label::CoachSheet)) }
                    p {
                        (page.voice.day(board.on))
                        @if let Some(starts) = board.clock.starts { ", " b { (to_minute(starts)) } }
                        @if let Some(ends) = board.clock.ends { "-" b { (to_minute(ends)) } }
                        ", " (page.voice.head_count(register.here.len(), register.all()))
                    }
                }
            }
            div.all {
                @for lane in lanes.iter().filter(|lane| !lane.swimmers.is_empty()) { (of_lane(page, lane)) }
                (others(page, Label::InNoLane, &board.lanes.in_none.iter().collect::<Vec<_>>()))
                (others(page, Label::Coming, &to_come))
                // Once anybody is seen, whoever said nothing is not waited for.
                @if register.here.is_empty() {
                    (others(page, Label::Unsaid, &register.unsaid.iter().collect::<Vec<_>>()))
                }
            }
            (out(page, Label::Stopped, stopped))
            (out(page, Label::Absent, register.absent.iter()))
            (out(page, Label::Out, register.out.iter().filter(|who| !is_stopped(page, who))))
        }
    }
}

fn is_stopped(page: Page<'_>, who: &Person) -> bool {
    page.board.hurting.iter().any(|one| one.is_stopped() && one.who.name == who.name)
}

fn of_lane(page: Page<'_>, lane: &LaneNow) -> Markup {
    let clock = page.board.clock.lanes.iter().find(|one| one.lane == lane.lane);
    let aimed = clock.and_then(|clock| clock.aimed.as_ref());
    let own = |placed: &Placed| Some(shown(placed.target(aimed?)?));
    html! {
        div.group {
            h3 { (page.voice.lane(lane.lane)) }
            ul {
                @for placed in &lane.swimmers {
                    (row(page, &placed.who, own(placed).as_deref(), placed.gently, placed.guessed))
                }
            }
        }
    }
}

fn others(page: Page<'_>, heading: Label, people: &[&Person]) -> Markup {
    html! {
        @if !people.is_empty() {
            h3 { (page.label(heading)) }
            ul { @for who in page.some(people) { (row(page, who, None, false, false)) } }
        }
    }
}

fn row(page: Page<'_>, who: &Person, own: Option<&str>, gently: bool, guessed: bool) -> Markup {
    let late = page.board.register.late.iter().find(|(one, _)| one.name == who.name);
    let due = page.board.tested.iter().any(|one| one.who.name == who.name && one.due.is_some());
    let marks = [
        (who.guest, Label::Guest),
        (who.minor.is_some(), Label::Minor),
        (gently, Label::Gently),
        (guessed && own.is_some(), Label::Guessed),
        (due, Label::TestDue),
    ];
    let marks = marks.into_iter().filter(|(is, _)| *is).map(|(_, label)| page.label(label));
    let late = late.map(|(_, minutes)| page.voice.minutes_late(*minutes));
    let marks: Vec<String> = marks.map(str::to_owned).chain(late).collect();
    html! {
        li {
            i {}
            b { (who.name) }
            span.own { (own.unwrap_or_default()) }
            span.marks { (marks.join(", ")) }
        }
    }
}

fn out<'a>(page: Page<'_>, heading: Label, people: impl Iterator<Item = &'a Person>) -> Markup {
    let names: Vec<&str> = people.map(|who| who.name.as_str()).collect();
    html! { @if !names.is_empty() { p.out { b { (page.label(heading)) ": " } span { (names.join(", ")) } } } }
}
