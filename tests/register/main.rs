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

use std::collections::BTreeMap;

use lapwing::coaching::Rulebook;
use lapwing::desk::{self, Asked};
use lapwing::history::{EveningBy, EveningKept, Event, LaneKept, Stamped, StrangersAsked};
use lapwing::session::Session;
use lapwing::units::Lane;
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

/// The session is the set of its night, in a lane of which nobody is told.
fn put_in_force(talk: &mut Talk, session: Session) {
    let on = session.on;
    let lane = LaneKept {
        lane: Lane::FIRST,
        swimmers: vec![],
        session: Some(session),
        own: BTreeMap::new(),
    };
    let evening = EveningKept { by: EveningBy::Set, lanes: vec![lane], ..EveningKept::new(on) };
    let event = Event::EveningPut { evening };
    let cause = talk.squad.next_cause;
    talk.squad.apply(&Stamped { cause, at: talk.now, by: COACH.into(), event });
    talk.squad.next_cause = cause + 1;
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
