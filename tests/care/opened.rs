//! A squad on the day it was opened, without disk or socket.

use jiff::Timestamp;
use lapwing::history::{Event, Squad, SquadId, Stamped};

/// Whom a squad is opened for.
#[derive(Clone, Copy)]
pub struct For {
    pub minors: bool,
    /// The club has screened its members.
    pub ready: bool,
    /// Its time zone and its pool.
    pub at: (&'static str, &'static str),
}

/// Grown-ups who were screened, in a 25 m pool.
pub const GROWN_UPS: For = For { minors: false, ready: true, at: ("UTC", "25m") };

/// With nobody in it yet but the coach's address.
pub fn opened(name: &str, coach: &str, code: &str, at: Timestamp, whom: For) -> Squad {
    let mut squad = Squad::unopened(SquadId(name.to_lowercase()));
    let event = Event::SquadOpened {
        name: name.into(),
        coach: coach.into(),
        timezone: whom.at.0.into(),
        course: whom.at.1.parse().unwrap(),
        code: code.into(),
        expires: None,
        minors: whom.minors,
        ready: whom.ready,
    };
    squad.apply(&Stamped { cause: 0, at, by: coach.into(), event });
    squad
}
