//! The set and the clock: where each lane should be, when it ends, and what to leave
//! out where it is too long.

use jiff::civil::Time;

use crate::coaching::evening::{GivenUp, Position, position, shortened};
use crate::desk::decision::view::View;
use crate::desk::evening::tonight::Tonight;
use crate::history::EveningKept;
use crate::session::{Block, Repeat, Session};
use crate::units::Level;

/// The set of a night and the clock.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Clock {
    /// When the night starts, where that is known.
    pub starts: Option<Time>,
    /// When what is booked ends, where that is known.
    pub ends: Option<Time>,
    /// Whole minutes until then, while the night is on.
    pub left_min: Option<u32>,
    /// How long there still is to swim, while the night is on.
    pub left: Option<Left>,
    /// Each lane's.
    pub lanes: Vec<LaneClock>,
}

/// Whole minutes that are left, and of what.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Left {
    /// Until the last lane has swum its set: a cut set ends before the booking.
    Set(u32),
    /// Until what is booked ends: no set runs, or it would run on beyond it.
    Booking(u32),
}

/// A lane and the clock.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LaneClock {
    /// Which lane, counted from 1.
    pub lane: u8,
    /// What it swims, whole.
    pub session: Session,
    /// Seconds since its start, while the night is on.
    pub elapsed_s: Option<u32>,
    /// Where it should be, while the night is on.
    pub position: Option<Position>,
    /// The line whose own targets count now: the one under way if it has any, else
    /// the next to come that has.
    pub aimed: Option<Repeat>,
    /// When it ends, where the night's start is known.
    pub ends: Option<Time>,
    /// Whole minutes by which it is longer than what is booked, rounded up.
    pub over_min: u32,
    /// What to give up so that it fits; nothing where it fits, or nothing helps.
    pub give_up: Vec<GivenUp>,
}

/// The clock of an evening.
pub fn clock(view: &View<'_>, tonight: &Tonight) -> Clock {
    let (booking, elapsed) = (tonight.booking, tonight.elapsed_s);
    let zone = view.squad.zone();
    let booked_s = u32::from(booking.minutes) * 60;
    let starts = booking.starts.map(|starts| starts.to_zoned_datetime(zone).time());
    Clock {
        starts,
        ends: view.squad.night(tonight.on, view.now()).and_then(|night| night.ends()),
        left_min: elapsed.and_then(|elapsed| booked_s.checked_sub(elapsed)).map(|left| left / 60),
        left: elapsed.and_then(|elapsed| left(booked_s, &tonight.kept, elapsed)),
        lanes: (tonight.kept.swum())
            .filter_map(|lane| {
                let session = view.shown(lane.session.as_ref()?);
                Some(lane_clock(view, lane.lane.number(), session, tonight))
            })
            .collect(),
    }
}

/// The set's minutes while one runs and ends in time, else the booking's.
fn left(booked_s: u32, evening: &EveningKept, elapsed_s: u32) -> Option<Left> {
    let sessions = evening.swum().filter_map(|lane| lane.session.as_ref());
    let ends_s = sessions.map(Session::duration_s).max().unwrap_or_default();
    match ends_s.checked_sub(elapsed_s).filter(|left| *left > 0 && ends_s <= booked_s) {
        Some(left) => Some(Left::Set(left / 60)),
        None => booked_s.checked_sub(elapsed_s).map(|left| Left::Booking(left / 60)),
    }
}

/// The line that those of a lane look at their own targets for.
fn aimed<'a>(session: &'a Session, position: Option<&Position>) -> Option<&'a Repeat> {
    let has_own =
        |line: &&Repeat| line.level > Level::Easy && (line.aim.is_some() || line.target.is_some());
    let blocks = &session.blocks;
    let (from, here) = match position {
        None => (0, None),
        Some(Position::Over) => return None,
        Some(Position::Changing { next, .. }) => {
            (blocks.iter().position(|block| block.part == *next)?, None)
        }
        Some(Position::Swimming { part, line, round: (round, rounds), .. }) => {
            let is_here = |block: &Block| {
                block.part == *part && block.rounds == *rounds && block.repeats.contains(line)
            };
            let (at, here) = blocks.iter().enumerate().find(|(_, block)| is_here(block))?;
            let now = here.repeats.iter().position(|one| one == line)?;
            let (swum, left) = here.repeats.split_at_checked(now)?;
            // The rest of this round, then what another one brings round again.
            let again = if round < rounds { swum } else { &[] };
            (at + 1, left.iter().chain(again).find(has_own))
        }
    };
    here.or_else(|| blocks.get(from..)?.iter().flat_map(|block| &block.repeats).find(has_own))
}

fn lane_clock(view: &View<'_>, lane: u8, session: Session, tonight: &Tonight) -> LaneClock {
    let (booking, elapsed) = (tonight.booking, tonight.elapsed_s);
    let position = elapsed.map(|elapsed| position(&session, elapsed));
    let booked_s = u32::from(booking.minutes) * 60;
    let over_s = session.duration_s().saturating_sub(booked_s);
    let give_up = match over_s {
        0 => Vec::new(),
        _ => shortened(&session, elapsed.unwrap_or(0), booked_s).given_up,
    };
    LaneClock {
        lane,
        elapsed_s: elapsed,
        aimed: aimed(&session, position.as_ref()).cloned(),
        position,
        ends: view.ends(&booking, &session),
        over_min: over_s.div_ceil(60),
        give_up,
        session,
    }
}
