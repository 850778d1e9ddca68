//! Results that were reported, and what can be computed from them.

use crate::coaching::{Outlook, RuleId, SetFeedback};
use crate::message::Name;
use crate::session::Repeat;
use crate::session::Session;
use crate::swim::Trial;
use crate::swim::critical_speed::Estimate;
use crate::swim::even_pace::Target;
use crate::swim::prediction::Prediction;
use crate::units::Centis;
use crate::units::Distance;
use crate::units::Lane;
use crate::units::{Rpe, Start};
use jiff::civil::Date;

/// A test, stored, and what it says.
#[derive(Debug, Clone, PartialEq)]
pub struct TestReply {
    /// Whose.
    pub swimmer: Name,
    /// True if it is about someone other than the sender.
    pub other: bool,
    /// The test.
    pub trial: Trial,
    /// True if no test of that distance, stroke and course was faster.
    pub personal_best: bool,
    /// The best before, if there was one.
    pub best_before: Option<Centis>,
    /// Even-pace targets.
    pub targets: Vec<Target>,
    /// The critical speed it leads to.
    pub critical: Estimate,
    /// The distance that would tell most, tested next.
    pub test_next: Option<Distance>,
    /// What to swim next; none where a stop is open.
    pub next: Option<Session>,
    /// The set that was promised and is off, as the paces are new.
    pub dropped: Option<Repeat>,
    /// How it is taken to have begun, where that was not said and matters.
    pub start_taken: Option<Start>,
    /// It is farther than they could swim without a stop before.
    pub farther: bool,
    /// The time hoped for, where it was a race that they had named.
    pub goal: Option<Centis>,
    /// It was sent a second time, and is kept once.
    pub repeat: bool,
}

/// How tests began, as was told afterwards.
#[derive(Debug, Clone, PartialEq)]
pub struct BegunReply {
    /// Each with whose it is, where it is not the sender's own.
    pub tests: Vec<(Option<Name>, Trial)>,
    /// How they began.
    pub start: Start,
    /// Even-pace targets, where it is one test.
    pub targets: Vec<Target>,
}

/// A repeat set, stored, and what to change next time.
#[derive(Debug, Clone, PartialEq)]
pub struct SetReply {
    /// Whose.
    pub swimmer: Name,
    /// True if it is about someone other than the sender.
    pub other: bool,
    /// The set as it was swum, with the target it was judged by.
    pub set: Repeat,
    /// Their lane that night, where it was a part of the squad's set.
    pub lane: Option<Lane>,
    /// What came of it.
    pub feedback: SetFeedback,
    /// The change is what they swim on their next hard day.
    pub promised: bool,
    /// The set that was promised before, in whose place it comes.
    pub replaced: Option<Repeat>,
    /// It was sent a second time, and is kept once.
    pub repeat: bool,
}

/// A session reported.
#[derive(Debug, Clone, PartialEq)]
pub struct DoneReply {
    /// Whose.
    pub swimmer: Name,
    /// How far.
    pub distance: Option<Distance>,
    /// How long.
    pub duration: Option<Centis>,
    /// How hard it felt.
    pub rpe: Option<Rpe>,
    /// When.
    pub on: Date,
    /// Session load: RPE × minutes, where both are known.
    pub load: Option<u32>,
    /// It was cut short or very hard, by which rule the next one is less.
    pub eased: Option<RuleId>,
    /// Metres or yards of the last seven days, this one included.
    pub week: Option<Distance>,
    /// It wasn't swimming.
    pub elsewhere: bool,
    /// It was sent a second time, and is kept once.
    pub repeat: bool,
}

/// Times to hold.
#[derive(Debug, Clone, PartialEq)]
pub struct TargetsReply {
    /// The test they come from.
    pub trial: Trial,
    /// The times.
    pub targets: Vec<Target>,
    /// Of all their times, those that the coach set.
    pub own: Vec<Target>,
    /// The critical speed.
    pub critical: Estimate,
}

/// A predicted time.
#[derive(Debug, Clone, PartialEq)]
pub struct PredictionReply {
    /// The time, its interval and what it rests on.
    pub prediction: Prediction,
    /// For a race: when it is, and what can be said of it.
    pub race: Option<(Date, Outlook)>,
}
