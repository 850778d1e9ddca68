//! Writes a day's session, given what it is for.
//!
//! Brings together what ails the swimmer, what they are used to and the minutes that
//! they have; the builder does the rest.

use jiff::civil::Date;

use super::builder::{Setting, build, least_seconds, race_day};
use super::limits::{may_use, no_more_than, within};
use super::next::refusal;
use super::own_targets::held_to_own;
use super::paces::Paces;
use super::promise::{Promise, placed};
use super::rulebook::{RuleId, Rulebook};
use super::season::{Phase, phase_on, rehearsed, taper_share};
use super::steer::measure;
use super::swimmer_state::{SwimmerState, days_between, in_unit, return_rule};
use super::{After, Facts, Refusal, RefusalReason, SessionWish};
use crate::session::{Cue, Purpose, Session};
use crate::swim::next_test::next_test;
use crate::units::{Course, Equipment, Stroke};

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

/// The water of the session: the wished or the usual.
pub(super) fn course_for(facts: &Facts, wish: &SessionWish) -> Course {
    if wish.open_water { Course::OpenWater } else { facts.course }
}

/// Writes the session that `order` asks for.
pub(super) fn write(
    state: &SwimmerState<'_>,
    wish: &SessionWish,
    order: &Order,
) -> Result<Session, Refusal> {
    let facts = state.facts;
    let course = course_for(facts, wish);
    let paces = state.paces_in(course);
    let minutes = order.minutes.unwrap_or(facts.minutes);
    let (mut purpose, mut because) = order.purpose.clone();
    if course == Course::OpenWater && is_timed(purpose) {
        purpose = Purpose::Endurance;
        because.insert(0, RuleId::OpenWater);
    }
    if !is_timed(purpose) {
        // Asked for easier, or in other water: what was promised stays promised.
        because.retain(|rule| *rule != RuleId::Promised);
    }

    let lowered = lowered_to(state, order.on, course, &mut because);
    let cap = state.session_cap(course).filter(|_| !order.uncapped);
    let steered = measure(state).filter(|_| order.aim.is_none() && !order.uncapped);
    let measured = steered.map(|measure| measure.most);
    let her_most = facts.ability.most.map(|most| in_unit(most, course));
    // Of whom no swim is known, a dozen of what they can swim without a stop (ours).
    let unbroken = facts.ability.unbroken.map(|far| in_unit(far, course));
    let dozen = unbroken.filter(|far| cap.is_none() && *far < 200).map(|far| far * 12);
    let aim = [order.aim, order.most, cap, lowered, measured, her_most, dozen];
    let aim = aim.into_iter().flatten().min();
    if aim.is_some() && aim == her_most {
        because.push(RuleId::MostASession);
    }
    let by_measure = steered.filter(|measure| aim == Some(measure.most));
    let by_measure = by_measure.map(|measure| measure.rule).filter(|rule| !because.contains(rule));
    because.extend(by_measure);
    // Three repeats are the least that is a session.
    let aim = aim.map(|aim| aim.max(shortest_session(course)));
    if cap.is_some() && aim == cap {
        because.push(RuleId::RampSession);
    }
    let planned_min = u32::from(minutes.min(LONGEST_MIN))
        .saturating_sub(state.book.whole(RuleId::BookedLess).unsigned_abs() as u32);
    let places = state.open.places.clone();
    if !places.is_empty() {
        because.push(RuleId::PainSwap);
    }
    let mut setting = Setting {
        on: order.on,
        purpose,
        paces: paces.as_ref(),
        book: state.book,
        budget_s: match facts.suggested.last().filter(|_| state.open.hurts_now()) {
            // Lowered is never longer on the clock either.
            Some(last) => last.duration_s().min(planned_min * 60),
            None => planned_min * 60,
        },
        aim,
        promised: order.aim.is_some(),
        targets_shown: state.targets_shown(),
        seasoned: state.seasoned(),
        kit: kit(state, wish),
        wanted: wish.with.clone(),
        places,
        drills_before: drills_before(state),
        unbroken,
        test: test_distance(state, &paces),
        race: rehearsed(facts, &paces).filter(|_| !state.open.lowers()),
        taper: phase_on(state, order.on) == Phase::Taper,
        long_warm_up: state.gentler(),
        focus: facts.focus.clone(),
        follow_up: follow_up(state, &paces),
        bound: false,
        seed: seed(&facts.handle, order.on),
        because: because.clone(),
    };
    if purpose == Purpose::Race {
        let too_short = RefusalReason::TooShort { least_minutes: RACE_DAY_MIN };
        let free = race_day(&setting).ok_or_else(|| refusal(RuleId::BookedLess, too_short))?;
        return Ok(within(&held_to_own(&free, facts, course), &facts.limits));
    }
    let may = |kit: &Equipment| may_use(&facts.limits, *kit);
    let within_limits: Vec<Equipment> = setting.kit.iter().copied().filter(may).collect();
    // What doesn't fit as it was meant is other work, then easier, never nothing at
    // all; a test that was promised is a shorter one first.
    let promised = because.contains(&RuleId::Promised);
    let shorter = setting.test.filter(|_| setting.because.contains(&RuleId::CutBacks));
    let easier = [Purpose::Endurance, Purpose::Technique, Purpose::Return];
    let meant = [(purpose, true, setting.test), (purpose, false, setting.test)];
    let shorter = shorter.map(|test| (purpose, false, Some(test.min(SHORTER_TEST))));
    let easier = easier.map(|purpose| (purpose, false, None));
    let other = [Purpose::PaceHolding, Purpose::Threshold].into_iter();
    let other = other.filter(|other| setting.hard() && *other != purpose);
    let other: Vec<_> = other.map(|purpose| (purpose, false, None)).collect();
    let ways = meant.into_iter().skip(usize::from(!promised)).chain(shorter);
    for (given, bound, test) in ways.chain(other).chain(easier) {
        (setting.purpose, setting.bound, setting.test) = (given, bound, test);
        setting.because = reasons_of(&because, purpose, given, bound || !promised);
        let Some(free) = build(&setting) else { continue };
        let free = held_to_own(&free, facts, course);
        if within_limits == setting.kit {
            return Ok(within(&free, &facts.limits));
        }
        setting.kit = within_limits;
        let own = build(&setting).map(|own| held_to_own(&own, facts, course));
        return Ok(no_more_than(&free, own, &facts.limits));
    }
    setting.aim = None;
    let least_s = least_seconds(&setting);
    let less = state.book.whole(RuleId::BookedLess).unsigned_abs() as u32;
    let least_minutes = u16::try_from(least_s.div_ceil(60) + less).unwrap_or(u16::MAX);
    Err(refusal(RuleId::BookedLess, RefusalReason::TooShort { least_minutes }))
}

/// The rules of a session that has to have another purpose for want of room: without
/// those that explain the purpose first meant.
fn reasons_of(
    because: &[RuleId],
    meant: Purpose,
    given: Purpose,
    as_promised: bool,
) -> Vec<RuleId> {
    if (given == meant && as_promised) || !is_timed(meant) {
        return because.to_vec();
    }
    let instead: &[RuleId] = match given {
        Purpose::Test => &[RuleId::CutBacks],
        Purpose::Speed => &[RuleId::NoThreshold],
        Purpose::PaceHolding => &[RuleId::EvenPace, RuleId::DoseMinutes],
        Purpose::Threshold => &[RuleId::SlowHalf, RuleId::DoseMinutes],
        _ => &[RuleId::NoRoom],
    };
    let others = because.iter().filter(|rule| !OF_A_PURPOSE.contains(rule));
    instead.iter().chain(others).copied().collect()
}

/// The rules that choose hard work or a test.
const OF_A_PURPOSE: [RuleId; 9] = [
    RuleId::RetestAfter,
    RuleId::SecondTestAfter,
    RuleId::RaceRhythm,
    RuleId::DoseMinutes,
    RuleId::SlowHalf,
    RuleId::EvenPace,
    RuleId::NoThreshold,
    RuleId::Promised,
    RuleId::CutBacks,
];

/// The rules of a break, the shortest first.
pub(super) const BREAKS: [RuleId; 3] =
    [RuleId::BreakShare, RuleId::LongBreakShare, RuleId::LongestBreakShare];
/// The rules that lower a session for what is open.
const LOWERED: [RuleId; 2] = [RuleId::IllEasy, RuleId::PainEasy];
/// What is tested where the session has no room for more (common practice, no source).
const SHORTER_TEST: u32 = 200;
/// Whoever swims such sessions is tested over a 400 first (common practice, no source).
const LONG_SESSION: u32 = 1500;
/// Minutes in which one warms up for a race at the least (ours).
const RACE_DAY_MIN: u16 = 15;
/// No session is planned longer than this (ours).
const LONGEST_MIN: u16 = 125;

fn is_timed(purpose: Purpose) -> bool {
    !matches!(purpose, Purpose::Endurance | Purpose::Race | Purpose::Return | Purpose::Technique)
}

/// The most that pain, illness or a break leave of the last session.
fn lowered_to(
    state: &SwimmerState<'_>,
    on: Date,
    course: Course,
    because: &mut Vec<RuleId>,
) -> Option<u32> {
    let open = &state.open;
    let (mut share, rule) = if open.ill_since.is_some() {
        (state.book.share(RuleId::IllEasy), RuleId::IllEasy)
    } else if open.pain.is_some() {
        (state.book.share(RuleId::PainEasy), RuleId::PainEasy)
    } else if let Some((_, after)) = open.mending {
        // The brackets of a break: the lower one after a fever.
        let share = match after {
            After::Ill { fever: true } => RuleId::LongBreakShare,
            _ => RuleId::BreakShare,
        };
        (state.book.share(share), return_rule(after))
    } else if let Some(comeback) = state.comeback {
        (state.book.share(comeback.rule), comeback.rule)
    } else if phase_on(state, on) == Phase::Taper {
        let (share, rule) = taper_share(state);
        because.push(rule);
        let longest = state.longest_session(course)?;
        return Some((f64::from(longest) * share).floor() as u32);
    } else if phase_on(state, on) == Phase::Recover {
        let longest = state.longest_session(course)?;
        let share = state.book.share(RuleId::EasyWeekShare);
        return Some((f64::from(longest) * share).floor() as u32);
    } else {
        return None;
    };
    let stop = state.book.number(RuleId::PainStop);
    if open.pain.is_some_and(|level| f64::from(level) >= stop) {
        because.push(RuleId::PainStop);
        share = share.min(0.5);
    }
    let suggested = state.facts.suggested.last();
    let told_by = |rule: RuleId| {
        suggested.is_some_and(|session| session.rules.iter().any(|id| id == rule.id()))
    };
    let already = told_by(rule);
    // Of whom no swim is known any more, what was told is low already: a longer break
    // lowers it only by what it asks for besides.
    if let (Some(last), None) = (state.told_last(course), state.longest_session(course))
        && let Some(before) = BREAKS.into_iter().find(|rule| told_by(*rule))
        && state.comeback.is_some()
    {
        let besides = (share / state.book.share(before)).min(1.0);
        return Some((f64::from(last) * besides).floor() as u32);
    }
    // What is over asks for no less than it did while it lasted.
    let was_low = !open.hurts_now() && LOWERED.into_iter().any(told_by);
    let last = state.told_last(course);
    match (last, already && open.lowers()) {
        (Some(last), true) => Some(last.max(done_well_since(state, course, share))),
        (last, _) => {
            // The smaller of what was suggested last and what is usual.
            let usual = state.longest_session(course);
            let from = match (last, usual) {
                // What was suggested while it lasted was low already.
                (Some(_), Some(usual)) if !open.hurts_now() => usual,
                (Some(last), Some(usual)) => last.min(usual),
                (last, usual) => last.or(usual)?,
            };
            let lowered = (f64::from(from) * share).floor() as u32;
            Some(lowered.max(last.filter(|_| was_low).unwrap_or(0)))
        }
    }
}

/// On the way back: how far they swam lately without effort, at most `share` of the
/// usual; nothing while something hurts.
fn done_well_since(state: &SwimmerState<'_>, course: Course, share: f64) -> u32 {
    let last = state.facts.swims.last().filter(|swim| {
        let light = swim.rpe.is_some_and(|rpe| rpe.value() <= LIGHT_RPE);
        light && !swim.presumed && !state.open.hurts_now()
    });
    let far = last.and_then(|swim| swim.distance).map(|far| in_unit(far, course));
    let usual = state.longest_session(course).unwrap_or(0);
    far.unwrap_or(0).min((f64::from(usual) * share).floor() as u32)
}

/// Effort up to this says that there was more to give (common practice, no source).
const LIGHT_RPE: f64 = 4.0;

/// A warm-up, a swim and a swim-down of one length each, or of 100 in open
/// water.
pub(super) fn shortest_session(course: Course) -> u32 {
    3 * course.length().unwrap_or(100)
}

fn kit(state: &SwimmerState<'_>, wish: &SessionWish) -> Vec<Equipment> {
    // With pain or illness open there is no kit to load a joint with, and no
    // change of it to make one session longer than the last.
    if state.open.lowers() {
        return vec![];
    }
    // Paddles and a board only if asked for, and never with a sore shoulder.
    let mut kit = vec![Equipment::Fins, Equipment::PullBuoy, Equipment::Snorkel];
    kit.extend(&wish.with);
    let shoulder = state.open.hurts("shoulder");
    kit.retain(|one| {
        let loads = matches!(one, Equipment::Paddles | Equipment::Board);
        !wish.without.contains(one) && (!shoulder || !loads)
    });
    kit
}

fn drills_before(state: &SwimmerState<'_>) -> Vec<String> {
    let recent = state.told_and_swum().rev().take(3);
    recent
        .flat_map(|session| &session.blocks)
        .flat_map(|block| &block.repeats)
        .filter_map(|line| match &line.cue {
            Some(Cue::Drill(id)) => Some(id.clone()),
            _ => None,
        })
        .collect()
}

/// The distance to test next: the one that sharpens the paces most. Without any test a
/// 200, or a 400 where sessions are long. Whoever can swim only so far without a stop
/// is tested over that, and later over the next longer; nobody who can't swim 50.
fn test_distance(state: &SwimmerState<'_>, paces: &Paces) -> Option<u32> {
    let facts = state.facts;
    if let Some(far) = facts.ability.unbroken.filter(|far| far.metres().get() < 200.0) {
        let far = in_unit(far, paces.course);
        let tested = facts.tests.iter().any(|test| in_unit(test.distance, paces.course) >= far);
        let steps = [50, 100, 200];
        return match tested {
            true => steps.into_iter().find(|step| *step > far),
            false => steps.into_iter().rfind(|step| *step <= far),
        };
    }
    let Some(newest) = paces.newest() else {
        let far = state.longest_session(paces.course).is_some_and(|far| far >= LONG_SESSION);
        return Some(if far { 400 } else { 200 });
    };
    let next = next_test(&paces.tests, facts.today, paces.stroke, paces.course);
    let amount = next.map_or(newest.distance.amount(), |next| next.distance.amount());
    // A medley or butterfly swimmer is not asked for a 400 of it.
    Some(match paces.stroke {
        Stroke::Fly | Stroke::Im => amount.min(200),
        _ => amount,
    })
}

/// The distance that somebody is to test next who builds up how far they can swim
/// without a stop.
pub fn test_to_come(facts: &Facts) -> Option<u32> {
    facts.ability.unbroken.filter(|far| far.metres().get() < 200.0)?;
    let (book, paces) = (Rulebook::default(), Paces::of(facts, facts.course));
    test_distance(&SwimmerState::of(facts, &book), &paces)
}

/// The set that was promised; else what the last result makes of its set, if it
/// still is of today's paces.
fn follow_up(state: &SwimmerState<'_>, paces: &Paces) -> Option<crate::session::Repeat> {
    let facts = state.facts;
    if let Some(Promise::Set { set }) = &facts.promised {
        return placed(state, set);
    }
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
fn seed(handle: &str, on: Date) -> u64 {
    let day = on.to_string();
    handle.bytes().chain([0]).chain(day.bytes()).fold(0xcbf2_9ce4_8422_2325, |hash, byte| {
        (hash ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01b3)
    })
}
