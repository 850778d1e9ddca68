//! A question taken apart: what is asked, about whom, of when.

use serde::{Deserialize, Serialize};
use strum::{EnumString, IntoStaticStr, VariantArray};

use super::{Day, Length, Name};
use crate::units::{Centis, Course, Equipment, Stroke};

/// A question in parts. What it leaves out is filled in from what is known.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Question {
    /// What is asked.
    pub sought: Sought,
    /// About whom.
    pub of: Of,
    /// Of which day.
    pub on: Option<Day>,
    /// Of a span of days: its first, and the one behind its last.
    pub within: Option<(Option<Day>, Option<Day>)>,
    /// Of the one before the last: `the time before`.
    pub before: bool,
    /// Over which distance.
    pub length: Option<Length>,
    /// The shorter of two distances: `48 for each 50 in a 200`.
    pub piece: Option<Length>,
    /// In which stroke.
    pub stroke: Option<Stroke>,
    /// The repeats it names: `4x25`.
    pub repeats: Option<u16>,
    /// The times it names; of each all that it may be: `3:05`, `3 min`.
    pub times: Vec<Vec<Centis>>,
    /// The kit it names.
    pub kit: Vec<Equipment>,
    /// The words of the trade it names.
    pub terms: Vec<Term>,
    /// The pool that a time is asked for in.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pool: Option<Course>,
}

/// Whom a question is about.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Of {
    /// Whoever asks, or the one they answer for.
    Sender,
    /// These.
    Named(Vec<Name>),
    /// Those in these lanes.
    Lanes(Vec<u8>),
    /// Everybody.
    All,
}

/// What a question asks for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Sought {
    /// What words of the trade mean.
    Meaning,
    /// What we are.
    Us,
    /// What is kept, and who sees it.
    Data,
    /// Whether what was last sent is kept.
    Stored,
    /// What was swum by the clock.
    Time,
    /// The best over a distance.
    Best,
    /// What a time is in another pool.
    Converted,
    /// Whether that was better than before.
    Versus,
    /// How far off a time, or another, somebody is.
    Gap,
    /// What to hold for a time, and what a time is for each piece of it.
    Pace,
    /// What so much for each piece comes to.
    Sum,
    /// The mean of what was swum.
    Average,
    /// Who is first, last, better, worse, or below a time.
    Ranked(Pick),
    /// How many are, were or will be there.
    Count,
    /// Whether somebody is, was or will be there.
    Came,
    /// When somebody was last there.
    LastCame,
    /// How often and how far somebody swam.
    Swum,
    /// When something was last swum.
    LastSwum,
    /// When a test is.
    TestNight,
    /// How far, or how long, what is set is.
    Total,
    /// What is to be held in it.
    Hold,
    /// Every how long it is left, and what rest that gives.
    Rest,
    /// What tests say of somebody's paces.
    Targets,
    /// Who was not seen or heard of for long.
    Silent,
    /// Who has a test still to swim.
    Untested,
    /// What kit it asks for.
    Kit,
    /// Whether so much more still fits in.
    Room,
    /// Where the set stands by the clock.
    Standing,
    /// Which lane.
    Lane,
    /// What is on.
    Evening,
    /// How many lengths a distance is.
    Lengths,
    /// What somebody is training for.
    Goal,
}

/// Which of many are asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Pick {
    /// The quickest first.
    Quickest,
    /// The slowest first.
    Slowest,
    /// Those who gained on the time before.
    Better,
    /// Those who lost on it.
    Worse,
    /// Those below a time.
    Under,
    /// Those who are nearest to a time and not below it yet.
    Closest,
}

/// A word of the trade that we use ourselves.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[derive(EnumString, IntoStaticStr, VariantArray)]
#[serde(rename_all = "kebab-case")]
#[strum(serialize_all = "kebab-case")]
pub enum Term {
    /// `on 1:05`
    SendOff,
    /// `hold 48`
    Hold,
    /// Critical pace.
    Css,
    /// How hard it was, 1 to 10.
    Rpe,
    /// Each faster than the one before.
    Descend,
    /// Faster within each repeat.
    Build,
    /// The second half faster.
    NegativeSplit,
    /// The time of a part.
    Split,
    /// The four strokes.
    Im,
    /// Arms alone.
    Pull,
    /// Legs alone.
    Kick,
    /// An exercise for the stroke.
    Drill,
    /// The best time so far.
    Best,
    /// Less before a race.
    Taper,
    /// So much slower from first to last.
    Fade,
    /// `8x50`
    Repeats,
    /// Easy at the end.
    SwimDown,
    /// A timed swim over a distance.
    Test,
    /// The kind of pool.
    Course,
}

impl Term {
    /// Its name: `send-off`.
    pub fn name(self) -> &'static str {
        self.into()
    }
}
