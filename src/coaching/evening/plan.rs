//! The parts of a squad's session with their share of the clock, and one lane's
//! version of them.
//!
//! Knows the night and its lanes; not whether what comes out is sound.

use super::lane::Lane;
use super::night::Night;
use super::slots::{Pace, Slot, Writer, seconds_of};
use crate::coaching::Facts;
use crate::coaching::drills::{DRILLS, Drill};
use crate::coaching::rulebook::{RuleId, Rulebook};
use crate::coaching::swimmer_state::SwimmerState;
use crate::session::{Aim, Block, Blocks, Cue, Purpose, Repeat, Session};
use crate::swim::levels::Band;
use crate::units::{Equipment, Level, Stroke};

/// A lane that shares its version swims so many repeats more than the others of it
/// where its clock holds them (ours).
const WORTH_MORE: u16 = 2;

/// Shares of the clock for warm-up, drill, build and swim-down (common practice,
/// no source): the main set and what stands beside it have the rest.
const SHARES: [f64; 4] = [0.21, 0.09, 0.07, 0.08];

/// The parts with the seconds that each has, the same for all lanes.
pub(super) struct Plan {
    purpose: Purpose,
    slots: Vec<(Slot, u32)>,
}

impl Plan {
    /// `beside`: easy swimming beside the main set, however little time there is.
    #[expect(clippy::too_many_arguments, reason = "what a plan is made from, each once")]
    pub fn of(
        book: &Rulebook,
        night: &Night<'_>,
        lanes: &[Lane],
        purpose: Purpose,
        total_s: u32,
        dose: f64,
        longer: f64,
        beside: bool,
    ) -> Option<Plan> {
        let middle = Writer { lane: lanes.get(lanes.len() / 2)? };
        let [first, second] = drills(night)?;
        let pace = match purpose {
            Purpose::Threshold => {
                let percent = book.number(RuleId::SlowHalf) * 10.0;
                Some(Pace { level: Level::Threshold, tenths: percent.round() as u16 })
            }
            Purpose::PaceHolding => Some(Pace { level: Level::Hard, tenths: 1030 }),
            Purpose::Endurance => Some(Pace { level: Level::Steady, tenths: 915 }),
            _ => None,
        };
        let hard = pace.filter(|pace| pace.level.is_hard());
        let share = |share: f64| (f64::from(total_s) * share) as u32;
        let mut slots = vec![(Slot::WarmUp, share(SHARES[0] * longer))];
        if purpose != Purpose::Return {
            slots.push((Slot::Drill(first), share(SHARES[1])));
        }
        slots.extend(hard.map(|pace| (Slot::Build(pace), share(SHARES[2]))));
        let used: u32 = slots.iter().map(|(_, seconds)| seconds).sum();
        // In long lengths a swim-down may come out too short, as the warm-up may.
        let swim_down = share(SHARES[3] * longer);
        // Every change of block costs a minute, and kit half a minute more.
        let changes = 60 * (u32::try_from(slots.len()).ok()? + 2) + 60;
        let left = total_s.checked_sub(used + swim_down + changes)?;
        match (purpose, pace) {
            (Purpose::Test, _) => {
                let far = night.test.map_or(400, |test| test.amount());
                slots.push((Slot::Test(far), 0));
                slots.push((Slot::Recovery, 0));
                slots.push((Slot::Beside, 0));
            }
            (Purpose::Technique, _) => slots.push((Slot::Technique(second), left)),
            (_, Some(pace)) => {
                let seasoned = night.lanes.get(night.lanes.len() / 2)?;
                let seasoned = seasoned_lane(book, seasoned);
                let main = main_slot(lanes, &middle, pace, left, dose, seasoned)?;
                let easy_s = left.saturating_sub(main.1);
                slots.push(main);
                match purpose {
                    // Where three quarters are to be easy, they are worth something.
                    Purpose::PaceHolding if easy_s >= BESIDE_LEAST_S => {
                        slots.push((Slot::Technique(second), easy_s));
                    }
                    _ if beside || easy_s >= BESIDE_LEAST_S => {
                        slots.push((Slot::Beside, easy_s));
                    }
                    _ => {}
                }
            }
            _ => slots.push((Slot::Beside, left)),
        }
        slots.push((Slot::SwimDown, swim_down));
        Some(Plan { purpose, slots })
    }

    /// The version of one lane: each part ends as near as it can to where the
    /// clock says, and what is over or short goes into the next. Up to the main set
    /// it has the repeats of `like`, on send-offs of its own; of that set no more than
    /// `most` in a round.
    pub fn version(
        &self,
        night: &Night<'_>,
        lane: &Lane,
        like: Option<&Session>,
        most: Option<u16>,
        total_s: u32,
        because: &[RuleId],
    ) -> Option<Session> {
        let writer = Writer { lane };
        let mut session = Session {
            on: night.on,
            purpose: self.purpose,
            unit: night.course.unit(),
            blocks: Blocks::default(),
            rules: because.iter().map(|rule| rule.id().to_owned()).collect(),
            without: Vec::new(),
        };
        let mut planned = 0;
        for (slot, seconds) in &self.slots {
            let swum: u32 =
                session.blocks.iter().map(|block| block.hundredths().div_ceil(100) as u32).sum();
            planned += seconds;
            let left = match slot {
                Slot::SwimDown => {
                    // With the change to the swim-down that is not counted yet.
                    let change = Session::CHANGE_S + kit_change(&session);
                    total_s.checked_sub(session.duration_s() + change)?
                }
                // Easy swimming takes up what the other parts left over or short.
                Slot::Beside | Slot::Technique(_) => {
                    let after = self.slots.last().map_or(0, |(_, seconds)| *seconds);
                    let changes = 2 * Session::CHANGE_S + kit_change(&session);
                    total_s.saturating_sub(session.duration_s() + after + changes)
                }
                _ => planned.saturating_sub(swum),
            };
            let shared = like.and_then(|like| like.blocks.get(session.blocks.len()));
            let own = || writer.block(*slot, left);
            let mut block = match (shared, slot) {
                (Some(block), Slot::WarmUp | Slot::Drill(_) | Slot::Build(_)) => aimed(block, lane),
                (Some(block), Slot::Hold { .. }) => {
                    let own = own()?;
                    match first_count(&own) >= first_count(block) + WORTH_MORE {
                        true => own,
                        false => aimed(block, lane),
                    }
                }
                _ => own()?,
            };
            if let (Slot::Hold { .. }, Some(most), Some(line)) =
                (slot, most, block.repeats.first_mut())
            {
                line.count = line.count.min(most);
            }
            session.blocks.push(block);
            if let Slot::Test(_) | Slot::Recovery = slot {
                planned += session
                    .blocks
                    .last()
                    .map_or(0, |block| block.repeats.iter().map(seconds_of).sum());
            }
        }
        Some(session)
    }
}

/// The same repeats on a lane's own send-offs.
fn aimed(block: &Block, lane: &Lane) -> Block {
    let repeats = block.repeats.iter().map(|line| lane.aimed(line)).collect();
    Block { repeats, ..block.clone() }
}

/// How many of its first line a block has in each round.
pub(super) fn first_count(block: &Block) -> u16 {
    block.repeats.first().map_or(0, |line| line.count)
}

fn kit_change(session: &Session) -> u32 {
    let kit = session.blocks.last().is_some_and(|block| !block.equipment().is_empty());
    if kit { Session::KIT_CHANGE_S } else { 0 }
}

/// More than any other reason against a repeat.
const LAPPED: f64 = 10_000.0;

/// Rounds of a main set at most (ours).
const MOST_ROUNDS: u16 = 3;

/// Beside the main set easy swimming is a part of its own from here on (ours).
const BESIDE_LEAST_S: u32 = 240;

/// The main set of the middle lane: the dose in minutes at the pace, or what
/// there is time for.
fn main_slot(
    lanes: &[Lane],
    middle: &Writer<'_>,
    pace: Pace,
    left_s: u32,
    dose: f64,
    seasoned: bool,
) -> Option<(Slot, u32)> {
    let pieces: &[u32] = match pace.level {
        Level::Hard => &[50, 100],
        Level::Threshold => &[50, 100, 200],
        _ => &[50, 100, 200, 300, 400],
    };
    // A repeat takes about a minute where it is hard, two else (common practice, no
    // source), nobody is lapped in it, and a full lane waits no longer than it must.
    let best_s = if pace.level == Level::Hard { 60.0 } else { 120.0 };
    let good = |(piece, line): &(u32, Repeat)| {
        let Some(time) = line.target else { return 0.0 };
        let usual = Band::of(pace.level).send_off(line.distance, time);
        let waits = line.send_off.map_or(0, |on| on.seconds() - usual.seconds());
        let aim = Aim::CriticalSpeed(pace.tenths);
        let laps = lanes.iter().any(|lane| lane.is_lapped(aim, line.distance));
        (time.seconds() - best_s).abs()
            + 2.0 * f64::from(waits)
            + if laps { LAPPED + f64::from(*piece) } else { 0.0 }
    };
    let lines = pieces.iter().filter_map(|piece| Some((*piece, middle.held(pace, *piece)?)));
    let (piece, line) = lines.min_by(|one, other| good(one).total_cmp(&good(other)))?;
    let (least, greatest) = Band::of(pace.level).dose_min.unwrap_or((15, 40));
    let share = if seasoned { 0.6 } else { 0.3 };
    let minutes = (f64::from(least) + f64::from(greatest - least) * share) * dose;
    let each_s = line.target.map_or(60.0, crate::units::Centis::seconds);
    let count = (minutes * 60.0 / each_s).round().max(2.0) as u32;
    let on = seconds_of(&line);
    let count = count.min(left_s / on.max(1)).max(2);
    // Hard repeats come in shorter rounds, with easy swimming between (common
    // practice, no source).
    let a_round = if pace.level == Level::Hard { 5 } else { 8 };
    let rounds = u16::try_from(count.div_ceil(a_round)).unwrap_or(MOST_ROUNDS).min(MOST_ROUNDS);
    let between = if rounds > 1 { 60 * u32::from(rounds) } else { 0 };
    Some((Slot::Hold { pace, piece, rounds }, (count * on + between).min(left_s)))
}

/// Most of the lane have swims enough behind them for full doses.
pub(super) fn seasoned_lane(book: &Rulebook, swimmers: &[&Facts]) -> bool {
    let seasoned = swimmers.iter().filter(|facts| SwimmerState::of(facts, book).seasoned()).count();
    seasoned * 2 > swimmers.len()
}

/// Two drills that work on two things, by the day; not those of the last nights.
fn drills(night: &Night<'_>) -> Option<[&'static Drill; 2]> {
    let lately: Vec<&str> = night
        .before
        .iter()
        .take(2)
        .flat_map(|session| session.blocks.iter().flat_map(|block| &block.repeats))
        .filter_map(|line| match &line.cue {
            Some(Cue::Drill(id)) => Some(id.as_str()),
            _ => None,
        })
        .collect();
    // The whole squad swims it: nothing that loads a joint, no snorkel to own.
    let fits = |drill: &&Drill| {
        drill.stroke == Stroke::Free
            && drill.for_returners
            && !drill.open_water
            && drill.loads.is_empty()
            && drill.equipment.is_none_or(|kit| kit == Equipment::Fins)
    };
    let all: Vec<&'static Drill> = DRILLS.iter().filter(fits).collect();
    let (old, new): (Vec<_>, Vec<_>) = all.into_iter().partition(|one| lately.contains(&one.id));
    let order: Vec<&'static Drill> = new.into_iter().chain(old).collect();
    let day = usize::from(night.on.day_of_year().unsigned_abs());
    let first = *order.get(day % order.len().max(1))?;
    let second = order.iter().find(|other| other.cures != first.cures)?;
    Some([first, second])
}
