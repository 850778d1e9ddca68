//! One session for the squad's night, in a version for each lane: the same
//! parts, the same purpose, the same clock; how many or how far differs.

use std::collections::BTreeMap;

use jiff::civil::Date;

use super::lane::Lane;
use super::plan::{Plan, first_count, seasoned_lane};
use super::purpose::{NightWish, purpose_of};
use super::slots::swum_min;
use super::versions::versions;
use crate::coaching::lanes::Gap;
use crate::coaching::limits::within;
use crate::coaching::next::refusal;
use crate::coaching::rulebook::{RuleId, Rulebook};
use crate::coaching::swimmer_state::SwimmerState;
use crate::coaching::{Facts, Refusal, RefusalReason};
use crate::session::{Block, Limit, Part, Purpose, Session};
use crate::swim::levels::Band;
use crate::units::{Course, Distance, Level};

/// A night to write a session for.
#[derive(Debug, Clone)]
pub struct Night<'a> {
    /// The day.
    pub on: Date,
    /// Minutes booked.
    pub minutes: u16,
    /// The pool.
    pub course: Course,
    /// What the coach asks of it.
    pub wish: NightWish,
    /// The squad's sets of the nights before, latest first, one a night.
    pub before: Vec<&'a Session>,
    /// Those expected, by lane, the fastest first; no lane is empty.
    pub lanes: Vec<Vec<&'a Facts>>,
    /// Between two who leave behind each other.
    pub gap: Gap,
    /// The distance to be swum against the clock, where the night was called for
    /// a test.
    pub test: Option<Distance>,
}

/// The session of the night, one version a lane, in the order of the lanes.
///
/// # Errors
/// [`RefusalReason::TooShort`] where the minutes hold no warm-up, swim and
/// swim-down.
pub fn for_night(book: &Rulebook, night: &Night<'_>) -> Result<Vec<Session>, Refusal> {
    let expected: Vec<&Facts> = night.lanes.iter().flatten().copied().collect();
    let (purpose, because) = match night.test {
        Some(_) => (Purpose::Test, vec![RuleId::RetestAfter]),
        None => purpose_of(book, night.on, night.wish, &night.before, &expected),
    };
    // What doesn't fit as it was meant is swum easier, never not at all.
    for purpose in [purpose, Purpose::Endurance, Purpose::Technique, Purpose::Return] {
        if let Some(sessions) = written(book, night, purpose, &because) {
            return Ok(sessions);
        }
    }
    let least_minutes = LEAST_MINUTES;
    Err(refusal(RuleId::BookedLess, RefusalReason::TooShort { least_minutes }))
}

/// Minutes booked below which no session for a squad is written (ours).
const LEAST_MINUTES: u16 = 25;

/// Fewer repeats than this in a round are no main set (ours).
const FEWEST_HELD: u16 = 2;

fn written(
    book: &Rulebook,
    night: &Night<'_>,
    purpose: Purpose,
    because: &[RuleId],
) -> Option<Vec<Session>> {
    if night.minutes < LEAST_MINUTES {
        return None;
    }
    let lanes: Vec<Lane> = night
        .lanes
        .iter()
        .map(|swimmers| Lane::of(swimmers, night.course, night.gap))
        .collect::<Option<_>>()?;
    let less = book.whole(RuleId::BookedLess).unsigned_abs() as u32;
    let total_s = u32::from(night.minutes).saturating_sub(less) * 60;
    // Less of the dose, and more of warm-up and swim-down, until every lane is sound.
    let by = versions(&lanes);
    let mut long = None;
    for dose in [1.0, 0.85, 0.7, 0.55, 0.4, 0.3] {
        for (capped, longer) in TRIES {
            for beside in [false, true] {
                let plan = Plan::of(book, night, &lanes, purpose, total_s, dose, longer, beside)?;
                let fill = Fill { book, night, lanes: &lanes, by: &by, total_s, because, capped };
                let Some(sessions) = fill.all(&plan) else { continue };
                let own = night.lanes.iter().zip(&sessions);
                let written = own.map(|(lane, one)| within(one, &of_all(lane))).collect();
                // Nobody swims down for a quarter of an hour to fill the clock.
                if !sessions.iter().any(long_swim_down) {
                    return Some(written);
                }
                long = long.or(Some(written));
            }
        }
    }
    long
}

/// Whether a lane for which the repeats are too many may have fewer, and by how much
/// warm-up and swim-down are longer than their shares; the best first.
const TRIES: [(bool, f64); 6] =
    [(false, 1.0), (false, 1.25), (true, 1.0), (true, 1.25), (false, 1.5), (true, 1.5)];

/// A swim-down of more than this stands for a part that is missing (ours).
const LONG_SWIM_DOWN: u32 = 400;

fn long_swim_down(session: &Session) -> bool {
    session.blocks.last().is_some_and(|block| block.amount() > LONG_SWIM_DOWN)
}

/// What a plan is filled in with, lane by lane.
struct Fill<'a> {
    book: &'a Rulebook,
    night: &'a Night<'a>,
    lanes: &'a [Lane],
    /// For each lane, the one that its version is written by.
    by: &'a [usize],
    total_s: u32,
    because: &'a [RuleId],
    /// A lane for which the repeats are too many may have fewer.
    capped: bool,
}

impl Fill<'_> {
    /// Every lane's session, where all of them are sound.
    fn all(&self, plan: &Plan) -> Option<Vec<Session>> {
        let leads = |(at, leader): &(usize, &usize)| *at == **leader;
        let led = self.by.iter().enumerate().filter(leads);
        let led = led.map(|(at, _)| Some((at, self.one(plan, at, None)?)));
        let led: BTreeMap<usize, Session> = led.collect::<Option<_>>()?;
        let one = |(at, leader): (usize, &usize)| match *leader == at {
            true => led.get(&at).cloned(),
            false => self.one(plan, at, led.get(leader)),
        };
        self.by.iter().enumerate().map(one).collect()
    }

    fn one(&self, plan: &Plan, at: usize, like: Option<&Session>) -> Option<Session> {
        let (lane, swimmers) = (self.lanes.get(at)?, self.night.lanes.get(at)?);
        let version = |most| plan.version(self.night, lane, like, most, self.total_s, self.because);
        let sound = |one: &Session| is_sound(self.book, swimmers, one, self.total_s);
        let whole = version(None)?;
        if sound(&whole) {
            return Some(whole);
        }
        // One that swims more than those it shares its version with may always have
        // fewer again.
        let count = held_in(&whole).filter(|_| self.capped || like.is_some())?;
        (FEWEST_HELD..count).rev().find_map(|most| version(Some(most)).filter(sound))
    }
}

/// How many repeats the main set has in each round; none where nothing is held.
fn held_in(session: &Session) -> Option<u16> {
    let asks = |block: &&Block| block.repeats.first().is_some_and(|one| one.level > Level::Easy);
    session.main().find(asks).map(first_count)
}

/// What everyone in a lane leaves out, so that the lane does.
fn of_all(lane: &[&Facts]) -> Vec<Limit> {
    let Some((first, others)) = lane.split_first() else { return Vec::new() };
    let all = |limit: &&Limit| others.iter().all(|facts| facts.limits.contains(limit));
    first.limits.iter().filter(all).copied().collect()
}

/// What every version keeps to: the booking, the warm-up, the share that is
/// hard, the dose.
fn is_sound(book: &Rulebook, swimmers: &[&Facts], session: &Session, total_s: u32) -> bool {
    let amount = f64::from(session.amount());
    let of = |part: Part| {
        let blocks = session.blocks.iter().filter(|block| block.part == part);
        f64::from(blocks.map(crate::session::Block::amount).sum::<u32>())
    };
    let older = swimmers.iter().any(|facts| SwimmerState::of(facts, book).gentler());
    let warm_up = match older {
        true => RuleId::WarmUpShareOlder,
        false => RuleId::WarmUpShare,
    };
    let hard: f64 = session
        .level_share()
        .into_iter()
        .filter(|(level, _)| level.is_hard())
        .map(|(_, share)| share)
        .sum();
    let limit = match session.purpose {
        Purpose::Test => 1.0,
        _ if !seasoned_lane(book, swimmers) => book.share(RuleId::HardShareReturner),
        Purpose::Threshold => book.share(RuleId::HardShareThreshold),
        _ => book.share(RuleId::HardShareRace),
    };
    let within_dose = session.main().all(|block| {
        let level = block.repeats.iter().map(|line| line.level).max().unwrap_or(Level::Easy);
        let most = Band::of(level).dose_min.map_or(f64::INFINITY, |(_, most)| f64::from(most));
        swum_min(block) <= most
    });
    session.duration_s() <= total_s
        && of(Part::WarmUp) >= amount * book.share(warm_up)
        && of(Part::SwimDown) >= amount * book.share(RuleId::SwimDownShare)
        && hard <= limit
        && within_dose
}
