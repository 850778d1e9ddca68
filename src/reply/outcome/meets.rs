//! Entries for meets.

use jiff::civil::Date;

use crate::message::Name;
use crate::swim::Trial;
use crate::units::{Centis, Course, Distance, Stroke};

/// Someone was entered for a race, or taken out again.
#[derive(Debug, Clone, PartialEq)]
pub struct EntryReply {
    /// The day of the meet; none where no meet is known.
    pub on: Option<Date>,
    /// Its pool.
    pub course: Course,
    /// The entry.
    pub line: EntryLine,
    /// Taken out again.
    pub scratched: bool,
}

/// A meet and those entered.
#[derive(Debug, Clone, PartialEq)]
pub struct MeetReply {
    /// Its day; none for entries without one.
    pub on: Option<Date>,
    /// Its pool.
    pub course: Course,
    /// The entries, by swimmer.
    pub lines: Vec<EntryLine>,
}

/// One entry.
#[derive(Debug, Clone, PartialEq)]
pub struct EntryLine {
    /// Whose; none for the sender's own.
    pub who: Option<Name>,
    /// How far.
    pub distance: Distance,
    /// Which stroke.
    pub stroke: Stroke,
    /// By which time.
    pub time: EntryTime,
}

/// By which time someone is entered, and what it rests on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum EntryTime {
    /// As was given.
    Given(Centis),
    /// As swum in such a pool.
    Swum(Trial),
    /// Estimated, from a swim in another pool by the turn rule.
    Converted {
        /// The time in the pool of the meet.
        time: Centis,
        /// The swim.
        from: Trial,
    },
    /// Estimated, from other distances.
    Predicted(Centis),
    /// None.
    None,
}

impl EntryTime {
    /// The time, and whether it is an estimate.
    pub fn shown(&self) -> Option<(Centis, bool)> {
        match *self {
            EntryTime::Given(time) => Some((time, false)),
            EntryTime::Swum(trial) => Some((trial.time, false)),
            EntryTime::Converted { time, .. } | EntryTime::Predicted(time) => Some((time, true)),
            EntryTime::None => None,
        }
    }
}
