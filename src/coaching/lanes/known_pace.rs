//! A swimmer's pace for the lanes, from what is known of them.

use super::evening::KnownPace;
use crate::coaching::Facts;
use crate::coaching::paces::Paces;
use crate::units::Course;

/// Where `facts` put a swimmer in a pool: at critical speed if a test of 200 or
/// more tells it; at a guess from their sprints if there are only those; nowhere
/// without a test. It goes by their tests and sets, and by nothing else of them.
pub fn known_pace(facts: &Facts, course: Course) -> KnownPace {
    let paces = Paces::of(facts, course);
    match (paces.critical, paces.guessed_critical()) {
        (Some(pace), _) => KnownPace::Tested(pace),
        (None, Some(pace)) => KnownPace::Guessed(pace),
        (None, None) => KnownPace::Unknown,
    }
}
