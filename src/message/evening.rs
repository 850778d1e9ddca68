//! The squad's evenings: when they are, who is listed, and what changes in the set.

use jiff::civil::{Time, Weekday};
use serde::{Deserialize, Serialize};
use strum::IntoStaticStr;

use super::{Day, Length, Name, TypedSet, weekdays};
use crate::session::{self, Scope};
use crate::units::{Course, SendOff};

/// Whom the coach asks about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[derive(IntoStaticStr)]
#[serde(rename_all = "snake_case")]
#[strum(serialize_all = "snake_case")]
pub enum SquadFilter {
    /// No test for six weeks.
    Overdue,
    /// In pain or ill.
    Hurt,
    /// Not heard from.
    Silent,
    /// Faster than before.
    Improving,
    /// Slower than before.
    Fading,
    /// By pace.
    Pace,
    /// Coming to the next night.
    Expected,
    /// No test since the test night was called.
    Owed,
    /// With a race to come.
    Races,
}

impl SquadFilter {
    /// Its word in our own notation.
    pub fn word(self) -> &'static str {
        self.into()
    }

    /// Its name in the outside interface: what those are who are asked about.
    pub fn name(self) -> &'static str {
        match self {
            SquadFilter::Hurt => "hurting",
            SquadFilter::Silent => "missing",
            SquadFilter::Fading => "slower",
            other => other.word(),
        }
    }
}

/// A regular booking.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Slot {
    /// The weekdays.
    #[serde(with = "weekdays")]
    pub days: Vec<Weekday>,
    /// When it starts.
    pub starts: Option<Time>,
    /// How long it is.
    pub minutes: Option<u16>,
    /// How many lanes.
    pub lanes: Option<u8>,
    /// One day only.
    pub on: Option<Day>,
    /// Another pool.
    pub course: Option<Course>,
}

/// A change to the set in force.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Cut {
    /// Minutes that are left.
    pub minutes_left: Option<u16>,
    /// When it has to be over, on a clock of twelve hours where the hour is
    /// below twelve.
    #[serde(default)]
    pub ends: Option<Time>,
    /// For one lane only.
    pub lane: Option<u8>,
    /// A new number of repeats.
    pub count: Option<u16>,
    /// A new send-off.
    pub send_off: Option<SendOff>,
    /// Leave out the last round.
    pub skip_round: bool,
}

/// A change to the set in force.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Edit {
    /// Which part of it.
    pub scope: Scope,
    /// For these lanes only; none for all.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub lanes: Vec<u8>,
    /// For these swimmers only.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub names: Vec<Name>,
    /// What becomes of it.
    pub what: EditWhat,
}

/// What becomes of a part of a set, as typed.
pub type EditWhat = session::EditWhat<Length, TypedSet>;
