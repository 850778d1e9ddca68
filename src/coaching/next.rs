//! The next session of one swimmer.

use jiff::ToSpan;
use jiff::civil::Date;

use super::builder::{Setting, build, least_seconds};
use super::paces::Paces;
use super::rulebook::{RuleId, Rulebook};
use super::season::{Phase, phase_on, race_ahead, rehearsed, taper_share};
use super::standing::{Standing, days_between, in_unit, plan_on};
use super::{Effort, Facts, Refusal, RefusalReason, SessionWish};
use crate::session::{Cue, Purpose, Session};
use crate::swim::next_test::next_test;
use crate::units::{Course, Equipment, Stroke};

/// The next session: what it is for, by the rules; then the best that fits the
/// minutes and the pool.
///
/// # Errors
/// [`RefusalReason::Stopped`] while faintness or chest pain is open,
/// [`RefusalReason::TooShort`] where the minutes hold no warm-up, swim and
/// swim-down, [`RefusalReason::NotHarder`] where harder was asked for against a
/// rule.
pub fn next_session(facts: &Facts, wish: &SessionWish) -> Result<Session, Refusal> {
    next_session_by(&Rulebook::default(), facts, wish)
}

/// [`next_session`] by a coach's own numbers.
///
/// # Errors
/// As [`next_session`].
pub fn next_session_by(
    book: &Rulebook,
    facts: &Facts,
    wish: &SessionWish,
) -> Result<Session, Refusal> {
    let standing = Standing::of(facts, book);
    refuse_if_stopped(&standing)?;
    let on = day_of_next(&standing);
    let purpose = purpose_on(&standing, on, Turn::Next);
    let purpose = with_effort(&standing, on, purpose, wish)?;
    let mut order = Order {
        on,
        purpose,
        minutes: wish.minutes,
        most: wish.distance.map(|distance| in_unit(distance, course_for(facts, wish))),
        aim: None,
        uncapped: false,
    };
    if wish.shorter
        && let Ok(whole) = write(&standing, wish, &order)
    {
        order.most = Some(whole.amount() * 3 / 4);
    }
    write(&standing, wish, &order)
}

/// What a day's session is ordered to be.
pub(super) struct Order {
    /// The day.
    pub on: Date,
    /// What it is for, and why.
    pub purpose: (Purpose, Vec<RuleId>),
    /// Minutes there are; else the booked ones.
    pub minutes: Option<u16>,
    /// At most this far.
    pub most: Option<u32>,
    /// This far, if it can be.
    pub aim: Option<u32>,
    /// Only to see how much the minutes hold: the session's ramp is left aside.
    pub uncapped: bool,
}

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

pub(super) fn refuse_if_stopped(standing: &Standing<'_>) -> Result<(), Refusal> {
    match standing.open.faint {
        true => Err(refusal(RuleId::Stopped, RefusalReason::Stopped)),
        false => Ok(()),
    }
}

pub(super) fn refusal(rule: RuleId, reason: RefusalReason) -> Refusal {
    Refusal { rule: rule.id().to_owned(), reason }
}

/// The first day on which pain or illness lets her swim again.
pub(super) fn first_day(standing: &Standing<'_>) -> Date {
    let today = standing.facts.today;
    let after = |since: Date, days: i64| since.saturating_add((days + 1).days()).max(today);
    let mut first = today;
    if let Some(since) = standing.open.ill_since {
        // Still open today, so the clear days are counted from today.
        let rule = if standing.open.fever { RuleId::FeverDays } else { RuleId::IllDays };
        first = first.max(after(since.max(today), standing.book.whole(rule)));
    }
    let stop = standing.book.number(RuleId::PainStop);
    if standing.open.pain.is_some_and(|level| f64::from(level) >= stop)
        && standing.open.pain_since == Some(today)
    {
        first = first.max(today.saturating_add(1.days()));
    }
    if standing.open.hurts("ear") {
        // A sore ear stays out of the water.
        first = first.max(today.saturating_add(standing.book.whole(RuleId::IllDays).days()));
    }
    first
}

fn day_of_next(standing: &Standing<'_>) -> Date {
    let facts = standing.facts;
    let first = first_day(standing);
    if first > facts.today {
        return first;
    }
    let swum_today = standing.days_swum.contains(&facts.today);
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
    (i64::from(swum_today)..=7)
        .map(|ahead| facts.today.saturating_add(ahead.days()))
        .find(|day| facts.days.contains(&day.weekday()))
        .unwrap_or(facts.today)
}

/// Whether the plan in force has a session on `day`, and a hard one.
fn planned_hard(facts: &Facts, day: Date) -> Option<bool> {
    plan_on(facts, day)?.days.iter().find(|(planned, _)| *planned == day).map(|(_, hard)| *hard)
}

/// What a session on `on` is for, and the rules that decided.
pub(super) fn purpose_on(standing: &Standing<'_>, on: Date, turn: Turn) -> (Purpose, Vec<RuleId>) {
    let facts = standing.facts;
    if let Some(rule) = standing.easy_only() {
        let mut because = vec![rule];
        if rule == RuleId::NoTest && standing.may_be_hard(on) && matches!(turn, Turn::Next) {
            return (Purpose::Test, because);
        }
        if standing.open.lowers() || standing.comeback.is_some() {
            return (Purpose::Return, because);
        }
        if standing.open.held {
            because.push(RuleId::NothingRaised);
        }
        return (light(standing, turn), because);
    }
    let phase = phase_on(standing, on);
    let eve = race_ahead(facts, on)
        .is_some_and(|race| days_between(on, race.on) < standing.book.whole(RuleId::RaceEve));
    if eve || phase == Phase::Recover {
        let rule = if eve { RuleId::RaceEve } else { RuleId::RecoverDays };
        return (Purpose::Technique, vec![rule]);
    }
    let wants_hard = match turn {
        Turn::Next => standing.may_be_hard(on) && planned_hard(facts, on).unwrap_or(true),
        Turn::OfWeek { hard, .. } => hard,
    };
    if !wants_hard || facts.course == Course::OpenWater {
        let rule = match facts.course {
            Course::OpenWater => RuleId::OpenWater,
            _ => RuleId::HardDaysApart,
        };
        return (light(standing, turn), vec![rule]);
    }
    let may_test = !matches!(turn, Turn::OfWeek { test: false, .. }) && phase != Phase::Taper;
    if let Some(rule) = test_due(standing, on).filter(|_| may_test) {
        return (Purpose::Test, vec![rule]);
    }
    hard(standing, on, turn)
}

/// The test that is due on `on`, if one is: not while one just suggested may
/// still be swum.
fn test_due(standing: &Standing<'_>, on: Date) -> Option<RuleId> {
    let facts = standing.facts;
    let newest = facts.tests.iter().map(|test| test.on).max()?;
    let asked_for = facts.suggested.iter().any(|session| {
        session.purpose == Purpose::Test
            && (1..=TEST_WAITS_DAYS).contains(&days_between(session.on, on))
    });
    let age = days_between(newest, on);
    if asked_for {
        None
    } else if age >= standing.book.whole(RuleId::RetestAfter) {
        Some(RuleId::RetestAfter)
    } else if facts.tests.len() == 1
        && standing.seasoned()
        && age >= standing.book.whole(RuleId::SecondTestAfter)
    {
        Some(RuleId::SecondTestAfter)
    } else {
        None
    }
}

/// A test suggested and not reported is not suggested again for this long (ours).
const TEST_WAITS_DAYS: i64 = 9;

fn light(standing: &Standing<'_>, turn: Turn) -> Purpose {
    let count = match turn {
        Turn::Next => {
            let last = standing.facts.suggested.last().map(|session| session.purpose);
            usize::from(last == Some(Purpose::Technique))
        }
        Turn::OfWeek { count, .. } => count,
    };
    [Purpose::Technique, Purpose::Endurance][count % 2]
}

fn hard(standing: &Standing<'_>, on: Date, turn: Turn) -> (Purpose, Vec<RuleId>) {
    let paces = Paces::of(standing.facts, standing.facts.course);
    let sprinter = paces.critical.is_none();
    let rehearsable = rehearsed(standing.facts, paces.course, &paces.tests).is_some();
    let rotation: &[Purpose] = match (phase_on(standing, on), sprinter, standing.seasoned()) {
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
            let last = standing.facts.suggested.iter().rev().find_map(|session| {
                rotation.iter().position(|purpose| *purpose == session.purpose)
            });
            last.map_or(0, |index| index + 1)
        }
    };
    let purpose = rotation[count % rotation.len()];
    let because = match purpose {
        Purpose::RaceRehearsal => vec![RuleId::RaceRhythm, RuleId::DoseMinutes],
        Purpose::Speed => vec![RuleId::NoThreshold],
        Purpose::Threshold => vec![RuleId::SlowHalf, RuleId::DoseMinutes],
        _ => vec![RuleId::EvenPace, RuleId::DoseMinutes],
    };
    (purpose, because)
}

fn with_effort(
    standing: &Standing<'_>,
    on: Date,
    (purpose, mut because): (Purpose, Vec<RuleId>),
    wish: &SessionWish,
) -> Result<(Purpose, Vec<RuleId>), Refusal> {
    let is_hard = !matches!(purpose, Purpose::Endurance | Purpose::Return | Purpose::Technique);
    match wish.effort {
        Some(Effort::Easier) if is_hard => Ok((Purpose::Endurance, because)),
        Some(Effort::Easier) => {
            let easier =
                if purpose == Purpose::Return { Purpose::Return } else { Purpose::Technique };
            Ok((easier, because))
        }
        Some(Effort::Harder) if !is_hard => {
            let no = standing
                .easy_only()
                .or_else(|| (!standing.may_be_hard(on)).then_some(RuleId::HardDaysApart));
            if let Some(rule) = no {
                return Err(refusal(rule, RefusalReason::NotHarder));
            }
            Ok(hard(standing, on, Turn::Next))
        }
        _ => {
            because.dedup();
            Ok((purpose, because))
        }
    }
}

fn course_for(facts: &Facts, wish: &SessionWish) -> Course {
    if wish.open_water { Course::OpenWater } else { facts.course }
}

/// Writes the session that `order` asks for.
pub(super) fn write(
    standing: &Standing<'_>,
    wish: &SessionWish,
    order: &Order,
) -> Result<Session, Refusal> {
    let facts = standing.facts;
    let course = course_for(facts, wish);
    let paces = Paces::of(facts, course);
    let minutes = order.minutes.unwrap_or(facts.minutes);
    let (mut purpose, mut because) = order.purpose.clone();
    if course == Course::OpenWater && is_timed(purpose) {
        purpose = Purpose::Endurance;
        because.insert(0, RuleId::OpenWater);
    }

    let lowered = lowered_to(standing, order.on, course, &mut because);
    let cap = standing.session_cap(course).filter(|_| !order.uncapped);
    let aim = [order.aim, order.most, cap, lowered].into_iter().flatten().min();
    // Three repeats are the least that is a session.
    let aim = aim.map(|aim| aim.max(shortest_session(course)));
    if cap.is_some() && aim == cap {
        because.push(RuleId::RampSession);
    }
    let planned_min = u32::from(minutes.min(LONGEST_MIN))
        .saturating_sub(standing.book.whole(RuleId::BookedLess).unsigned_abs() as u32);
    let places = standing.open.places.clone();
    if !places.is_empty() {
        because.push(RuleId::PainSwap);
    }
    let mut setting = Setting {
        on: order.on,
        purpose,
        paces: &paces,
        book: standing.book,
        budget_s: planned_min * 60,
        aim,
        promised: order.aim.is_some(),
        targets_shown: standing.targets_shown(),
        seasoned: standing.seasoned(),
        kit: kit(standing, wish),
        wanted: wish.with.clone(),
        places,
        drills_before: drills_before(facts),
        test: Some(test_distance(&paces, facts.today)),
        race: rehearsed(facts, course, &paces.tests),
        taper: phase_on(standing, order.on) == Phase::Taper,
        long_warm_up: standing.gentler(),
        focus: facts.focus.clone(),
        follow_up: follow_up(standing, &paces),
        seed: seed(&facts.handle, order.on),
        because,
    };
    // What doesn't fit as it was meant is swum easier, never not at all.
    for purpose in [purpose, Purpose::Endurance, Purpose::Technique, Purpose::Return] {
        setting.purpose = purpose;
        if let Some(session) = build(&setting) {
            return Ok(session);
        }
    }
    setting.aim = None;
    let least_s = least_seconds(&setting);
    let less = standing.book.whole(RuleId::BookedLess).unsigned_abs() as u32;
    let least_minutes = u16::try_from(least_s.div_ceil(60) + less).unwrap_or(u16::MAX);
    Err(refusal(RuleId::BookedLess, RefusalReason::TooShort { least_minutes }))
}

/// No session is planned longer than this (ours).
const LONGEST_MIN: u16 = 125;

fn is_timed(purpose: Purpose) -> bool {
    !matches!(purpose, Purpose::Endurance | Purpose::Return | Purpose::Technique)
}

/// The most that pain, illness or a break leave of the last session.
fn lowered_to(
    standing: &Standing<'_>,
    on: Date,
    course: Course,
    because: &mut Vec<RuleId>,
) -> Option<u32> {
    let open = &standing.open;
    let (mut share, rule) = if open.ill_since.is_some() {
        (standing.book.share(RuleId::IllEasy), RuleId::IllEasy)
    } else if open.pain.is_some() {
        (standing.book.share(RuleId::PainEasy), RuleId::PainEasy)
    } else if let Some(comeback) = standing.comeback {
        (standing.book.share(comeback.rule), comeback.rule)
    } else if phase_on(standing, on) == Phase::Taper {
        let (share, rule) = taper_share(standing);
        because.push(rule);
        let longest = standing.longest_session(course)?;
        return Some((f64::from(longest) * share).floor() as u32);
    } else {
        return None;
    };
    let stop = standing.book.number(RuleId::PainStop);
    if open.pain.is_some_and(|level| f64::from(level) >= stop) {
        because.push(RuleId::PainStop);
        share = share.min(0.5);
    }
    let suggested = standing.facts.suggested.last();
    let already = suggested.is_some_and(|session| session.rules.iter().any(|id| id == rule.id()));
    let last = suggested
        .and_then(|s| crate::units::Distance::new(s.amount(), s.unit).ok())
        .map(|distance| in_unit(distance, course));
    match (last, already && open.lowers()) {
        (Some(last), true) => Some(last),
        (last, _) => {
            // The smaller of what was suggested last and what is usual.
            let usual = standing.longest_session(course);
            let from = match (last, usual) {
                (Some(last), Some(usual)) => last.min(usual),
                (last, usual) => last.or(usual)?,
            };
            Some((f64::from(from) * share).floor() as u32)
        }
    }
}

/// A warm-up, a swim and a swim-down of one length each, or of 100 in open
/// water.
pub(super) fn shortest_session(course: Course) -> u32 {
    3 * course.length().unwrap_or(100)
}

fn kit(standing: &Standing<'_>, wish: &SessionWish) -> Vec<Equipment> {
    // Paddles and a board only if asked for, and never with a sore shoulder.
    let mut kit = vec![Equipment::Fins, Equipment::PullBuoy, Equipment::Snorkel];
    kit.extend(&wish.with);
    let shoulder = standing.open.hurts("shoulder");
    kit.retain(|one| {
        let loads = matches!(one, Equipment::Paddles | Equipment::Board);
        !wish.without.contains(one) && (!shoulder || !loads)
    });
    kit
}

fn drills_before(facts: &Facts) -> Vec<String> {
    let recent = facts.suggested.iter().rev().take(3);
    recent
        .flat_map(|session| &session.blocks)
        .flat_map(|block| &block.repeats)
        .filter_map(|line| match &line.cue {
            Some(Cue::Drill(id)) => Some(id.clone()),
            _ => None,
        })
        .collect()
}

/// The distance to test next: what sharpens the paces most, a 200 first for
/// whom nothing is known.
fn test_distance(paces: &Paces, today: Date) -> u32 {
    let Some(newest) = paces.newest() else { return 200 };
    let next = next_test(&paces.tests, today, paces.stroke, paces.course);
    let amount = next.map_or(newest.distance.amount(), |next| next.distance.amount());
    // A medley or butterfly swimmer is not asked for a 400 of it.
    match paces.stroke {
        Stroke::Fly | Stroke::Im => amount.min(200),
        _ => amount,
    }
}

/// What the last result makes of its set, if it still is of today's paces.
fn follow_up(standing: &Standing<'_>, paces: &Paces) -> Option<crate::session::Repeat> {
    let facts = standing.facts;
    let last = facts.sets.last()?;
    let tested_since = facts.tests.iter().any(|test| test.on > last.on);
    if tested_since || days_between(last.on, facts.today) > 21 || last.set.stroke != paces.stroke {
        return None;
    }
    let change = super::feedback(facts, last).change;
    let level = paces.level(change.set.distance, change.set.target?);
    Some(crate::session::Repeat { level, ..change.set }).filter(|set| set.level.is_hard())
}

/// FNV-1a over the handle and the day: settles every choice among equals.
pub(super) fn seed(handle: &str, on: Date) -> u64 {
    let day = on.to_string();
    handle.bytes().chain([0]).chain(day.bytes()).fold(0xcbf2_9ce4_8422_2325, |hash, byte| {
        (hash ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01b3)
    })
}
