//! The squad's evening: its set by lanes, and what became of it on the way.

use crate::coaching::evening::{Beyond, Expected, GivenUp, Tight};
use crate::coaching::lanes::{Gap, Shortfall};
use crate::message::Name;
use crate::reply::NightLine;
use crate::session::{Limit, Repeat, Session};
use crate::units::Lane;
use jiff::civil::{Date, Time};

/// The set of a night, in the versions of its lanes.
#[derive(Debug, Clone, PartialEq)]
pub struct EveningReply {
    /// The night.
    pub on: Date,
    /// Minutes booked.
    pub minutes: u16,
    /// One a lane; never empty.
    pub lanes: Vec<LaneReply>,
    /// One lane alone was asked for: it is told whole, with each one's times.
    pub only: Option<u8>,
    /// It is said in a room, so it names nobody.
    pub in_room: bool,
    /// What the whole squad leaves out of it.
    pub without: Vec<Limit>,
}

/// One lane's version.
#[derive(Debug, Clone, PartialEq)]
pub struct LaneReply {
    /// The lane, counted from 1.
    pub lane: u8,
    /// Who swims in it.
    pub swimmers: Vec<Name>,
    /// What it swims.
    pub session: Session,
    /// When it ends, where the night's start is known.
    pub ends: Option<Time>,
    /// Those of them who swim the gentle version; why is not told.
    pub gently: Vec<Name>,
    /// Send-offs that its slowest can't make, which stand.
    pub tight: Vec<Tight>,
    /// Times to hold that are beyond most who swim in it.
    pub beyond: Vec<Beyond>,
    /// The times to hold of those who have their own.
    pub targets: Vec<OwnTargets>,
    /// It is longer than the booking.
    pub too_long: Option<TooLong>,
}

/// One swimmer's times to hold.
#[derive(Debug, Clone, PartialEq)]
pub struct OwnTargets {
    /// Whose.
    pub swimmer: Name,
    /// The lines that have one.
    pub lines: Vec<Repeat>,
    /// Kick, pull, drill and other strokes, with what they are likely to take.
    pub expected: Vec<Expected>,
}

impl OwnTargets {
    /// True if there is nothing to tell.
    pub fn is_empty(&self) -> bool {
        self.lines.is_empty() && self.expected.is_empty()
    }
}

/// Lanes that changed.
#[derive(Debug, Clone, PartialEq)]
pub struct LanesChangedReply {
    /// The night.
    pub on: Date,
    /// What is booked for it from now on, where that was what changed them.
    pub night: Option<NightLine>,
    /// Who, from which lane and to which; none for no lane.
    pub moved: Vec<(Name, Option<Lane>, Option<Lane>)>,
    /// Each lane that changed.
    pub lanes: Vec<LaneNow>,
    /// Limits and wishes that could not be kept.
    pub relaxed: Vec<Shortfall>,
    /// Those who share no lane from now on.
    pub parted: Vec<Name>,
    /// The gap between two swimmers, where that changed.
    pub gap: Option<Gap>,
}

/// A lane that changed.
#[derive(Debug, Clone, PartialEq)]
pub struct LaneNow {
    /// The lane, counted from 1.
    pub lane: u8,
    /// Who swims in it, in the order they lead off.
    pub swimmers: Vec<Name>,
    /// Its main line now.
    pub line: Option<Repeat>,
    /// What it was.
    pub line_was: Option<Repeat>,
    /// When it ends, where it has a set.
    pub now: Option<Ends>,
    /// When it would have ended.
    pub was: Option<Ends>,
    /// Send-offs that its slowest can't make.
    pub tight: Vec<Tight>,
}

/// What doesn't fit, and the smallest change that does.
#[derive(Debug, Clone, PartialEq)]
pub struct TooLong {
    /// By so many seconds.
    pub by_s: u32,
    /// What to give up.
    pub without: Vec<GivenUp>,
    /// It fits without that.
    pub fits: bool,
}

/// A set changed while it is swum.
#[derive(Debug, Clone, PartialEq)]
pub struct ChangedReply {
    /// The night.
    pub on: Date,
    /// Every lane, changed or not.
    pub lanes: Vec<LaneChange>,
    /// Nobody said when it began: counted from the main set on.
    pub from_main: bool,
}

/// What became of one lane's set.
#[derive(Debug, Clone, PartialEq)]
pub struct LaneChange {
    /// The lane, counted from 1.
    pub lane: u8,
    /// What it swims now, whole.
    pub session: Session,
    /// When it would have ended.
    pub was: Ends,
    /// When it ends.
    pub now: Ends,
    /// What was given up.
    pub given_up: Vec<GivenUp>,
    /// Lines that are swum otherwise from now on.
    pub instead: Vec<Repeat>,
    /// It ends in time.
    pub fits: bool,
    /// Some of what it was for is swum or still to come.
    pub keeps_purpose: bool,
    /// Send-offs that its slowest can't make.
    pub tight: Vec<Tight>,
    /// Those of it alone whom it is about; all where none is named.
    pub whom: Vec<Name>,
}

/// An end, by the clock where the start is known, else counted from now.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ends {
    /// At this time.
    At(Time),
    /// In so many seconds.
    In(u32),
}
