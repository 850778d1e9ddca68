//! The texts that come every week, and who wants them.

use jiff::civil::{Time, Weekday};
use serde::{Deserialize, Serialize};

use super::Day;

/// What is said of a text that comes every week.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Regular {
    /// `digest`: the squad's week, now.
    Digest,
    /// `digest on`, `digest off`
    DigestWanted {
        /// On.
        wanted: bool,
    },
    /// `digest sun 18:00`; what was not said stays.
    DigestAt {
        /// The day of the week.
        day: Option<Day>,
        /// The time of day.
        at: Option<Time>,
    },
    /// `weekly`: the sender's own week, now.
    Note,
    /// `weekly on`, `weekly off`
    NoteWanted {
        /// On.
        wanted: bool,
    },
}

impl Regular {
    /// `digest sun 18:00`
    pub fn digest_at(day: Option<Weekday>, at: Option<Time>) -> Self {
        Regular::DigestAt { day: day.map(Day::On), at }
    }
}
