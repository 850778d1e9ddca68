//! What a lane can hold: a gap between any two, and nobody lapped.
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
    /// The shortest send-off of the set with this swimmer as the slowest, in
    /// seconds; none where there is no set.
    shortest: Vec<Option<u32>>,
    /// How much longer send-offs may be.
    stretch_s: u32,
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
        let shortest = |pace: &Pace| {
            let send_offs = evening.set.iter().map(|repeat| own_send_off(*pace, repeat).seconds());
            send_offs.min()
        };
        Limits {
            gap,
            circle: circle(evening.course).map(u64::from),
            shortest: paces.iter().map(shortest).collect(),
            stretch_s: evening.stretch_s,
            repeats: repeats.collect(),
        }
    }

    /// By how many seconds, in steps of five, send-offs must be longer for
    /// `swimmers` from `first` to `last`, by their places in the order of pace,
    /// to swim behind each other; `None` if they may not.
    pub fn stretch(&self, first: usize, last: usize, swimmers: usize) -> Option<u32> {
        let lead = self.gap * (swimmers as u64).saturating_sub(1);
        // Swimmers circle: the first may leave while the last is coming home, a
        // gap behind the last to leave.
        let turn_s = u32::try_from((lead + self.gap) / 100).ok()?;
        let shortest = *self.shortest.get(last)?;
        let missing = shortest.map_or(0, |shortest| turn_s.saturating_sub(shortest));
        let stretch_s = missing.div_ceil(5) * 5;
        let holds = stretch_s <= self.stretch_s && !self.lapped(first, last, lead);
        holds.then_some(stretch_s)
    }

    fn lapped(&self, first: usize, last: usize, lead: u64) -> bool {
        let Some(circle) = self.circle else { return false };
        self.repeats.iter().any(|repeat| {
            let times = repeat.times.get(first).zip(repeat.times.get(last));
            times.is_none_or(|(fast, slow)| swims_into(circle, repeat.distance, *fast, *slow, lead))
        })
    }
}

/// True if the first of a lane, in `fast`, laps the last, in `slow`, who leaves
/// `lead_s` behind them, within one repeat of `distance`.
pub fn is_lapped(
    course: Course,
    distance: Distance,
    fast: Centis,
    slow: Centis,
    lead_s: u32,
) -> bool {
    let time = |time: Centis| u64::from(time.hundredths());
    circle(course).is_some_and(|circle| {
        let (amount, lead) = (u64::from(distance.amount()), u64::from(lead_s) * 100);
        swims_into(circle.into(), amount, time(fast), time(slow), lead)
    })
}

/// Times in hundredths, lengths in the course's unit.
fn swims_into(circle: u64, distance: u64, fast: u64, slow: u64, lead: u64) -> bool {
    // The last has swum for as long as the first less the lead.
    let unswum = slow.saturating_sub(fast.saturating_sub(lead));
    distance > circle && distance * unswum >= circle * slow
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

/// The send-off on which `swimmers` can leave a gap apart and come round again:
/// the lane's own, or so many times five seconds longer as it takes.
pub(super) fn roomy_send_off(
    pace: Pace,
    repeat: &LaneRepeat,
    gap: Gap,
    swimmers: usize,
) -> SendOff {
    let own = own_send_off(pace, repeat);
    let missing = gap.turn(swimmers).seconds().saturating_sub(own.seconds());
    SendOff::new(own.seconds() + missing.div_ceil(5) * 5).unwrap_or(own)
}

/// A repeat no longer than `longest`.
pub(super) fn cut_to(repeat: &LaneRepeat, longest: Distance) -> LaneRepeat {
    if repeat.distance.amount() <= longest.amount() {
        return *repeat;
    }
    LaneRepeat { distance: longest, ..*repeat }
}
