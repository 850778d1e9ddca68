//! What the last swim makes of the next: down at once, up only after two.

use super::rulebook::{RuleId, Rulebook};
use super::standing::{Standing, days_between, in_unit};
use super::{Facts, Swum};
use crate::session::Session;

/// A swim longer ago than this steers nothing (ours).
const STEERS_DAYS: i64 = 14;
/// Effort from this up asks for an easy swim next: near the top of the scale.
const ALL_OUT: f64 = 9.0;

/// The most that the next session may be, after how the last one went.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Measure {
    /// How far, in the unit of her pool.
    pub most: u32,
    /// Nothing hard.
    pub easy: bool,
    /// The rule that says so.
    pub rule: RuleId,
}

/// What her last reported swim says of the next; none where it went as meant.
pub(super) fn measure(standing: &Standing<'_>) -> Option<Measure> {
    let facts = standing.facts;
    let swim = facts.swims.last().filter(|swim| !swim.presumed)?;
    // A test or a paced set since says more.
    let after = |day: jiff::civil::Date| day > swim.on;
    let told_more =
        facts.tests.iter().any(|test| after(test.on)) || facts.sets.iter().any(|set| after(set.on));
    if told_more || days_between(swim.on, facts.today) > STEERS_DAYS {
        return None;
    }
    let told = standing.told_and_swum().rfind(|told| told.on == swim.on).map(Session::amount);
    let swum = swim.distance.map(|distance| in_unit(distance, facts.course));
    let effort = swim.rpe.map_or(0.0, |rpe| rpe.value());
    let hard = effort >= standing.book.number(RuleId::HighEffort);
    match (swum, told) {
        (Some(swum), Some(told))
            if f64::from(swum) < standing.book.share(RuleId::CutShort) * f64::from(told) =>
        {
            Some(Measure { most: swum, easy: hard, rule: RuleId::CutShort })
        }
        (swum, told) if hard => {
            let from = swum.into_iter().chain(told).min()?;
            let most = from * 9 / 10;
            Some(Measure { most, easy: effort >= ALL_OUT, rule: RuleId::HighEffort })
        }
        _ => None,
    }
}

/// True if the last swim, reported as it was, leaves `session` as it is.
pub fn within_measure(book: &Rulebook, facts: &Facts, session: &Session) -> bool {
    let standing = Standing::of(facts, book);
    measure(&standing).is_none_or(|measure| {
        // Half a hundred is no difference that she would feel.
        session.amount() < measure.most + 50 && !(measure.easy && super::is_hard(session))
    })
}

/// True if `swum`, just reported, was cut short or very hard, so that the next is
/// less.
pub fn eases(book: &Rulebook, facts: &Facts, swum: &Swum) -> bool {
    facts.swims.last() == Some(swum) && measure(&Standing::of(facts, book)).is_some()
}
