//! The same race in another pool, by the turn rule of clubs.
//!
//! The rule is the same for all swimmers: 25 m is 25 yd times 1.11; 50 m is 25 m and,
//! for each 50, 0.7 s (butterfly), 0.6 (backstroke), 1.0 (breaststroke), 0.8 (freestyle
//! and medley). From a club handbook, which calls it an approximation: a rough guide to
//! entry times only. Critical speed and targets are never converted but tested again
//! when the pool changes.

use crate::units::{Centis, Course, Distance, Stroke};

/// 25 yd to 25 m by the turn rule.
pub(super) const YARDS_TO_METRES: f64 = 1.11;

/// The time for `distance` in pool `to` of somebody who swam it in `time` in pool
/// `from`, to the nearest hundredth. `None` for what the rule does not cover, for open
/// water, and for a distance in another unit than that of the pool it was swum in.
pub fn convert(
    distance: Distance,
    time: Centis,
    stroke: Stroke,
    from: Course,
    to: Course,
) -> Option<Centis> {
    if distance.unit() != from.unit() {
        return None;
    }
    let in_25_m = to_25_m(distance, time.seconds(), stroke, from)?;
    Centis::from_seconds(from_25_m(distance, in_25_m, stroke, to)?).ok()
}

fn to_25_m(distance: Distance, seconds: f64, stroke: Stroke, from: Course) -> Option<f64> {
    let turns = turns_s(distance, stroke)?;
    match from {
        Course::Short25m => Some(seconds),
        Course::Short25yd => Some(seconds * YARDS_TO_METRES),
        Course::Long50m => Some(seconds - turns),
        Course::OpenWater => None,
    }
}

fn from_25_m(distance: Distance, seconds: f64, stroke: Stroke, to: Course) -> Option<f64> {
    let turns = turns_s(distance, stroke)?;
    match to {
        Course::Short25m => Some(seconds),
        Course::Short25yd => Some(seconds / YARDS_TO_METRES),
        Course::Long50m => Some(seconds + turns),
        Course::OpenWater => None,
    }
}

/// What the turns of a short pool save: the rule speaks of races of 50 to 200,
/// and of the 400 medley.
fn turns_s(distance: Distance, stroke: Stroke) -> Option<f64> {
    let covered = match distance.amount() {
        50 | 100 | 200 => true,
        400 => stroke == Stroke::Im,
        _ => false,
    };
    let per_50 = turn_s_per_50(stroke).filter(|_| covered)?;
    Some(per_50 * f64::from(distance.amount() / 50))
}

/// What the turn that a 50 m pool lacks saves, for each 50, by the turn rule.
pub(super) const fn turn_s_per_50(stroke: Stroke) -> Option<f64> {
    match stroke {
        Stroke::Fly => Some(0.7),
        Stroke::Back => Some(0.6),
        Stroke::Breast => Some(1.0),
        Stroke::Free | Stroke::Im => Some(0.8),
        Stroke::Kick | Stroke::Pull | Stroke::Drill | Stroke::Choice => None,
    }
}
