//! What a day's session is for, by the rules.
//!
//! Knows how they stand and the season; not how a session is made.

use jiff::civil::Date;

use super::calendar::planned_hard;
use super::next::refusal;
use super::promise::{Promise, purpose_of};
use super::rulebook::RuleId;
use super::season::{Phase, phase_on, race_ahead, recover_rule, rehearsed};
use super::steer::measure;
use super::swimmer_state::{SwimmerState, days_between};
use super::{Effort, Refusal, RefusalReason, SessionWish};
use crate::session::Purpose;
use crate::units::Course;

/// Which session is meant: the one right ahead, or the `n`th of a week.
#[derive(Clone, Copy)]
pub(super) enum Turn {
    /// The one right ahead.
    Next,
    /// One of a week, counted among the hard or the light ones.
    OfWeek {
        /// Counted from the first week on.
        count: usize,
        /// Hard work is meant.
        hard: bool,
        /// A test may come on this day.
        test: bool,
    },
}

/// What a session on `on` is for, and the rules that decided.
pub(super) fn purpose_on(state: &SwimmerState<'_>, on: Date, turn: Turn) -> (Purpose, Vec<RuleId>) {
    let facts = state.facts;
    if races_on(state, on) {
        return (Purpose::Race, vec![RuleId::RaceDay]);
    }
    if let Some(rule) = state.easy_only() {
        let mut because = vec![rule];
        if rule == RuleId::NoTest && state.may_be_hard(on) && matches!(turn, Turn::Next) {
            return (Purpose::Test, because);
        }
        if rule == RuleId::Unbroken && matches!(turn, Turn::Next) && farther_is_due(state, on) {
            return (Purpose::Test, because);
        }
        if state.open.lowers() || state.comeback.is_some() {
            return (Purpose::Return, because);
        }
        if state.open.held {
            because.push(RuleId::NothingRaised);
        }
        return (light(state, turn), because);
    }
    let phase = phase_on(state, on);
    let eve = race_ahead(facts, on)
        .is_some_and(|race| days_between(on, race.on) < state.book.whole(RuleId::RaceEve));
    if eve || phase == Phase::Recover {
        let rule = if eve { RuleId::RaceEve } else { recover_rule(facts.raced.as_ref()) };
        return (Purpose::Technique, vec![rule]);
    }
    let spent = measure(state).filter(|measure| measure.easy && matches!(turn, Turn::Next));
    if let Some(measure) = spent {
        // After a bad night not even steady.
        let purpose = match measure.rule {
            RuleId::Tired => Purpose::Technique,
            _ => light(state, turn),
        };
        return (purpose, vec![measure.rule]);
    }
    if facts.promised == Some(Promise::Easy) && matches!(turn, Turn::Next) {
        return (light(state, turn), vec![RuleId::LostFromFirst]);
    }
    let wants_hard = match turn {
        Turn::Next => state.may_be_hard(on) && planned_hard(facts, on).unwrap_or(true),
        Turn::OfWeek { hard, .. } => hard,
    };
    if !wants_hard || facts.course == Course::OpenWater {
        let rule = match facts.course {
            Course::OpenWater => RuleId::OpenWater,
            _ => RuleId::HardDaysApart,
        };
        return (light(state, turn), vec![rule]);
    }
    let may_test = !matches!(turn, Turn::OfWeek { test: false, .. }) && phase != Phase::Taper;
    // What was said of the next hard swim comes before all else that is due.
    match facts.promised_hard() {
        Some(Promise::Set { set }) if may_test => {
            if let Some(purpose) = purpose_of(state, set) {
                return (purpose, vec![RuleId::Promised]);
            }
        }
        Some(Promise::Test) if may_test => return (Purpose::Test, vec![RuleId::CutBacks]),
        // The test brings new paces: nothing hard is written by the old ones.
        Some(Promise::Test) if phase != Phase::Taper => {
            return (light(state, turn), vec![RuleId::CutBacks]);
        }
        _ => {}
    }
    if let Some(rule) = test_due(state, on).filter(|_| may_test) {
        return (Purpose::Test, vec![rule]);
    }
    hard(state, on, turn)
}

/// True where somebody who can't swim far without a stop may try the next longer
/// distance.
fn farther_is_due(state: &SwimmerState<'_>, on: Date) -> bool {
    let newest = state.facts.tests.iter().map(|test| test.on).max();
    let wait = state.book.whole(RuleId::Unbroken);
    measure(state).is_none()
        && state.may_be_hard(on)
        && newest.is_none_or(|newest| days_between(newest, on) >= wait)
}

/// True on the day of a race of somebody who may race: what they swim before it is a
/// warm-up, however they stand, and also on the way back.
pub(super) fn races_on(state: &SwimmerState<'_>, on: Date) -> bool {
    let open = &state.open;
    let today = race_ahead(state.facts, on).is_some_and(|race| race.on == on);
    today && !open.hurts_now() && !open.faint && !open.held && state.facts.cleared
}

/// The test that is due on `on`, if one is: not while one just suggested may
/// still be swum.
fn test_due(state: &SwimmerState<'_>, on: Date) -> Option<RuleId> {
    let facts = state.facts;
    let newest = facts.tests.iter().map(|test| test.on).max()?;
    let asked_for = facts.suggested.iter().any(|session| {
        session.purpose == Purpose::Test
            && (1..=TEST_WAITS_DAYS).contains(&days_between(session.on, on))
    });
    let age = days_between(newest, on);
    if asked_for {
        None
    } else if age >= state.book.whole(RuleId::RetestAfter) {
        Some(RuleId::RetestAfter)
    } else if facts.tests.len() == 1
        && state.seasoned()
        && age >= state.book.whole(RuleId::SecondTestAfter)
    {
        Some(RuleId::SecondTestAfter)
    } else {
        None
    }
}

/// A test suggested and not reported is not suggested again for this long (ours).
const TEST_WAITS_DAYS: i64 = 9;

fn light(state: &SwimmerState<'_>, turn: Turn) -> Purpose {
    let count = match turn {
        Turn::Next => {
            let last = state.told_and_swum().next_back().map(|session| session.purpose);
            usize::from(last == Some(Purpose::Technique))
        }
        Turn::OfWeek { count, .. } => count,
    };
    if count.is_multiple_of(2) { Purpose::Technique } else { Purpose::Endurance }
}

fn hard(state: &SwimmerState<'_>, on: Date, turn: Turn) -> (Purpose, Vec<RuleId>) {
    let paces = state.paces();
    let sprinter = paces.critical.is_none();
    let rehearsable = rehearsed(state.facts, paces).is_some();
    let rotation: &[Purpose] = match (phase_on(state, on), sprinter, state.seasoned()) {
        (Phase::Taper, ..) if rehearsable => &[Purpose::RaceRehearsal],
        (Phase::Sharpen, true, _) if rehearsable => &[Purpose::RaceRehearsal, Purpose::Speed],
        (Phase::Sharpen, false, _) if rehearsable => &[Purpose::RaceRehearsal, Purpose::Threshold],
        (_, true, _) => &[Purpose::Speed, Purpose::PaceHolding],
        (Phase::Base, false, _) => &[Purpose::Threshold, Purpose::Threshold, Purpose::PaceHolding],
        (_, false, true) => &[Purpose::Threshold, Purpose::PaceHolding],
        (_, false, false) => &[Purpose::PaceHolding, Purpose::Threshold],
    };
    let count = match turn {
        Turn::OfWeek { count, .. } => count,
        Turn::Next => {
            let last = state.told_and_swum().rev().find_map(|session| {
                rotation.iter().position(|purpose| *purpose == session.purpose)
            });
            last.map_or(0, |index| index + 1)
        }
    };
    let purpose = rotation.iter().copied().cycle().nth(count).unwrap_or(Purpose::PaceHolding);
    let because = match purpose {
        Purpose::RaceRehearsal => vec![RuleId::RaceRhythm, RuleId::DoseMinutes],
        Purpose::Speed => vec![RuleId::NoThreshold],
        Purpose::Threshold => vec![RuleId::SlowHalf, RuleId::DoseMinutes],
        _ => vec![RuleId::EvenPace, RuleId::DoseMinutes],
    };
    (purpose, because)
}

/// The purpose one step easier or harder, as wished.
pub(super) fn with_effort(
    state: &SwimmerState<'_>,
    on: Date,
    (purpose, mut because): (Purpose, Vec<RuleId>),
    wish: &SessionWish,
) -> Result<(Purpose, Vec<RuleId>), Refusal> {
    let is_hard = !matches!(
        purpose,
        Purpose::Endurance | Purpose::Race | Purpose::Return | Purpose::Technique
    );
    match wish.effort {
        // A warm-up for a race is neither.
        Some(_) if purpose == Purpose::Race => Ok((purpose, because)),
        Some(Effort::Easier) if is_hard => Ok((Purpose::Endurance, vec![RuleId::AskedEasier])),
        Some(Effort::Easier) => {
            because.insert(0, RuleId::AskedEasier);
            let easier =
                if purpose == Purpose::Return { Purpose::Return } else { Purpose::Technique };
            Ok((easier, because))
        }
        Some(Effort::Harder) if !is_hard => {
            let no = state
                .easy_only()
                .or_else(|| (!state.may_be_hard(on)).then_some(RuleId::HardDaysApart));
            if let Some(rule) = no {
                return Err(refusal(rule, RefusalReason::NotHarder));
            }
            Ok(hard(state, on, Turn::Next))
        }
        _ => {
            because.dedup();
            Ok((purpose, because))
        }
    }
}
