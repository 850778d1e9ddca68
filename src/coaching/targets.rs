//! The targets of a swimmer: the even pace of her newest test.

use super::Facts;
use super::paces::Paces;
use crate::swim::even_pace::{self, Target};
use crate::swim::levels::Band;
use crate::units::{Distance, SendOff, Start};

/// Targets and send-offs for `distances`, or for the usual pieces of the newest
/// test where none are named. A distance that is no piece of the test gets the
/// pace that settles, where that is known.
pub fn targets(facts: &Facts, distances: &[Distance]) -> Vec<Target> {
    let paces = Paces::of(facts, facts.course);
    let Some(test) = paces.newest() else { return Vec::new() };
    if distances.is_empty() {
        return even_pace::targets(test.distance, test.time, facts.course, Start::Push);
    }
    distances
        .iter()
        .filter(|distance| distance.fits(facts.course))
        .filter_map(|distance| {
            let piece = even_pace::target(test.distance, test.time, *distance, Start::Push);
            piece.or_else(|| at_critical_speed(&paces, *distance))
        })
        .collect()
}

fn at_critical_speed(paces: &Paces, distance: Distance) -> Option<Target> {
    let hold = paces.at(98.0, distance)?;
    let send_off: SendOff = Band::of(hold.level).send_off(distance, hold.time);
    Some(Target { distance, time: hold.time, send_off: Some(send_off) })
}
