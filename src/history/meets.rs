//! Meets to come, their pools, and who is entered for what.
//!
//! Knows what was said; not by which time someone should be entered.

use jiff::Timestamp;
use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::{Squad, Swimmer};
use crate::units::{Centis, Course, Distance, Stroke};

/// How many meets a squad keeps.
pub(super) const MEETS_KEPT: usize = 64;

/// A swimmer's entry for one race, or its end.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct RaceEntry {
    /// The day of the meet; none where no meet was known.
    pub on: Option<Date>,
    /// How far.
    pub distance: Distance,
    /// Which stroke.
    pub stroke: Stroke,
    /// The entry time, where one was given.
    pub time: Option<Centis>,
    /// Taken out again.
    pub scratched: bool,
}

/// A leg of a relay that began with a takeover: no best time and no test, for
/// nobody waits for a signal there.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct FlyingLeg {
    /// How far.
    pub distance: Distance,
    /// Which stroke.
    pub stroke: Stroke,
    /// In which pool.
    pub course: Course,
    /// How long it took.
    pub time: Centis,
    /// Which leg, from 2.
    pub leg: u8,
}

impl RaceEntry {
    fn is_same_race(&self, other: &RaceEntry) -> bool {
        (self.on, self.distance, self.stroke) == (other.on, other.distance, other.stroke)
    }
}

impl Swimmer {
    /// Their entries that stand at `now` and are not over on `today`, by day; those
    /// without a day last.
    pub fn entered(&self, today: Date, now: Timestamp) -> Vec<RaceEntry> {
        let mut latest: Vec<(u64, RaceEntry)> = Vec::new();
        for kept in self.entries.as_of(now) {
            match latest.iter_mut().find(|(_, one)| one.is_same_race(&kept.what)) {
                Some((cause, _)) if *cause > kept.cause => {}
                Some(known) => *known = (kept.cause, kept.what),
                None => latest.push((kept.cause, kept.what)),
            }
        }
        let stands = |one: &RaceEntry| !one.scratched && one.on.is_none_or(|on| on >= today);
        let mut entered: Vec<RaceEntry> =
            latest.into_iter().map(|(_, one)| one).filter(stands).collect();
        entered.sort_by_key(|one| (one.on.is_none(), one.on, one.stroke, one.distance.amount()));
        entered
    }
}

impl Squad {
    /// The next meet of `today` or later, known at `now`.
    pub fn next_meet(&self, today: Date, now: Timestamp) -> Option<Date> {
        self.meets.since(today, now).next().map(|kept| kept.on)
    }

    /// The pool of the meet of a day: as was said last, else the squad's.
    pub fn course_of_meet(&self, on: Option<Date>, now: Timestamp) -> Course {
        let said = on.and_then(|on| {
            let of_day = self.meets.since(on, now).take_while(|kept| kept.on == on);
            of_day.filter_map(|kept| Some((kept.cause, kept.what?))).max_by_key(|one| one.0)
        });
        said.map_or(self.course, |(_, course)| course)
    }
}
