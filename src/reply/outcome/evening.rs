//! The squad's evening: its set by lanes, and what became of it on the way.

use crate::coaching::evening::{Beyond, GivenUp, Tight};
use crate::message::Name;
use crate::session::{Limit, Repeat, Session};
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
    /// Send-offs that had to be longer than written.
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
}

/// An end, by the clock where the start is known, else counted from now.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ends {
    /// At this time.
    At(Time),
    /// In so many seconds.
    In(u32),
}
