//! The squad and its swimmers at a glance.

use jiff::civil::Date;
use serde::Serialize;
use strum::{IntoStaticStr, VariantNames};

use crate::coaching::{Race, Trouble};
use crate::history::{FlyingLeg, Guest, PutRight};
use crate::message::{Name, SquadFilter};
use crate::session::Limit;
use crate::swim::Trial;
use crate::swim::even_pace::Target;
use crate::units::Equipment;

/// The squad at a glance.
#[derive(Debug, Clone, PartialEq)]
pub struct SquadReply {
    /// The squad's name.
    pub squad: String,
    /// Its swimmers.
    pub swimmers: Vec<SquadRow>,
    /// Which of them were asked for; all where `None`.
    pub filter: Option<SquadFilter>,
    /// Who comes, where that was asked: then the swimmers are those who do.
    pub night: Option<super::NightReply>,
}

/// One line of the squad.
#[derive(Debug, Clone, PartialEq)]
pub struct SquadRow {
    /// Who.
    pub swimmer: Name,
    /// A guest, and what their pace is taken to be.
    pub guest: Option<Guest>,
    /// Their last test.
    pub last_test: Option<Trial>,
    /// Their critical pace, seconds per 100.
    pub critical_per_100_s: Option<f64>,
    /// Where they are going.
    pub trend: Trend,
    /// True where that is told by a race at a meet beside a test in training.
    pub trend_across: bool,
    /// Their next race, where that is asked.
    pub race: Option<Race>,
    /// What to look at.
    pub flags: Vec<Flag>,
    /// The day they were last heard from or seen at the pool.
    pub last_seen: Option<Date>,
    /// What is open, where that is asked by those on deck.
    pub open: Vec<Trouble>,
    /// The day they were last heard from.
    pub last_heard: Option<Date>,
}

/// Where a swimmer's tests are going.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[derive(IntoStaticStr, VariantNames)]
#[serde(rename_all = "snake_case")]
pub enum Trend {
    /// Faster, more likely than not to be real.
    Up,
    /// Too close to say.
    Flat,
    /// Slower, more likely than not to be real.
    Down,
    /// Fewer than two tests alike.
    Unknown,
}

/// What a coach should look at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[derive(IntoStaticStr, VariantNames)]
#[serde(rename_all = "snake_case")]
pub enum Flag {
    /// No test for six weeks.
    Overdue,
    /// Pain, illness or a stop is open.
    Hurt,
    /// Not heard from for ten days.
    Silent,
}

/// One swimmer at a glance.
#[derive(Debug, Clone, PartialEq)]
pub struct SwimmerReply {
    /// Their line.
    pub row: SquadRow,
    /// Their best time for each distance, stroke and course.
    pub bests: Vec<Trial>,
    /// Their latest tests, latest first.
    pub latest: Vec<Trial>,
    /// Of these, those that were put right, and by whom.
    pub put_right: Vec<(Trial, PutRight)>,
    /// The coach's focus.
    pub focus: Option<String>,
    /// Times to hold that the coach set.
    pub own_targets: Vec<Target>,
    /// What they leave out, and all the kit they have.
    pub limits: (Vec<Limit>, Option<Vec<Equipment>>),
    /// Their latest legs of relays that began with a takeover, latest first.
    pub legs: Vec<(Date, FlyingLeg)>,
    /// Their next race.
    pub race: Option<Race>,
    /// What was open of them lately, and the day it was over, latest first, for
    /// those on deck.
    pub over: Vec<(Trouble, Date)>,
    /// The coach's latest notes, latest first, for those on deck.
    pub notes: Vec<(Date, String)>,
    /// Where it is drawn, for themselves alone.
    pub page: Option<OwnPage>,
}

/// The address of a swimmer's own page.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OwnPage {
    /// It.
    pub url: String,
    /// How long it is open.
    pub hours: i64,
}
