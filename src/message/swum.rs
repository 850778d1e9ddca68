//! What was swum, as it was typed, and what puts it right or enters it for a race.

use serde::{Deserialize, Serialize};
use strum::IntoStaticStr;

use super::{Day, Length, Name, TypedTime};
use crate::units::{Centis, Course, Equipment, Rpe, SendOff, Start, Stroke};

/// A swim of a set distance against the clock.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Test {
    /// How far.
    pub distance: Length,
    /// How long it took.
    pub time: TypedTime,
    /// The stroke, where one was said.
    pub stroke: Option<Stroke>,
    /// The course, where one was said.
    pub course: Option<Course>,
    /// The day, where one was said.
    pub on: Option<Day>,
    /// Splits, each its own (cumulative ones are turned into these).
    pub splits: Vec<Centis>,
    /// How it began.
    pub start: Option<Start>,
    /// Swum at a meet.
    pub meet: bool,
}

impl Test {
    /// A test of which no more was said.
    pub const fn new(distance: Length, time: TypedTime) -> Self {
        Self {
            distance,
            time,
            stroke: None,
            course: None,
            on: None,
            splits: Vec::new(),
            start: None,
            meet: false,
        }
    }
}

/// As far as one can in a set time.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct TimedTest {
    /// How long.
    pub duration: Centis,
    /// How far it went.
    pub distance: Length,
    /// The stroke, where one was said.
    pub stroke: Option<Stroke>,
    /// The course, where one was said.
    pub course: Option<Course>,
    /// The day, where one was said.
    pub on: Option<Day>,
}

/// A repeat set with what came of it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct SetResult {
    /// Repeats.
    pub count: u16,
    /// How far each.
    pub distance: Length,
    /// The stroke, where one was said.
    pub stroke: Option<Stroke>,
    /// The send-off, where one was said.
    pub send_off: Option<SendOff>,
    /// The rest, where one was said instead.
    pub rest: Option<Centis>,
    /// The target, where one was said (`hold 48`).
    pub target: Option<Centis>,
    /// One a repeat, none for a missed one; empty where only an average or a
    /// number made was given.
    pub times: Vec<Option<TypedTime>>,
    /// The average.
    pub average: Option<TypedTime>,
    /// How many were made …
    pub made: Option<u16>,
    /// … of how many.
    pub of: Option<u16>,
    /// With what.
    pub equipment: Vec<Equipment>,
    /// How hard it felt.
    pub rpe: Option<Rpe>,
    /// Beats a minute at the end.
    pub heart_rate: Option<u16>,
    /// Strokes a length.
    pub strokes: Option<u16>,
    /// The day, where one was said.
    pub on: Option<Day>,
}

impl SetResult {
    /// Repeats of which no more was said.
    pub const fn new(count: u16, distance: Length) -> Self {
        Self {
            count,
            distance,
            stroke: None,
            send_off: None,
            rest: None,
            target: None,
            times: Vec::new(),
            average: None,
            made: None,
            of: None,
            equipment: Vec::new(),
            rpe: None,
            heart_rate: None,
            strokes: None,
            on: None,
        }
    }
}

/// The results of a lane's swimmers in the order in which they lead off.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct LaneResults {
    /// Which lane, from 1.
    pub lane: u8,
    /// How far the test was; none for the main repeat of the set in force, of
    /// which each figure is then their average.
    pub distance: Option<Length>,
    /// One a swimmer, none for one who did not swim.
    pub times: Vec<Option<TypedTime>>,
}

/// A leg of a relay.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct RelayLeg {
    /// Legs of the relay, 2 to 10.
    pub count: u8,
    /// How far each.
    pub distance: Length,
    /// The stroke, where one was said.
    pub stroke: Option<Stroke>,
    /// The day, where one was said.
    pub on: Option<Day>,
    /// Which leg, from 1.
    pub leg: u8,
    /// How long it took.
    pub time: TypedTime,
}

/// A session swum, or other training.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Done {
    /// How far.
    pub distance: Option<Length>,
    /// How far, counted in lengths of the pool.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lengths: Option<u16>,
    /// How long.
    pub duration: Option<Centis>,
    /// How hard it felt.
    pub rpe: Option<Rpe>,
    /// The day, where one was said.
    pub on: Option<Day>,
    /// What it was, where it wasn't swimming.
    pub sport: Option<Sport>,
    /// The other sport by its name, where it has one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub activity: Option<String>,
    /// True for `cut short`; `done` alone means all of what was set.
    pub shortened: bool,
}

/// Training that isn't swimming: counts in load and hard days, never in metres.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[derive(IntoStaticStr)]
#[serde(rename_all = "snake_case")]
#[strum(serialize_all = "snake_case")]
pub enum Sport {
    /// On foot.
    Run,
    /// On a bicycle.
    Ride,
    /// Weights, circuits.
    Gym,
    /// Anything else.
    Other,
}

impl Sport {
    /// Its word in the contract.
    pub fn word(self) -> &'static str {
        self.into()
    }
}

/// What to put right in what was stored; the last result unless it says more.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Fix {
    /// The right time.
    pub time: Option<TypedTime>,
    /// The right person.
    pub was: Option<Name>,
    /// Which time is wrong.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub instead: Option<TypedTime>,
    /// Which day's result.
    pub on: Option<Day>,
    /// Which distance's result.
    pub distance: Option<Length>,
    /// How it began: `dive`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub start: Option<Start>,
    /// It was at a meet: `meet`.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub meet: bool,
}

/// An entry for a race at a meet, or its end.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Entry {
    /// How far.
    pub distance: Length,
    /// Which stroke, where one was said.
    pub stroke: Option<Stroke>,
    /// The day of the meet; the next one where none was said.
    pub on: Option<Day>,
    /// The entry time, where one was given.
    pub time: Option<TypedTime>,
    /// Taken out again.
    pub scratched: bool,
}
