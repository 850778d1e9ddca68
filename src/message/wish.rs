//! What somebody asks for, and what they say of themselves.

use jiff::civil::Weekday;
use serde::{Deserialize, Serialize};
use strum::IntoStaticStr;

use super::{Day, Length, weekdays};
use crate::language::Language;
use crate::units::{Course, Equipment, Unit};

/// What kind of week.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[derive(IntoStaticStr)]
#[serde(rename_all = "snake_case")]
#[strum(serialize_all = "snake_case")]
pub enum WeekKind {
    /// Less than usual.
    Easy,
    /// The usual.
    Normal,
    /// A step more.
    Hard,
}

impl WeekKind {
    /// Its word in our notation and in the contract.
    pub fn word(self) -> &'static str {
        self.into()
    }
}

/// A week asked for.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct PlanWish {
    /// The kind of week.
    pub week: Option<WeekKind>,
    /// Minutes a session, 10 to 240.
    pub minutes: Option<u16>,
    /// Sessions a week, 1 to 14.
    pub sessions: Option<u8>,
    /// The day, for a coach's `plan tue`.
    pub on: Option<Day>,
}

/// A session asked for.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct NextWish {
    /// Minutes there are.
    pub minutes: Option<u16>,
    /// How far it should be.
    pub distance: Option<Length>,
    /// Equipment to use.
    pub with: Vec<Equipment>,
    /// Equipment to leave out.
    pub without: Vec<Equipment>,
    /// In open water.
    pub open_water: bool,
}

/// What a person says of themselves; what is not said stays.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct ProfileChange {
    /// The pool they swim in.
    pub course: Option<Course>,
    /// The days they swim.
    #[serde(with = "weekdays", default)]
    pub days: Vec<Weekday>,
    /// Sessions a week, where a number was said and no days.
    pub sessions: Option<u8>,
    /// Minutes a session.
    pub minutes: Option<u16>,
    /// Year of birth.
    pub born: Option<i16>,
    /// Units to speak in.
    pub units: Option<Unit>,
    /// Language to speak in.
    pub language: Option<Language>,
}
