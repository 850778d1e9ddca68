//! Two days of the planned week changed for each other.

use jiff::civil::Date;

use super::rulebook::{RuleId, Rulebook};
use super::swimmer_state::{SwimmerState, days_between, plan_on};
use super::{Facts, Refusal, RefusalReason, WeekPlanned};

/// The planned week with what stood on `one` on `other` and the reverse; either
/// may be a day off.
///
/// # Errors
/// [`RefusalReason::NotPlanned`] where neither day is planned, or they lie in
/// no one plan or in the past; [`RefusalReason::NotHarder`] where the swap
/// would bring two hard days too close.
pub fn swap(facts: &Facts, one: Date, other: Date) -> Result<WeekPlanned, Refusal> {
    swap_by(&Rulebook::default(), facts, one, other)
}

/// [`swap`] by a coach's own numbers.
///
/// # Errors
/// As [`swap`].
pub fn swap_by(
    book: &Rulebook,
    facts: &Facts,
    one: Date,
    other: Date,
) -> Result<WeekPlanned, Refusal> {
    let state = SwimmerState::of(facts, book);
    let no = |rule: RuleId, reason| Refusal { rule: rule.id().to_owned(), reason };
    let not_planned = || no(RuleId::HardDaysApart, RefusalReason::NotPlanned);
    let plan = plan_on(facts, one).ok_or_else(not_planned)?;
    let covers = (0..7).contains(&days_between(plan.starts, other));
    let is_planned = |day: Date| plan.days.iter().any(|(planned, _)| *planned == day);
    if !covers || one.min(other) < facts.today || !(is_planned(one) || is_planned(other)) {
        return Err(not_planned());
    }
    let mut week = plan.clone();
    for (day, _) in &mut week.days {
        if *day == one {
            *day = other;
        } else if *day == other {
            *day = one;
        }
    }
    week.days.sort_unstable();
    let hard: Vec<Date> = week.days.iter().filter(|(_, hard)| *hard).map(|(day, _)| *day).collect();
    let gap = state.hard_gap();
    let close = hard.array_windows().any(|[one, next]| days_between(*one, *next) < gap);
    let close_before = hard.iter().any(|day| *day >= facts.today && !state.may_be_hard(*day));
    if close || close_before {
        return Err(no(RuleId::HardDaysApart, RefusalReason::NotHarder));
    }
    Ok(week)
}
