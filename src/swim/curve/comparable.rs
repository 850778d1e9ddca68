//! Swims made comparable: as if from a push, and as if in one pool.
//!
//! Every correction adds or multiplies, so a faster swim stays the faster.

use crate::swim::Trial;
use crate::swim::conversion::{YARDS_TO_METRES, turn_s_per_50};
use crate::units::{Centis, Course, Distance, Start, Stroke};

/// Seconds that a dive saves over each 25 of a swim of 100 or less (common
/// practice, no source). Over longer swims a start is lost in the noise.
const DIVE_S_PER_25: f64 = 0.5;
/// What a turn saves where the rule names no stroke: as free (ours).
const OTHER_STROKE_S_PER_50: f64 = 0.8;
/// The longest swim of which a start tells.
const START_TELLS: u32 = 100;

/// The time of a swim that began as `start` says, as it would have been from a
/// push, which is how repeats begin.
pub fn from_a_push(distance: Distance, time: Centis, start: Start) -> Centis {
    Centis::from_seconds(time.seconds() + saved_s(distance, start)).unwrap_or(time)
}

/// The other way: a time from a push, as it would be after `start`.
pub fn from_start(distance: Distance, time: Centis, start: Start) -> Centis {
    Centis::from_seconds((time.seconds() - saved_s(distance, start)).max(0.01)).unwrap_or(time)
}

fn saved_s(distance: Distance, start: Start) -> f64 {
    match start {
        Start::Dive if distance.amount() <= START_TELLS => {
            DIVE_S_PER_25 * f64::from(distance.amount().div_ceil(25))
        }
        _ => 0.0,
    }
}

/// `trial` as if swum over the same number in `course`, by a club's turn rule
/// (read in its handbook, which calls it an approximation): 25 m is 25 yd times
/// 1.11; a 50 m pool takes 0.6 to 1.0 s more for each 50, by stroke. The rule
/// names races of 50 to 200; other distances go by the same seconds a 50. Open
/// water, which has no turns at all, takes twice that (ours).
///
/// `None` where no such distance or time can be.
pub fn in_course(trial: Trial, course: Course) -> Option<Trial> {
    if trial.course == course {
        return Some(trial);
    }
    let turns = turns_s(trial.distance, trial.stroke);
    let seconds = trial.time.seconds();
    let in_25_m = match trial.course {
        Course::Short25m => seconds,
        Course::Short25yd => seconds * YARDS_TO_METRES,
        Course::Long50m => seconds - turns,
        Course::OpenWater => seconds - 2.0 * turns,
    };
    let there = match course {
        Course::Short25m => in_25_m,
        Course::Short25yd => in_25_m / YARDS_TO_METRES,
        Course::Long50m => in_25_m + turns,
        Course::OpenWater => in_25_m + 2.0 * turns,
    };
    Some(Trial {
        distance: Distance::new(trial.distance.amount(), course.unit()).ok()?,
        // A swim of no more than its turns is none; half is as much as they can be.
        time: Centis::from_seconds(there.max(seconds / 2.0)).ok()?,
        course,
        ..trial
    })
}

/// Seconds for the turns that a 50 m pool has fewer of.
fn turns_s(distance: Distance, stroke: Stroke) -> f64 {
    let per_50 = turn_s_per_50(stroke).unwrap_or(OTHER_STROKE_S_PER_50);
    per_50 * f64::from(distance.amount()) / 50.0
}
