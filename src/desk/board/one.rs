//! How it is going for one swimmer: tests over time, sets against their time to
//! hold, weeks.

use jiff::ToSpan;
use jiff::civil::Date;

use super::Person;
use crate::coaching::SetSwum;
use crate::desk::bench::Desk;
use crate::desk::facts::{trials, trials_from_a_push};
use crate::desk::people;
use crate::language::Language;
use crate::message::Name;
use crate::profile::{Swimmer, TroubleKind};
use crate::reply::Trend;
use crate::swim::Trial;
use crate::swim::critical_speed::{self, PaceBand};
use crate::swim::load::Load;
use crate::units::{Centis, Unit};

/// How many weeks back (ours: a block of training and the one before).
const WEEKS: i64 = 12;
/// How many tests and sets are shown at most, the latest.
const TESTS: usize = 24;
const SETS: usize = 6;

/// All that a swimmer's page shows.
#[derive(Debug, Clone, PartialEq)]
pub struct One {
    /// The squad's name.
    pub squad: String,
    /// The reader's language.
    pub language: Language,
    /// The day it is as of.
    pub today: Date,
    /// Who.
    pub who: Person,
    /// Their tests, oldest first.
    pub tests: Vec<TestSeen>,
    /// Sets with a time to hold, the latest first.
    pub sets: Vec<SetSwum>,
    /// Weeks, oldest first, the last one ending today.
    pub weeks: Vec<WeekSeen>,
    /// The unit of the weeks' amounts.
    pub unit: Unit,
}

/// A test, and what was known after it.
#[derive(Debug, Clone, PartialEq)]
pub struct TestSeen {
    /// The swim.
    pub trial: Trial,
    /// What it says beside the one before it of its kind.
    pub trend: Trend,
    /// The critical pace by all tests up to it, with its band.
    pub critical: Option<PaceBand>,
}

/// A week.
#[derive(Debug, Clone, PartialEq)]
pub struct WeekSeen {
    /// Its first day.
    pub from: Date,
    /// How far, in the page's unit.
    pub amount: u32,
    /// How far it was planned, in the same.
    pub planned: Option<u32>,
    /// Effort times minutes, where both were said.
    pub load: Load,
    /// Ill on a day of it.
    pub ill: bool,
    /// In pain on a day of it.
    pub pain: bool,
    /// Away on a day of it.
    pub away: bool,
}

impl One {
    /// True if it tells of their health.
    pub fn is_of_health(&self) -> bool {
        self.weeks.iter().any(|week| week.ill || week.pain)
    }
}

/// The page of a swimmer of the squad.
pub fn one(desk: &Desk<'_>, name: &Name) -> Option<One> {
    let swimmer = desk.swimmer(name)?;
    let unit = desk.course_of(name).unit();
    let sets = swimmer.sets.as_of(desk.now()).map(|kept| &kept.what).rev();
    Some(One {
        squad: desk.squad.name.clone(),
        language: desk.language(),
        today: desk.today,
        who: Person::of(desk, name),
        tests: tests(desk, swimmer),
        sets: sets.filter(|set| set.set.target.is_some()).take(SETS).cloned().collect(),
        weeks: weeks(desk, swimmer, unit),
        unit,
    })
}

fn tests(desk: &Desk<'_>, swimmer: &Swimmer) -> Vec<TestSeen> {
    let all: Vec<Trial> = trials(swimmer, desk).collect();
    let alike = trials_from_a_push(swimmer, desk);
    let seen = all.iter().enumerate().map(|(at, trial)| {
        let known = &all[..=at];
        let critical = critical_speed::estimate(known, trial.on, trial.stroke, trial.course);
        let (trend, _) = people::trend(alike.get(..=at).unwrap_or_default());
        TestSeen { trial: *trial, trend, critical: critical.band }
    });
    let skipped = all.len().saturating_sub(TESTS);
    seen.skip(skipped).collect()
}

fn weeks(desk: &Desk<'_>, swimmer: &Swimmer, unit: Unit) -> Vec<WeekSeen> {
    let since = desk.today.saturating_sub((7 * WEEKS - 1).days());
    let first = |week: i64| since.saturating_add((7 * week).days());
    // Nothing is told of the time before they joined.
    let joined = |week: &i64| first(*week).saturating_add(6.days()) >= swimmer.joined_on;
    (0..WEEKS).filter(joined).map(|week| of_week(desk, swimmer, unit, first(week))).collect()
}

fn of_week(desk: &Desk<'_>, swimmer: &Swimmer, unit: Unit, from: Date) -> WeekSeen {
    let now = desk.now();
    let until = from.saturating_add(6.days());
    let is_in = |on: Date| from <= on && on <= until;
    let in_unit = |metres: f64| (metres / unit.in_metres()).round() as u32;
    let swum = || desk.swum_since(swimmer, from).into_iter().filter(|swum| is_in(swum.on));
    let other = swimmer.other.since(from, now).map(|kept| &kept.what);
    let efforts = swum().map(|swum| (swum.rpe, swum.minutes));
    let efforts =
        efforts.chain(other.filter(|one| is_in(one.on)).map(|one| (one.rpe, one.minutes)));
    let load = efforts.filter_map(|(rpe, minutes)| {
        Some(Load::of(rpe?, Centis::from_whole_seconds(u32::from(minutes?) * 60).ok()?))
    });
    let planned = swimmer.weeks.as_of(now).rev().map(|kept| &kept.what);
    let mut planned = planned.filter(|week| is_in(week.starts));
    let had = |is: fn(&TroubleKind) -> bool| {
        let mut told = swimmer.troubles.as_of(now).filter(|kept| kept.what.kind.is_told());
        told.any(|kept| {
            let over = kept.what.closed.map(|(_, closed)| desk.squad.local_day(closed));
            is(&kept.what.kind) && kept.on <= until && over.unwrap_or(desk.today) >= from
        })
    };
    WeekSeen {
        from,
        amount: in_unit(
            swum().filter_map(|swum| swum.distance).map(|far| far.metres().get()).sum(),
        ),
        planned: planned.next().map(|week| in_unit(week.distance.metres().get())),
        load: load.sum(),
        ill: had(|kind| matches!(kind, TroubleKind::Ill { .. })),
        pain: had(|kind| matches!(kind, TroubleKind::Pain { .. })),
        away: (0..7)
            .map(|day| from.saturating_add(i64::from(day).days()))
            .any(|day| day <= desk.today && swimmer.is_away(day, now)),
    }
}
