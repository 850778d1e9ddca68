//! The set and the clock: where each lane should be, when it ends, what to give
//! up where it is too long.

use jiff::civil::{Date, Time};

use crate::coaching::evening::{GivenUp, Position, position, shortened};
use crate::desk::bench::Desk;
use crate::desk::evening::Booking;
use crate::desk::set_in_motion::elapsed_s;
use crate::profile::LaneKept;
use crate::session::Session;

/// The set of a night and the clock.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Clock {
    /// When the night starts, where that is known.
    pub starts: Option<Time>,
    /// When what is booked ends, where that is known.
    pub ends: Option<Time>,
    /// Whole minutes until then, while the night is on.
    pub left_min: Option<u32>,
    /// One a lane.
    pub lanes: Vec<LaneClock>,
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
    /// When it ends, where the night's start is known.
    pub ends: Option<Time>,
    /// Whole minutes by which it is longer than what is booked, rounded up.
    pub over_min: u32,
    /// What to give up so that it fits; nothing where it fits, or nothing helps.
    pub give_up: Vec<GivenUp>,
}

/// The clock of `on`.
pub fn clock(desk: &Desk<'_>, on: Date) -> Clock {
    let booking = desk.booking(on);
    let zone = desk.squad.zone();
    let begun = booking.starts.is_some_and(|starts| starts <= desk.now());
    let elapsed = elapsed_s(desk, &booking).filter(|_| begun);
    let booked_s = u32::from(booking.minutes) * 60;
    let left_s = elapsed.and_then(|elapsed| booked_s.checked_sub(elapsed));
    let starts = booking.starts.map(|starts| starts.to_zoned_datetime(zone).time());
    let set = desk.set_in_force(on);
    Clock {
        starts,
        ends: desk.squad.night(on, desk.now()).and_then(|night| night.ends()),
        left_min: left_s.map(|left| left / 60),
        lanes: set
            .iter()
            .flat_map(|set| &set.lanes)
            .map(|lane| lane_clock(desk, lane, &booking, elapsed))
            .collect(),
    }
}

fn lane_clock(
    desk: &Desk<'_>,
    lane: &LaneKept,
    booking: &Booking,
    elapsed: Option<u32>,
) -> LaneClock {
    let session = lane.session.clone();
    let booked_s = u32::from(booking.minutes) * 60;
    let over_s = session.duration_s().saturating_sub(booked_s);
    let give_up = match over_s {
        0 => Vec::new(),
        _ => shortened(&session, elapsed.unwrap_or(0), booked_s).given_up,
    };
    LaneClock {
        lane: lane.lane,
        elapsed_s: elapsed,
        position: elapsed.map(|elapsed| position(&session, elapsed)),
        ends: desk.ends(booking, &session),
        over_min: over_s.div_ceil(60),
        give_up,
        session,
    }
}
