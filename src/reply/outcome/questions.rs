//! What is known of what was asked in somebody's own words.

use jiff::civil::{Date, Time};
use strum::{IntoStaticStr, VariantNames};

use super::{Answer, NightLine};
use crate::coaching::evening::Position;
use crate::message::Name;
use crate::session::Part;
use crate::swim::Trial;
use crate::units::{Centis, Distance};

/// An answer to a question. `who` is somebody else than the sender.
#[derive(Debug, Clone, PartialEq)]
#[derive(IntoStaticStr, VariantNames)]
pub enum Known {
    /// When the next test is.
    NextTest {
        /// Whose.
        who: Option<Name>,
        /// When.
        due: TestDue,
    },
    /// In which lane somebody swims.
    LaneOf {
        /// Who.
        who: Option<Name>,
        /// On which night.
        on: Date,
        /// Which, counted from 1.
        lane: u8,
    },
    /// Who swims in which lane.
    Lanes {
        /// On which night.
        on: Date,
        /// The lanes asked for, each with its swimmers in order.
        lanes: Vec<(u8, Vec<Name>)>,
    },
    /// How often and how far somebody swam.
    Swum(SwumReply),
    /// When the evening is.
    Evening {
        /// The night, or that it is off.
        night: NightLine,
        /// Whether it is on was asked of its day.
        of_day: bool,
        /// The next night, where that one is off.
        next: Option<NightLine>,
    },
    /// What was swum by the clock on a night.
    Results {
        /// The night.
        on: Date,
        /// The best first; never empty.
        lines: Vec<ResultLine>,
    },
    /// Where the evening stands.
    Standing(StandingReply),
    /// The figure that was asked for.
    Told(Answer),
    /// It isn't known, and what.
    Not(Unknown),
}

/// When somebody's next test is.
#[derive(Debug, Clone, PartialEq)]
#[derive(IntoStaticStr, VariantNames)]
pub enum TestDue {
    /// On the test night that is called.
    Called {
        /// The night.
        on: Date,
        /// How far.
        distance: Distance,
    },
    /// Some weeks after the last.
    From {
        /// The first day.
        on: Date,
        /// That day has come.
        now: bool,
        /// The distance worth swimming, where there is one.
        distance: Option<Distance>,
        /// The last test.
        last: Trial,
    },
    /// As soon as they like: there is none yet.
    First,
    /// Not while something is open.
    Waits,
}

/// How often and how far somebody swam, from one day to another.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SwumReply {
    /// Who.
    pub who: Option<Name>,
    /// The first day counted.
    pub from: Date,
    /// The last.
    pub to: Date,
    /// It was asked of a day before `from`, and is counted no further back.
    pub cut: bool,
    /// Days on which they swam.
    pub sessions: usize,
    /// Metres, as far as they are known.
    pub metres: u32,
    /// Sets with results.
    pub sets: usize,
    /// Tests.
    pub tests: usize,
}

/// One swimmer's result of a night.
#[derive(Debug, Clone, PartialEq)]
pub struct ResultLine {
    /// Whose.
    pub who: Option<Name>,
    /// What.
    pub what: Swam,
}

/// What was swum by the clock.
#[derive(Debug, Clone, PartialEq)]
pub enum Swam {
    /// A test, and the time of the one like it before.
    Test(Trial, Option<Centis>),
    /// A set.
    Set {
        /// Repeats.
        count: u16,
        /// How far each.
        distance: Distance,
        /// How many were held, where there was a time to hold.
        held: Option<u16>,
        /// Each in turn, none for a missed one.
        times: Vec<Option<Centis>>,
    },
}

/// Where the evening stands.
#[derive(Debug, Clone, PartialEq)]
pub struct StandingReply {
    /// When it begins, where it has not.
    pub begins: Option<Time>,
    /// When what is booked ends, where that is known.
    pub booked_until: Option<Time>,
    /// Whole minutes until then, while it is on.
    pub left_min: Option<u32>,
    /// The lanes asked for.
    pub lanes: Vec<LaneStanding>,
}

/// Where a lane should be.
#[derive(Debug, Clone, PartialEq)]
pub struct LaneStanding {
    /// Which, counted from 1.
    pub lane: u8,
    /// What it should swim now, while the night is on.
    pub position: Option<Position>,
    /// The parts that come after that.
    pub to_come: Vec<Part>,
    /// When it ends, where the night's start is known.
    pub ends: Option<Time>,
}

/// What isn't known.
#[derive(Debug, Clone, PartialEq)]
#[derive(IntoStaticStr, VariantNames)]
pub enum Unknown {
    /// No lanes are drawn for the night.
    Lanes {
        /// Which.
        on: Date,
    },
    /// Nothing by the clock is on record.
    Results {
        /// Of which night, where one was asked after.
        on: Option<Date>,
    },
    /// No set is on record.
    Set {
        /// Of which night.
        on: Date,
    },
    /// No test night is called.
    TestNight,
    /// There is no night.
    Night {
        /// On the day asked after.
        on: Option<Date>,
        /// The next one.
        next: Option<NightLine>,
    },
}
