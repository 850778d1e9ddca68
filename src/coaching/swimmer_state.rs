//! A swimmer's state today: what is open, what they have behind them, which days were
//! hard.
//!
//! Reads the facts by the rules; decides nothing about the next session.

use std::borrow::Cow;
use std::cell::OnceCell;
use std::collections::{BTreeMap, BTreeSet};

use jiff::ToSpan;
use jiff::civil::Date;

pub(super) use super::open_troubles::Open;
use super::paces::Paces;
use super::rulebook::{RuleId, Rulebook};
use super::{After, Facts, SetSwum, UNSAID_LEVEL, WeekPlanned};
use crate::session::Session;
use crate::units::{Course, Distance};

/// Swims in eight weeks from which a swimmer counts as seasoned (ours).
const SEASONED_SWIMS: usize = 12;
/// Days in which those swims lie.
const SEASONED_DAYS: i64 = 56;
/// Other training this hard (RPE) counts as a hard day (common practice, no source).
const HARD_RPE: f64 = 6.0;

/// Whoever can't swim so far without a stop builds that up first, in metres (common
/// practice, no source).
const FAR_ENOUGH_M: f64 = 180.0;
/// The shortest test, 50 of either unit, in metres.
const SHORTEST_TEST_M: f64 = 45.0;

/// How a swimmer stands on the day of the facts.
pub(super) struct SwimmerState<'a> {
    /// What is known.
    pub facts: &'a Facts,
    /// By which numbers.
    pub book: &'a Rulebook,
    /// What is open, the gravest first.
    pub open: Open,
    /// Coming back from a break, if they are.
    pub comeback: Option<Comeback>,
    /// Days on which they swam or are presumed to have swum, up to today.
    pub days_swum: BTreeSet<Date>,
    hard_days: OnceCell<BTreeSet<Date>>,
    paces: OnceCell<Paces>,
}

/// Coming back from a break.
#[derive(Debug, Clone, Copy)]
pub(super) struct Comeback {
    /// The share of the old distance.
    pub rule: RuleId,
    /// Long enough that old targets are no longer theirs.
    pub targets_are_old: bool,
}

/// The rule by which they come back.
pub(super) const fn return_rule(after: After) -> RuleId {
    match after {
        After::Ill { fever: true } => RuleId::FeverReturnDays,
        _ => RuleId::ReturnDays,
    }
}

/// True while they come back from what was over `since`: no test, no race
/// rehearsal and nothing hard before that is done, whatever is due. It begins on
/// the first day on which they may swim; light pain, and a time away too short to
/// be a break, ask for one gentle swim only.
pub fn is_mending(
    book: &Rulebook,
    since: Date,
    after: After,
    today: Date,
    swum_since: bool,
) -> bool {
    let light = match after {
        After::Away => true,
        After::Pain { level } => level.unwrap_or(UNSAID_LEVEL) < LIGHT_PAIN_BELOW,
        After::Ill { .. } | After::Stop => false,
    };
    if light {
        return !swum_since;
    }
    !swum_since || days_between(since, today) <= book.whole(return_rule(after))
}

/// Pain below this is a note and no more (common practice, no source).
const LIGHT_PAIN_BELOW: u8 = 3;

impl<'a> SwimmerState<'a> {
    /// How they stand by `facts` and `book`.
    pub fn of(facts: &'a Facts, book: &'a Rulebook) -> Self {
        let days_swum = days_swum(facts);
        let comeback = comeback(facts, book, &days_swum);
        let (open, hard_days, paces) = (Open::of(&facts.open), OnceCell::new(), OnceCell::new());
        SwimmerState { facts, book, open, comeback, days_swum, hard_days, paces }
    }

    /// Days that were hard, in the water or out of it, up to today: worked out once,
    /// and only where somebody asks.
    pub fn hard_days(&self) -> &BTreeSet<Date> {
        self.hard_days.get_or_init(|| hard_days_of(self))
    }

    /// Their paces in their own pool, likewise.
    pub fn paces(&self) -> &Paces {
        self.paces.get_or_init(|| Paces::of(self.facts, self.facts.course))
    }

    /// Their paces in the pool of `course`.
    pub fn paces_in(&self, course: Course) -> Cow<'_, Paces> {
        match course == self.facts.course {
            true => Cow::Borrowed(self.paces()),
            false => Cow::Owned(Paces::of(self.facts, course)),
        }
    }

    /// They have enough swims behind them for full doses, and the age for them.
    pub fn seasoned(&self) -> bool {
        let below = self.book.number(RuleId::GentlerBelowAge);
        if self.facts.age.is_some_and(|age| f64::from(age) < below) {
            return false;
        }
        let since = self.facts.today.saturating_sub(SEASONED_DAYS.days());
        self.days_swum.range(since..).count() >= SEASONED_SWIMS
    }

    /// Whether hard work may be written at all, and the rule that says no.
    pub fn easy_only(&self) -> Option<RuleId> {
        if self.open.ill_since.is_some() {
            return Some(RuleId::IllEasy);
        }
        if self.open.pain.is_some() {
            return Some(RuleId::PainEasy);
        }
        if let Some((_, after)) = self.open.mending {
            return Some(return_rule(after));
        }
        if self.open.held {
            return Some(RuleId::Held);
        }
        if !self.facts.cleared {
            return Some(RuleId::NotCleared);
        }
        if let Some(comeback) = self.comeback {
            return Some(comeback.rule);
        }
        let can_swim = |metres: f64| {
            self.facts.ability.unbroken.is_none_or(|far| far.metres().get() >= metres)
        };
        if self.facts.tests.is_empty() && can_swim(SHORTEST_TEST_M) {
            return Some(match self.past_first_swims() {
                true => RuleId::NoTest,
                false => RuleId::FirstSwimsEasy,
            });
        }
        (!can_swim(FAR_ENOUGH_M)).then_some(RuleId::Unbroken)
    }

    /// Targets may be shown: cleared, and no long break since they were made.
    pub fn targets_shown(&self) -> bool {
        self.facts.cleared && self.comeback.is_none_or(|comeback| !comeback.targets_are_old)
    }

    /// Enough easy swims that a first test may be swum.
    pub fn past_first_swims(&self) -> bool {
        let wanted = self.book.whole(RuleId::FirstSwimsEasy);
        i64::try_from(self.days_swum.len()).unwrap_or(i64::MAX) >= wanted
    }

    /// Gentler by age: longer warm-up, more days between hard ones.
    pub fn gentler(&self) -> bool {
        let from = self.book.number(RuleId::GentlerFromAge);
        self.facts.age.is_some_and(|age| f64::from(age) >= from)
    }

    /// Days that must lie between the dates of two hard sessions.
    pub fn hard_gap(&self) -> i64 {
        self.book.whole(match self.gentler() {
            true => RuleId::HardDaysApartOlder,
            false => RuleId::HardDaysApart,
        })
    }

    /// True if `day` is far enough from every hard day known.
    pub fn may_be_hard(&self, day: Date) -> bool {
        let gap = self.hard_gap();
        let squad = self.facts.squad_hard.iter().filter(|hard| **hard != day);
        self.hard_days().iter().chain(squad).all(|hard| days_between(*hard, day).abs() >= gap)
    }

    /// The longest session of the last four weeks that was swum, in the unit of
    /// `course`.
    pub fn longest_session(&self, course: Course) -> Option<u32> {
        let since = self.facts.today.saturating_sub(28.days());
        let swims = self.facts.swims.iter().filter(|swim| swim.on >= since);
        swims.filter_map(|swim| swim.distance.map(|distance| in_unit(distance, course))).max()
    }

    /// What they were told to swim last, be it swum or not, in the unit of `course`:
    /// the measure of what is lowered.
    pub fn told_last(&self, course: Course) -> Option<u32> {
        let told = self.facts.suggested.last();
        let told = told.and_then(|one| Distance::new(one.amount(), one.unit).ok());
        told.map(|distance| in_unit(distance, course))
    }

    /// The sessions told of days on which they swam, the last told of each day.
    pub fn told_and_swum(&self) -> impl DoubleEndedIterator<Item = &Session> {
        let by_day: BTreeMap<Date, &Session> =
            self.facts.suggested.iter().map(|session| (session.on, session)).collect();
        by_day.into_iter().filter(|(day, _)| self.days_swum.contains(day)).map(|(_, told)| told)
    }

    /// The most that a session may be, by the session's own ramp; `None` for a
    /// swimmer of whom no session is known.
    pub fn session_cap(&self, course: Course) -> Option<u32> {
        let longest = f64::from(self.longest_session(course)?);
        let metres = self.book.number(RuleId::RampSessionMetres) / course.unit().in_metres();
        let by_percent = longest * (1.0 + self.book.share(RuleId::RampSession));
        Some(by_percent.max(longest + metres).floor() as u32)
    }
}

/// Whole days from `from` to `to`.
pub(super) fn days_between(from: Date, to: Date) -> i64 {
    i64::from((to - from).get_days())
}

/// A distance in whole units of `course`, rounded down.
pub(super) fn in_unit(distance: Distance, course: Course) -> u32 {
    if distance.unit() == course.unit() {
        return distance.amount();
    }
    (distance.metres().get() / course.unit().in_metres()).floor() as u32
}

/// The plan in force on `day`: the last made of those that cover it.
pub(super) fn plan_on(facts: &Facts, day: Date) -> Option<&WeekPlanned> {
    facts.weeks.iter().rfind(|week| (0..7).contains(&days_between(week.starts, day)))
}

/// The days on which they are known to have swum: reported by them or the coach, or
/// presumed from the register. A session that was only offered is none.
fn days_swum(facts: &Facts) -> BTreeSet<Date> {
    // Of several swims in a row on one day one will do.
    let by_day = facts.swims.chunk_by(|one, next| one.on == next.on);
    let swims = by_day.filter_map(|swims| swims.first()).map(|swim| swim.on);
    let sets = facts.sets.iter().map(|set| set.on);
    let tests = facts.tests.iter().map(|test| test.on);
    swims.chain(sets).chain(tests).filter(|day| *day <= facts.today).collect()
}

fn hard_days_of(state: &SwimmerState<'_>) -> BTreeSet<Date> {
    let facts = state.facts;
    let planned = facts
        .weeks
        .iter()
        .flat_map(|week| week.days.iter())
        .filter(|(day, hard)| *hard && *day < facts.today)
        .map(|(day, _)| *day)
        .filter(|day| plan_on(facts, *day).is_some_and(|week| week.days.contains(&(*day, true))));
    // Of several sessions suggested for one day the last counts.
    let by_day: BTreeMap<Date, &Session> =
        facts.suggested.iter().map(|session| (session.on, session)).collect();
    let suggested = by_day
        .into_iter()
        .filter(|(day, session)| *day < facts.today && super::is_hard(session))
        .map(|(day, _)| day);
    let swum = facts.swims.iter().filter(|swim| swim.hard).map(|swim| swim.on);
    let is_hard_set = |set: &&SetSwum| {
        let level = |target| state.paces().level(set.set.distance, target);
        set.set.target.is_none_or(|target| level(target).is_hard())
    };
    let sets = facts.sets.iter().filter(is_hard_set).map(|set| set.on);
    let tests = facts.tests.iter().map(|test| test.on);
    let other = facts
        .other
        .iter()
        .filter(|other| other.rpe.is_none_or(|rpe| rpe.value() >= HARD_RPE))
        .map(|other| other.on);
    planned.chain(suggested).chain(swum).chain(sets).chain(tests).chain(other).collect()
}

/// The latest break of ten days or more whose return weeks are not over. A break lies
/// between two days on which they are known to have swum, or the last and today; it is
/// none if the squad swam meanwhile and nobody says that they were missing. For
/// somebody who reports nothing, only a time that they said they were away.
fn comeback(facts: &Facts, book: &Rulebook, days_swum: &BTreeSet<Date>) -> Option<Comeback> {
    let mut days: Vec<Date> = days_swum.iter().copied().filter(|day| *day < facts.today).collect();
    if days.is_empty() {
        let (from, back) = facts.away.iter().rfind(|(_, back)| *back <= facts.today)?;
        days.extend([*from, *back]);
    }
    let first = days.first().copied();
    let with_squad = facts.with_squad.iter().copied();
    days.extend(with_squad.filter(|night| Some(*night) > first && *night < facts.today));
    days.sort_unstable();
    days.push(facts.today);
    let tested = |day: Date| facts.tests.iter().any(|test| test.on == day);
    days.windows(2).rev().find_map(|pair| {
        let [before, back] = pair else { return None };
        let away = days_between(*before, *back);
        if away < book.whole(RuleId::BreakDays) {
            return None;
        }
        let (rule, weeks) = match away {
            ..=20 => (RuleId::BreakShare, 1),
            21..=42 => (RuleId::LongBreakShare, 2),
            _ => (RuleId::LongestBreakShare, 3),
        };
        // Who swims a flat-out test on their first day back swam before it, unreported.
        let over = days_between(*back, facts.today) >= weeks * 7 || (tested(*back) && away <= 42);
        let retested = facts.tests.iter().any(|test| test.on >= *back);
        (!over).then_some(Comeback { rule, targets_are_old: away > 20 && !retested })
    })
}
