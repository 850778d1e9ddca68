//! How it is going for one swimmer: tests over time, sets against their time to
//! hold, weeks, what was offered and what was done, and what comes next.

use std::collections::BTreeMap;

use jiff::ToSpan;
use jiff::civil::Date;

use super::name_on_page::Person;
use crate::coaching::SetSwum;
use crate::desk::decision::view::View;
use crate::desk::known::standing_sessions::that_stand;
use crate::desk::known::trials::{trials, trials_from_a_push};
use crate::desk::squad::overview;
use crate::history::{Swimmer, TroubleKind};
use crate::language::Language;
use crate::message::Name;
use crate::reply::Trend;
use crate::session::{Purpose, Session};
use crate::swim::Trial;
use crate::swim::critical_speed::{self, PaceBand};
use crate::swim::load::Load;
use crate::units::{Centis, Unit};

/// How many weeks back (ours: a block of training and the one before).
const WEEKS: i64 = 12;

/// How many days back what was offered and done is told (ours: what is remembered).
const DAYS: i64 = 28;

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
    /// Days of the last four weeks on which anything was offered or swum, the latest
    /// first.
    pub days: Vec<DaySeen>,
    /// The session they were told last, if it still holds and nothing keeps them out of
    /// the water.
    pub next: Option<Session>,
    /// The unit of all amounts.
    pub unit: Unit,
}

/// What was offered on a day, and what was done on it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DaySeen {
    /// The day.
    pub on: Date,
    /// What the session offered was for, and how far it was.
    pub offered: Option<(Purpose, u32)>,
    /// How far they swam, where that is known.
    pub done: Option<u32>,
    /// Not told by themselves: they were there and the set was known.
    pub presumed: bool,
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
pub fn one(view: &View<'_>, name: &Name, language: Language) -> Option<One> {
    let swimmer = view.swimmer(name)?;
    let unit = view.course_of(name).unit();
    let sets = swimmer.sets.as_of(view.now()).map(|kept| &kept.what).rev();
    let facts = view.facts(name)?;
    let next = (!swimmer.is_stopped(view.now()))
        .then(|| that_stand(&view.told_since(swimmer, &facts)).into_iter().next())
        .flatten();
    Some(One {
        squad: view.squad.name.clone(),
        language,
        today: view.today,
        who: Person::of(view, name),
        tests: tests(view, swimmer),
        sets: sets.filter(|set| set.set.target.is_some()).take(SETS).cloned().collect(),
        weeks: weeks(view, swimmer, unit),
        days: days(view, swimmer, &facts.suggested, unit),
        next,
        unit,
    })
}

/// By day; of several offers for one the last holds.
fn days(view: &View<'_>, swimmer: &Swimmer, offered: &[Session], unit: Unit) -> Vec<DaySeen> {
    let since = view.today.saturating_sub((DAYS - 1).days());
    let mut days: BTreeMap<Date, DaySeen> = BTreeMap::new();
    let nothing = |on| DaySeen { on, offered: None, done: None, presumed: false };
    for session in offered.iter().filter(|one| since <= one.on && one.on <= view.today) {
        let day = days.entry(session.on).or_insert_with(|| nothing(session.on));
        day.offered = Some((session.purpose, session.amount()));
    }
    for swum in view.swum_since(swimmer, since) {
        let Some(distance) = swum.distance.filter(|_| swum.on <= view.today) else { continue };
        let day = days.entry(swum.on).or_insert_with(|| nothing(swum.on));
        let far = in_unit(distance.metres().get(), unit);
        day.done = Some(day.done.unwrap_or_default() + far);
        day.presumed |= swum.presumed;
    }
    days.into_values().rev().collect()
}

fn in_unit(metres: f64, unit: Unit) -> u32 {
    (metres / unit.in_metres()).round() as u32
}

fn tests(view: &View<'_>, swimmer: &Swimmer) -> Vec<TestSeen> {
    let all: Vec<Trial> = trials(swimmer, view).collect();
    let alike = trials_from_a_push(swimmer, view);
    let seen = all.iter().enumerate().map(|(at, trial)| {
        let known = all.get(..=at).unwrap_or_default();
        let critical = critical_speed::estimate(known, trial.on, trial.stroke, trial.course);
        let (trend, _) = overview::trend(alike.get(..=at).unwrap_or_default());
        TestSeen { trial: *trial, trend, critical: critical.band }
    });
    let skipped = all.len().saturating_sub(TESTS);
    seen.skip(skipped).collect()
}

fn weeks(view: &View<'_>, swimmer: &Swimmer, unit: Unit) -> Vec<WeekSeen> {
    let since = view.today.saturating_sub((7 * WEEKS - 1).days());
    let first = |week: i64| since.saturating_add((7 * week).days());
    // Nothing is told of the time before they joined.
    let joined = |week: &i64| first(*week).saturating_add(6.days()) >= swimmer.joined_on;
    (0..WEEKS).filter(joined).map(|week| of_week(view, swimmer, unit, first(week))).collect()
}

fn of_week(view: &View<'_>, swimmer: &Swimmer, unit: Unit, from: Date) -> WeekSeen {
    let now = view.now();
    let until = from.saturating_add(6.days());
    let is_in = |on: Date| from <= on && on <= until;
    let swum = || view.swum_since(swimmer, from).into_iter().filter(|swum| is_in(swum.on));
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
            let over = kept.what.closed.map(|(_, closed)| view.squad.local_day(closed));
            is(&kept.what.kind) && kept.on <= until && over.unwrap_or(view.today) >= from
        })
    };
    WeekSeen {
        from,
        amount: in_unit(
            swum().filter_map(|swum| swum.distance).map(|far| far.metres().get()).sum(),
            unit,
        ),
        planned: planned.next().map(|week| in_unit(week.distance.metres().get(), unit)),
        load: load.sum(),
        ill: had(|kind| matches!(kind, TroubleKind::Ill { .. })),
        pain: had(|kind| matches!(kind, TroubleKind::Pain { .. })),
        away: (0..7)
            .map(|day| from.saturating_add(i64::from(day).days()))
            .any(|day| day <= view.today && swimmer.is_away(day, now)),
    }
}
