//! The rules a coach works by: what to swim next, and what a result changes.
//!
//! Pure functions of the facts handed in; knows no texts, no stores, no clock.

mod builder;
mod calendar;
mod drills;
pub mod evening;
mod facts;
mod feedback;
mod focus;
pub mod lanes;
mod limits;
mod next;
mod open_troubles;
mod own_targets;
mod pace_from;
mod paces;
mod promise;
mod purpose;
mod race_outlook;
mod rulebook;
mod season;
mod shown_by_sets;
mod steer;
mod stop_rule;
mod stroke_factors;
mod swap;
mod swimmer_state;
mod targets;
pub mod test_night;
mod volume;
mod week;
mod week_days;
mod week_distance;
mod write_session;

pub use drills::{DRILLS, Drill, Fault, drill};
pub use facts::*;
pub use feedback::{Change, NextSet, SetFeedback, feedback, feedback_by, target_for};
pub use focus::worked_on;
pub use limits::within;
pub use next::{next_session, next_session_by};
pub use own_targets::{OwnTarget, held_to_own};
pub use pace_from::{PaceFrom, main_line, pace_from};
pub use promise::{Promise, holds, promised_by};
pub use race_outlook::{Goal, Outlook, Realism, Split, outlook, outlook_by};
pub use rulebook::{BookError, BookFault, Number, Rule, RuleId, Rulebook, Words, rule, rules};
pub use season::{Phase, phase};
pub use steer::{eases, is_cut_short, within_measure};
pub use stop_rule::{StopRule, stop_rule};
pub use swap::{swap, swap_by};
pub use swimmer_state::is_mending;
pub use targets::{coached_stroke, own_holds, targets};
pub use week::{Week, week, week_by};
pub use write_session::test_to_come;

/// The first day on which pain, illness and what comes after let them swim.
pub fn first_day_to_swim(book: &Rulebook, facts: &Facts) -> jiff::civil::Date {
    calendar::first_day(&swimmer_state::SwimmerState::of(facts, book))
}

/// True if they come back from a break of which `session`, told before, knows nothing.
pub fn after_a_break(book: &Rulebook, facts: &Facts, session: &crate::session::Session) -> bool {
    let comeback = swimmer_state::SwimmerState::of(facts, book).comeback;
    comeback.is_some_and(|comeback| !session.rules.iter().any(|rule| rule == comeback.rule.id()))
}

/// The day of a race that is to be told before whatever is to be swum after it.
pub fn race_to_tell(book: &Rulebook, facts: &Facts) -> Option<jiff::civil::Date> {
    let race = facts.race.as_ref()?;
    purpose::races_on(&swimmer_state::SwimmerState::of(facts, book), race.on).then_some(race.on)
}

/// Whole days without a swim once illness is over.
pub fn clear_days(book: &Rulebook, fever: bool) -> i64 {
    book.whole(if fever { RuleId::FeverDays } else { RuleId::IllDays })
}

/// The last day on which they are known to have swum, where `session` is one to come
/// back with and the sessions told since were not reported.
pub fn unheard_since(
    facts: &Facts,
    session: &crate::session::Session,
) -> Option<jiff::civil::Date> {
    let of_a_break = |rule: &String| write_session::BREAKS.into_iter().any(|one| one.id() == rule);
    session.rules.iter().any(of_a_break).then_some(())?;
    let swims = facts.swims.iter().map(|swim| swim.on).chain(facts.sets.iter().map(|set| set.on));
    let last = swims.chain(facts.tests.iter().map(|test| test.on)).max()?;
    let told = |on: jiff::civil::Date| last < on && on < facts.today;
    facts.suggested.iter().any(|session| told(session.on)).then_some(last)
}

/// True if a session holds threshold work or harder.
pub fn is_hard(session: &crate::session::Session) -> bool {
    session.blocks.iter().flat_map(|block| &block.repeats).any(|line| line.level.is_hard())
}

/// Days swum before a first flat-out swim.
pub fn first_swims(book: &Rulebook) -> usize {
    usize::try_from(book.whole(RuleId::FirstSwimsEasy)).unwrap_or_default()
}

/// Days that must lie between the dates of two hard sessions.
pub fn hard_days_apart(book: &Rulebook) -> i64 {
    book.whole(RuleId::HardDaysApart)
}
