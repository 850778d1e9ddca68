//! On which day they swim next.
//!
//! Knows their days, their plan and what keeps them out of the water; not what a day
//! is for.

use jiff::ToSpan;
use jiff::civil::Date;

use super::Facts;
use super::purpose::races_on;
use super::rulebook::RuleId;
use super::season::race_ahead;
use super::swimmer_state::{SwimmerState, plan_on};

/// The first day on which pain or illness lets them swim again.
pub(super) fn first_day(state: &SwimmerState<'_>) -> Date {
    let today = state.facts.today;
    let after = |since: Date, days: i64| since.saturating_add((days + 1).days()).max(today);
    let mut first = today;
    if let Some(since) = state.open.ill_since {
        // Still open today, so the clear days are counted from today, unless they are
        // running.
        let rule = if state.open.fever { RuleId::FeverDays } else { RuleId::IllDays };
        let clear = || after(since.max(today), state.book.whole(rule));
        first = first.max(state.facts.clear_from.unwrap_or_else(clear));
    }
    let stop = state.book.number(RuleId::PainStop);
    if state.open.pain.is_some_and(|level| f64::from(level) >= stop)
        && state.open.pain_since == Some(today)
    {
        first = first.max(today.saturating_add(1.days()));
    }
    if state.open.hurts("ear") {
        // A sore ear stays out of the water.
        first = first.max(today.saturating_add(state.book.whole(RuleId::IllDays).days()));
    }
    first
}

/// The day of the session right ahead: a planned one, one of theirs, or after a
/// rest; that of a race before it.
pub(super) fn day_of_next(state: &SwimmerState<'_>) -> Date {
    let facts = state.facts;
    let first = first_day(state);
    if first > facts.today {
        return first;
    }
    let training = day_of_training(state);
    let from = match state.days_swum.contains(&facts.today) {
        true => facts.today.saturating_add(1.day()),
        false => facts.today,
    };
    let race = race_ahead(facts, from).map(|race| race.on);
    race.filter(|on| *on < training && races_on(state, *on)).unwrap_or(training)
}

fn day_of_training(state: &SwimmerState<'_>) -> Date {
    let facts = state.facts;
    let swum_today = state.days_swum.contains(&facts.today);
    let planned = (i64::from(swum_today)..7)
        .map(|ahead| facts.today.saturating_add(ahead.days()))
        .find(|day| planned_hard(facts, *day).is_some());
    if let Some(day) = planned {
        return day;
    }
    if facts.days.is_empty() {
        let gap = match facts.sessions_a_week {
            0..=3 => 2,
            _ => 1,
        };
        return if swum_today { facts.today.saturating_add(gap.days()) } else { facts.today };
    }
    (i64::from(swum_today)..=14)
        .map(|ahead| facts.today.saturating_add(ahead.days()))
        .find(|day| facts.days.contains(&day.weekday()) && !facts.shut.contains(day))
        .unwrap_or(facts.today)
}

/// Whether the plan in force has a session on `day`, and a hard one.
pub(super) fn planned_hard(facts: &Facts, day: Date) -> Option<bool> {
    plan_on(facts, day)?.days.iter().find(|(planned, _)| *planned == day).map(|(_, hard)| *hard)
}
