//! The same race in another pool, by a published table that is named.
//!
//! A rough guide to entry times only: critical speed and targets are never
//! converted but tested again when the pool changes. Two methods differ by
//! whole seconds on one swim, so they are never mixed.

use super::Category;
use crate::units::{Centis, Course, Distance, Stroke, Unit};

/// A published way to convert.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Method {
    /// A turn rule used by clubs, the same for all swimmers: 25 m is 25 yd
    /// times 1.11; 50 m is 25 m and, for each 50, 0.7 s (butterfly), 0.6
    /// (backstroke), 1.0 (breaststroke), 0.8 (freestyle and medley). From a
    /// club handbook, which calls it an approximation.
    TurnRule,
    /// The factors of US college sport, Division I, season 2023-24, between
    /// 50 m and 25 yd: seconds times the factor. Read in a news reprint of the
    /// committee's document.
    CollegeFactors(Category),
}

/// A converted time and the method to print with it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Converted {
    /// The distance in the other pool: 400 m becomes 500 yd by the college
    /// factors.
    pub distance: Distance,
    /// The time there, to the nearest hundredth.
    pub time: Centis,
    /// How it was found.
    pub method: Method,
}

/// An event of the college factors: metres, yards, stroke, women's and men's
/// factor.
type FactorRow = (u32, u32, Stroke, f64, f64);

#[rustfmt::skip]
const COLLEGE_FACTORS: [FactorRow; 14] = [
    (50, 50, Stroke::Free, 0.881, 0.870),
    (100, 100, Stroke::Free, 0.884, 0.873),
    (200, 200, Stroke::Free, 0.884, 0.875),
    (400, 500, Stroke::Free, 1.122, 1.115),
    (800, 1000, Stroke::Free, 1.130, 1.115),
    (1500, 1650, Stroke::Free, 0.985, 0.975),
    (100, 100, Stroke::Back, 0.863, 0.845),
    (200, 200, Stroke::Back, 0.867, 0.859),
    (100, 100, Stroke::Breast, 0.880, 0.866),
    (200, 200, Stroke::Breast, 0.888, 0.868),
    (100, 100, Stroke::Fly, 0.887, 0.878),
    (200, 200, Stroke::Fly, 0.891, 0.876),
    (200, 200, Stroke::Im, 0.877, 0.867),
    (400, 400, Stroke::Im, 0.886, 0.875),
];

/// 25 yd to 25 m by the turn rule.
pub(super) const YARDS_TO_METRES: f64 = 1.11;

impl Method {
    /// Its name, for the reply that shows the result.
    pub const fn name(self) -> &'static str {
        match self {
            Method::TurnRule => "club turn rule",
            Method::CollegeFactors(_) => "college factors 2023-24",
        }
    }
}

/// Converts `distance` in `time` from one pool to another. `None` for an event
/// that the method has no row for, for open water, and for a distance in
/// another unit than the pool it was swum in.
pub fn convert(
    distance: Distance,
    time: Centis,
    stroke: Stroke,
    from: Course,
    to: Course,
    method: Method,
) -> Option<Converted> {
    if distance.unit() != from.unit() {
        return None;
    }
    let (amount, seconds) = match method {
        Method::TurnRule => {
            let in_25_m = to_25_m(distance, time.seconds(), stroke, from)?;
            (distance.amount(), from_25_m(distance, in_25_m, stroke, to)?)
        }
        Method::CollegeFactors(category) => {
            by_factor(distance, time.seconds(), stroke, (from, to), category)?
        }
    };
    Some(Converted {
        distance: Distance::new(amount, to.unit()).ok()?,
        time: Centis::from_seconds(seconds).ok()?,
        method,
    })
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

fn by_factor(
    distance: Distance,
    seconds: f64,
    stroke: Stroke,
    (from, to): (Course, Course),
    category: Category,
) -> Option<(u32, f64)> {
    let row = COLLEGE_FACTORS.into_iter().find(|(metres, yards, of, ..)| {
        let amount = if from.unit() == Unit::Metre { metres } else { yards };
        *of == stroke && *amount == distance.amount()
    })?;
    let (metres, yards, _, women, men) = row;
    let factor = match category {
        Category::Women => women,
        Category::Men => men,
    };
    match (from, to) {
        (Course::Long50m, Course::Short25yd) => Some((yards, seconds * factor)),
        (Course::Short25yd, Course::Long50m) => Some((metres, seconds / factor)),
        _ => None,
    }
}
