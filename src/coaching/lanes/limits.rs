//! What a lane can hold: room on the send-off, and nobody lapped.
//!
//! Knows times; not who may share a lane with whom.

use super::evening::{Evening, Gap, LaneRepeat};
use crate::swim::levels::{Band, at_percent};
use crate::units::{Centis, Course, Distance, Level, Pace, SendOff};

/// The set's times for every swimmer, and what follows from them.
pub(super) struct Limits {
    /// Seconds between two, in hundredths.
    gap: u64,
    /// One circle of the lane, in the course's unit.
    circle: Option<u64>,
    /// Distances of the set and, swimmer by swimmer, the time for each.
    repeats: Vec<Timed>,
    /// How many fit behind each other with this swimmer as the slowest.
    room: Vec<usize>,
}

/// One repeat of the set, with everyone's time for it in hundredths.
struct Timed {
    distance: u64,
    times: Vec<u64>,
}

impl Limits {
    /// The limits of `evening` for swimmers at `paces`.
    pub fn of(evening: &Evening, paces: &[Pace]) -> Limits {
        let gap = u64::from(evening.gap.seconds()) * 100;
        let repeats = evening.set.iter().map(|repeat| Timed {
            distance: u64::from(repeat.distance.amount()),
            times: paces.iter().map(|pace| time(*pace, repeat).hundredths().into()).collect(),
        });
        let room = |pace: &Pace| {
            let fits = evening.set.iter().map(|repeat| {
                let swum = u64::from(time(*pace, repeat).hundredths());
                let stretch = u64::from(evening.stretch_s) * 100;
                let send_off = u64::from(own_send_off(*pace, repeat).seconds()) * 100 + stretch;
                send_off.checked_sub(swum).map_or(0, |rest| rest / gap + 1)
            });
            fits.min().map_or(usize::MAX, |fit| usize::try_from(fit).unwrap_or(usize::MAX))
        };
        Limits {
            gap,
            circle: circle(evening.course).map(u64::from),
            room: paces.iter().map(room).collect(),
            repeats: repeats.collect(),
        }
    }

    /// True if `swimmers` from `first` to `last`, by their places in the order
    /// of pace, may swim behind each other.
    pub fn hold(&self, first: usize, last: usize, swimmers: usize) -> bool {
        swimmers <= self.room[last] && !self.lapped(first, last, swimmers)
    }

    fn lapped(&self, first: usize, last: usize, swimmers: usize) -> bool {
        let Some(circle) = self.circle else { return false };
        let lead = self.gap * (swimmers as u64).saturating_sub(1);
        self.repeats.iter().filter(|repeat| repeat.distance > circle).any(|repeat| {
            let (slow, fast) = (repeat.times[last], repeat.times[first]);
            // The last has swum for as long as the first less the lead.
            let unswum = slow.saturating_sub(fast.saturating_sub(lead));
            repeat.distance * unswum >= circle * slow
        })
    }
}

/// Once round a lane and back, in the course's unit.
pub(super) fn circle(course: Course) -> Option<u32> {
    course.length().map(|length| 2 * length)
}

/// The time of a swimmer with that threshold pace for one repeat.
pub(super) fn time(pace: Pace, repeat: &LaneRepeat) -> Centis {
    let percent = match repeat.level {
        // Its band is open to the fast side; a lane swims just inside it.
        Level::Sprint => 108.0,
        level => (Band::of(level).slow_percent + Band::of(level).fast_percent) / 2.0,
    };
    at_percent(pace, percent).time_for(repeat.distance).unwrap_or(Centis::GREATEST)
}

/// The send-off of a repeat for a lane whose slowest has that pace: the coach's,
/// else the level's.
pub(super) fn own_send_off(pace: Pace, repeat: &LaneRepeat) -> SendOff {
    let by_level = || Band::of(repeat.level).send_off(repeat.distance, time(pace, repeat));
    repeat.send_off.unwrap_or_else(by_level)
}

/// The send-off that also leaves room for `swimmers`: the lane's own, or so many
/// times five seconds longer as it takes.
pub(super) fn roomy_send_off(
    pace: Pace,
    repeat: &LaneRepeat,
    gap: Gap,
    swimmers: usize,
) -> SendOff {
    let own = own_send_off(pace, repeat);
    let behind = u32::try_from(swimmers.saturating_sub(1)).unwrap_or(u32::MAX);
    let back = time(pace, repeat)
        .hundredths()
        .saturating_add(gap.seconds().saturating_mul(behind).saturating_mul(100));
    let missing = back.saturating_sub(own.seconds() * 100);
    SendOff::new(own.seconds() + missing.div_ceil(500) * 5).unwrap_or(own)
}

/// A repeat no longer than `longest`.
pub(super) fn cut_to(repeat: &LaneRepeat, longest: Distance) -> LaneRepeat {
    if repeat.distance.amount() <= longest.amount() {
        return *repeat;
    }
    LaneRepeat { distance: longest, ..*repeat }
}
