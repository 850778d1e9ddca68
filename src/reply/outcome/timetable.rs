//! The squad's evenings.

use crate::units::Course;
use jiff::civil::{Date, Weekday};

/// When an evening is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum When {
    /// Every week.
    Every(Weekday),
    /// Once.
    On(Date),
}

/// An evening, in a line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NightLine {
    /// When.
    pub when: When,
    /// `20:00`, where it is known.
    pub starts: Option<String>,
    /// `21:00`, where it is known.
    pub ends: Option<String>,
    /// How many lanes, where it is known.
    pub lanes: Option<u8>,
    /// The pool, where it is another than the squad's.
    pub course: Option<Course>,
    /// The pool is shut.
    pub shut: bool,
}

/// A night that is off.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ShutReply {
    /// Which.
    pub on: Date,
    /// What becomes of its set, if it had one.
    pub set: Option<SetFate>,
    /// How many plans leave the day out.
    pub plans: usize,
    /// For how many of them it was to be hard.
    pub hard_plans: usize,
    /// The next night.
    pub next: Option<NightLine>,
}

/// What becomes of the set of a night that is off.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SetFate {
    /// It is swum on another night.
    Moved {
        /// Which.
        to: Date,
        /// It is a hard one.
        hard: bool,
    },
    /// It is not swum.
    LeftOut {
        /// It was a hard one.
        hard: bool,
    },
}

impl NightLine {
    /// The pool is shut on a day.
    pub fn shut(on: Date) -> Self {
        let when = When::On(on);
        Self { when, starts: None, ends: None, lanes: None, course: None, shut: true }
    }

    /// The same evening on one day.
    #[must_use]
    pub fn at(self, on: Date) -> Self {
        Self { when: When::On(on), ..self }
    }
}
