//! Where in the season a day lies: the phases before a race, and after it.
//!
//! Knows the race and the calendar; not how a week or a session is made.

use jiff::ToSpan;
use jiff::civil::Date;

use super::paces::Paces;
use super::rulebook::{RuleId, Rulebook};
use super::swimmer_state::{SwimmerState, days_between};
use super::{Facts, Race, WeekKind};
use crate::swim::Trial;
use crate::units::Distance;

/// What the weeks round a day are for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Phase {
    /// Back after a break, illness or pain.
    Return,
    /// Far from a race, or before any test: distance first.
    Base,
    /// Threshold and pace in turn.
    Build,
    /// Race rhythm.
    Sharpen,
    /// Less and sharp.
    Taper,
    /// Easy after a race.
    Recover,
}

/// Days before a race in which race rhythm comes first (common practice, no source).
const SHARPEN_DAYS: i64 = 28;
/// Days before a race in which work is built up (common practice, no source).
const BUILD_DAYS: i64 = 84;

/// The phase of the day of `facts`.
pub fn phase(facts: &Facts) -> Phase {
    phase_on(&SwimmerState::of(facts, &Rulebook::default()), facts.today)
}

/// The phase of `day`.
pub(super) fn phase_on(state: &SwimmerState<'_>, day: Date) -> Phase {
    let facts = state.facts;
    if state.open.lowers() || state.comeback.is_some() {
        return Phase::Return;
    }
    let Some(race) = race_ahead(facts, day) else {
        return match after_race(state, day) {
            true => Phase::Recover,
            false => Phase::Build,
        };
    };
    let left = days_between(day, race.on);
    if left <= taper_days(state) {
        Phase::Taper
    } else if left <= SHARPEN_DAYS {
        Phase::Sharpen
    } else if left <= BUILD_DAYS {
        Phase::Build
    } else {
        Phase::Base
    }
}

/// The race that lies on `day` or after it.
pub(super) fn race_ahead(facts: &Facts, day: Date) -> Option<&Race> {
    facts.race.as_ref().filter(|race| race.on >= day)
}

/// Days before a race in which they swim less: fewer for few swims a week.
pub(super) fn taper_days(state: &SwimmerState<'_>) -> i64 {
    state.book.whole(match state.facts.sessions_a_week {
        0..=3 => RuleId::TaperDays,
        _ => RuleId::TaperDaysMany,
    })
}

/// The share of the usual distance that a taper leaves.
pub(super) fn taper_share(state: &SwimmerState<'_>) -> (f64, RuleId) {
    let rule = match state.facts.sessions_a_week {
        0..=3 => RuleId::TaperShare,
        _ => RuleId::TaperShareMany,
    };
    (state.book.share(rule), rule)
}

/// A race swum, or one tapered for, lies less than a week back.
fn after_race(state: &SwimmerState<'_>, day: Date) -> bool {
    let facts = state.facts;
    let races = facts.race.iter().chain(&facts.raced);
    let swum = races.filter(|race| race.on < day).max_by_key(|race| race.on);
    let days = state.book.whole(recover_rule(swum));
    let tapered = facts.weeks.iter().rev().find(|week| days_between(week.starts, day) >= 7);
    let tapered = tapered
        .filter(|week| week.kind == WeekKind::Taper && days_between(week.starts, day) < 7 + days);
    match swum {
        Some(race) => days_between(race.on, day) <= days,
        None => tapered.is_some(),
    }
}

/// How long a race wants: a long one a week, as does one of which nothing is known.
pub(super) fn recover_rule(race: Option<&Race>) -> RuleId {
    match race.is_some_and(|race| race.distance.metres().get() < LONG_RACE_M) {
        true => RuleId::RecoverDaysShort,
        false => RuleId::RecoverDays,
    }
}

/// A race from here up wants a week to recover from (common practice, no source).
const LONG_RACE_M: f64 = 800.0;

/// The race as a swim to rehearse: in the time hoped for, unless that is out of
/// reach, else in the time predicted.
pub(super) fn rehearsed(facts: &Facts, paces: &Paces) -> Option<Trial> {
    let race = race_ahead(facts, facts.today)?;
    let distance = Distance::new(race.distance.amount(), paces.unit()).ok()?;
    // The pace of another stroke rehearses nothing.
    let stroke = Some(paces.stroke).filter(|stroke| *stroke == race.stroke)?;
    let predicted = paces.predicted(distance)?;
    let hoped = race.goal.filter(|goal| *goal >= predicted.low);
    Some(Trial {
        distance,
        time: hoped.unwrap_or(predicted.time).min(predicted.time),
        stroke,
        course: paces.course,
        on: facts.today,
        meet: true,
    })
}

/// The day on which the taper for the race begins.
pub(super) fn taper_from(state: &SwimmerState<'_>, race: &Race) -> Date {
    race.on.saturating_sub(taper_days(state).days())
}
