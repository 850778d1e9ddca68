//! The texts that come every week, and the wish for them.

use jiff::civil::{Date, Time, Weekday};

use super::{Trend, WaitingLine};
use crate::coaching::Trouble;
use crate::message::Name;
use crate::session::Repeat;
use crate::swim::Trial;
use crate::units::Distance;

/// About a text that comes every week.
#[derive(Debug, Clone, PartialEq)]
pub enum WeeklyReply {
    /// The squad's week.
    Digest(Box<DigestReply>),
    /// A swimmer's own week.
    Note(Box<NoteReply>),
    /// Whether and when the squad's week is told.
    DigestWish {
        /// It is.
        wanted: bool,
        /// And so is the evening's count.
        counts: bool,
        /// On this day.
        day: Weekday,
        /// At this time of day.
        at: Time,
    },
    /// Whether and when a swimmer's own week is told.
    NoteWish {
        /// It is.
        wanted: bool,
        /// On this day.
        day: Weekday,
        /// At this time of day.
        at: Time,
    },
}

/// The squad's week.
#[derive(Debug, Clone, PartialEq)]
pub struct DigestReply {
    /// The squad's name.
    pub squad: String,
    /// Its first day.
    pub from: Date,
    /// Its last.
    pub to: Date,
    /// Who swam, and on how many days, those who did most first.
    pub came: Vec<(Name, usize)>,
    /// What is open, by swimmer.
    pub open: Vec<(Name, Vec<Trouble>)>,
    /// Plans that wait for the coach's yes.
    pub waiting: Vec<WaitingLine>,
    /// The week's tests, and whether they show a change.
    pub tests: Vec<(Name, Trial, Trend)>,
    /// Others who are getting faster.
    pub improving: Vec<Name>,
    /// Others who are getting slower.
    pub fading: Vec<Name>,
    /// Those not heard from.
    pub silent: Vec<Name>,
    /// Those whose test is overdue.
    pub overdue: Vec<Name>,
    /// Those whose test falls due in the week ahead.
    pub due_next: Vec<Name>,
    /// The nights of the week ahead, and how far is tested on them.
    pub nights: Vec<(Date, Option<Distance>)>,
}

/// A swimmer's own week.
#[derive(Debug, Clone, PartialEq)]
pub struct NoteReply {
    /// Whose, where several text from one telephone.
    pub who: Option<Name>,
    /// Its first day.
    pub from: Date,
    /// Its last.
    pub to: Date,
    /// On how many days they swam.
    pub days: usize,
    /// How far in all, in metres, as far as it is known; 0 where nothing is.
    pub metres: u32,
    /// Their tests, and whether they show a change.
    pub tests: Vec<(Trial, Trend)>,
    /// Their sets with a target, and how many repeats they held.
    pub sets: Vec<(Repeat, u16)>,
    /// The coach's focus.
    pub focus: Option<String>,
    /// They are to go carefully.
    pub careful: bool,
    /// A test is due.
    pub test_due: bool,
    /// Their next squad night, and when it starts.
    pub next_night: Option<(Date, Option<Time>)>,
}

/// Why a wish for a weekly text was not taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WeeklyRefusal {
    /// Minors are not written to unasked.
    Minor,
    /// It is the swimmer's own to say.
    TheirsToSay,
    /// Nothing is said unasked at that hour.
    QuietHours,
}
