//! What the last swim makes of the next: down at once, up only after two.

use jiff::civil::Date;

use super::calendar::day_of_next;
use super::rulebook::{RuleId, Rulebook};
use super::swimmer_state::{SwimmerState, days_between, in_unit};
use super::{Facts, Swum};
use crate::session::Session;

/// A swim longer ago than this steers nothing (ours).
const STEERS_DAYS: i64 = 14;
/// Effort from this up asks for an easy swim next: near the top of the scale.
const ALL_OUT: f64 = 9.0;

/// The most that the next session may be, after how the last one went.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Measure {
    /// How far, in the unit of their pool.
    pub most: u32,
    /// Nothing hard.
    pub easy: bool,
    /// The rule that says so.
    pub rule: RuleId,
}

/// What their last reported swim and their last night say of the next; none where both
/// were as meant.
pub(super) fn measure(state: &SwimmerState<'_>) -> Option<Measure> {
    measure_on(state, day_of_next(state))
}

/// The same where the next is on that day.
fn measure_on(state: &SwimmerState<'_>, on: Date) -> Option<Measure> {
    match (worn_out(state, on), after_last_swim(state.facts, state.book)) {
        (Some(tired), Some(swum)) if swum.most < tired.most => Some(Measure { easy: true, ..swum }),
        (tired, swum) => tired.or(swum),
    }
}

/// They said that they are tired and have not swum since: a step less, and easy.
fn worn_out(state: &SwimmerState<'_>, on: Date) -> Option<Measure> {
    let facts = state.facts;
    let said = facts.tired?;
    let lasts = state.book.whole(RuleId::Tired);
    let swum_since = state.days_swum.range(said..).next_back().is_some_and(|day| *day > said);
    if swum_since || days_between(said, on) > lasts {
        return None;
    }
    let usual = state.longest_session(facts.course);
    let from = state.told_last(facts.course).into_iter().chain(usual).min();
    let most = from.map_or(u32::MAX, a_step_less);
    Some(Measure { most, easy: true, rule: RuleId::Tired })
}

fn a_step_less(amount: u32) -> u32 {
    amount * 9 / 10
}

fn after_last_swim(facts: &Facts, book: &Rulebook) -> Option<Measure> {
    let swim = facts.swims.last().filter(|swim| !swim.presumed)?;
    // A test or a paced set since says more.
    let after = |day: Date| day > swim.on;
    let told_more =
        facts.tests.iter().any(|test| after(test.on)) || facts.sets.iter().any(|set| after(set.on));
    if told_more || days_between(swim.on, facts.today) > STEERS_DAYS {
        return None;
    }
    // Of several sessions told for that day the last counts.
    let told = facts.suggested.iter().rfind(|told| told.on == swim.on);
    let told = told.filter(|_| swim.on <= facts.today);
    let cut_short = told.is_some_and(|told| is_cut_short(book, swim, told));
    let told = told.map(Session::amount);
    let swum = swim.distance.map(|distance| in_unit(distance, facts.course));
    let effort = swim.rpe.map_or(0.0, |rpe| rpe.value());
    let hard = effort >= book.number(RuleId::HighEffort);
    match (swum, told) {
        (Some(most), _) if cut_short => Some(Measure { most, easy: hard, rule: RuleId::CutShort }),
        (swum, told) if hard => {
            let most = a_step_less(swum.into_iter().chain(told).min()?);
            Some(Measure { most, easy: effort >= ALL_OUT, rule: RuleId::HighEffort })
        }
        _ => None,
    }
}

/// True if so little of `told` was swum that it no longer counts as that session.
pub fn is_cut_short(book: &Rulebook, swum: &Swum, told: &Session) -> bool {
    let meant = f64::from(told.amount()) * told.unit.in_metres();
    swum.distance.is_some_and(|far| far.metres().get() < book.share(RuleId::CutShort) * meant)
}

/// True if the last swim and the last night leave `session`, the next, as it is.
pub fn within_measure(book: &Rulebook, facts: &Facts, session: &Session) -> bool {
    within(&SwimmerState::of(facts, book), session)
}

pub(super) fn within(state: &SwimmerState<'_>, session: &Session) -> bool {
    measure_on(state, session.on).is_none_or(|measure| {
        // Half a hundred is no difference that they would feel.
        session.amount() < measure.most.saturating_add(50)
            && !(measure.easy && super::is_hard(session))
    })
}

/// The rule by which `swum`, just reported, makes the next less: it was cut short or
/// very hard.
pub fn eases(book: &Rulebook, facts: &Facts, swum: &Swum) -> Option<RuleId> {
    facts.swims.last().filter(|last| *last == swum)?;
    after_last_swim(facts, book).map(|measure| measure.rule)
}
