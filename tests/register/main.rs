//! A squad's evenings, decided by the desk alone: the register, who comes, the
//! timetable, and what is presumed of those who were there.

#![expect(clippy::unwrap_used, clippy::expect_used, reason = "a test that can't go on has failed")]

mod capturing;
mod coming;
mod lanes;
mod meets;
#[path = "../care/opened.rs"]
mod opened;
mod presumed;
mod repairing;
#[path = "../care/squad.rs"]
#[expect(dead_code, reason = "shared with the tests of care, which use the rest")]
mod squad;
mod starts;
mod taking;
mod test_night;
mod timetable;
mod unasked;
mod unasked_at_random;

use lapwing::coaching::Rulebook;
use lapwing::desk::{self, Asked};
use lapwing::history::StrangersAsked;
use squad::{COACH, CODE, Talk};

/// Heron, teal and wren at 20:00 on a Tuesday.
fn tuesday() -> Talk {
    let mut talk = Talk::of_grown_ups();
    talk.hears("wren", &format!("join {CODE} wren"));
    at(&mut talk, "2026-03-03T20:00:00Z");
    talk
}

fn at(talk: &mut Talk, instant: &str) {
    talk.now = instant.parse().unwrap();
}

/// What the coach's text is answered with aloud in a room, and alone.
fn in_a_room(talk: &Talk, text: &str) -> (String, String) {
    let book = &Rulebook::default();
    let (now, room) = (talk.now, Some("poolside"));
    let decision = desk::answer(
        &talk.squad,
        &Asked { room, ..Asked::alone(COACH, text, now, book, &StrangersAsked::default()) },
    );
    let aloud = decision.said.into_iter().filter(|say| say.to.is_none()).map(|say| say.text);
    (aloud.collect(), decision.aside.map(|aside| aside.text).unwrap_or_default())
}
