//! What a squad's night is for: from its nights before, not from any one
//! swimmer.
//!
//! Hard nights a day or more apart and two a week at most, an easy week after
//! three with hard nights, a test where half of those expected are due one.

use jiff::ToSpan;
use jiff::civil::Date;

use crate::coaching::rulebook::{RuleId, Rulebook};
use crate::coaching::swimmer_state::{SwimmerState, days_between};
use crate::coaching::{Facts, is_hard};
use crate::session::{Purpose, Session};

/// Hard nights of one week at most (common practice, no source).
const HARD_A_WEEK: usize = 2;
/// The share of those expected who are due a test, from which the night is one
/// (ours).
const DUE_SHARE: f64 = 0.5;
/// A test night is not followed by another within this many days (ours).
const TEST_WAITS_DAYS: i64 = 9;

/// What the coach asks of the night, if anything.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NightWish {
    /// Whatever the rules say.
    Any,
    /// Nothing hard.
    Easy,
    /// Hard, if the rules let it.
    Hard,
}

/// What the night of `on` is for and the rules that decided; `before` are the
/// squad's sets of earlier nights, latest first, one a night.
pub(super) fn purpose_of(
    book: &Rulebook,
    on: Date,
    wish: NightWish,
    before: &[&Session],
    expected: &[&Facts],
) -> (Purpose, Vec<RuleId>) {
    let light = || {
        let last = before.first().map(|session| session.purpose);
        if last == Some(Purpose::Technique) { Purpose::Endurance } else { Purpose::Technique }
    };
    if wish == NightWish::Easy {
        return (light(), vec![]);
    }
    if let Some(rule) = easy_for_most(book, expected) {
        return (light(), vec![rule]);
    }
    let hard: Vec<Date> =
        before.iter().filter(|session| is_hard(session)).map(|session| session.on).collect();
    let gap = book.whole(RuleId::HardDaysApart);
    if hard.iter().any(|day| days_between(*day, on) < gap) {
        return (light(), vec![RuleId::HardDaysApart]);
    }
    if is_easy_week(book, on, &hard) {
        return (light(), vec![RuleId::EasyWeekAfter]);
    }
    let week = monday(on);
    let this_week = hard.iter().filter(|day| monday(**day) == week).count();
    if this_week >= HARD_A_WEEK && wish != NightWish::Hard {
        return (light(), vec![RuleId::HardDaysApart]);
    }
    if test_is_due(book, on, before, expected) {
        return (Purpose::Test, vec![RuleId::RetestAfter]);
    }
    let last = before
        .iter()
        .map(|session| session.purpose)
        .find(|purpose| matches!(purpose, Purpose::Threshold | Purpose::PaceHolding));
    match last {
        Some(Purpose::Threshold) => {
            (Purpose::PaceHolding, vec![RuleId::EvenPace, RuleId::DoseMinutes])
        }
        _ => (Purpose::Threshold, vec![RuleId::SlowHalf, RuleId::DoseMinutes]),
    }
}

/// The rule by which more than half of those expected swim easy, whatever is
/// set.
fn easy_for_most(book: &Rulebook, expected: &[&Facts]) -> Option<RuleId> {
    let rules: Vec<RuleId> =
        expected.iter().filter_map(|facts| SwimmerState::of(facts, book).easy_only()).collect();
    let most = rules.iter().copied().max_by_key(|rule| {
        (rules.iter().filter(|other| *other == rule).count(), std::cmp::Reverse(rule.id()))
    });
    most.filter(|_| 2 * rules.len() > expected.len())
}

/// As many weeks with a hard night lie right before this one as may be in a row.
fn is_easy_week(book: &Rulebook, on: Date, hard: &[Date]) -> bool {
    let most = book.whole(RuleId::EasyWeekAfter);
    (1..=most).all(|back| {
        let week = monday(on).saturating_sub((7 * back).days());
        hard.iter().any(|day| monday(*day) == week)
    })
}

fn monday(day: Date) -> Date {
    day.saturating_sub(i64::from(day.weekday().to_monday_zero_offset()).days())
}

fn test_is_due(book: &Rulebook, on: Date, before: &[&Session], expected: &[&Facts]) -> bool {
    let lately = |session: &&&Session| {
        session.purpose == Purpose::Test && days_between(session.on, on) <= TEST_WAITS_DAYS
    };
    if before.iter().any(|session| lately(&session)) || expected.is_empty() {
        return false;
    }
    let may_test: Vec<&&Facts> = expected.iter().filter(|facts| !facts.tests.is_empty()).collect();
    let due = may_test.iter().filter(|facts| {
        let newest = facts.tests.iter().map(|test| test.on).max();
        newest.is_some_and(|day| days_between(day, on) >= book.whole(RuleId::RetestAfter))
    });
    due.count() as f64 >= DUE_SHARE * expected.len() as f64
}
