//! The targets of a swimmer: the even pace of their newest test, or what the coach
//! set in its place.

use super::Facts;
use super::own_targets::by_coach;
use super::paces::Paces;
use crate::swim::even_pace::{self, Target};
use crate::swim::levels::Band;
use crate::units::{Distance, SendOff, Start, Stroke};

/// Targets and send-offs for `distances`, or for the usual pieces of the newest
/// test where none are named. A distance that is no piece of the test gets the
/// pace that settles, where that is known.
pub fn targets(facts: &Facts, distances: &[Distance]) -> Vec<Target> {
    let paces = Paces::of(facts, facts.course);
    let Some(test) = paces.newest() else { return Vec::new() };
    if distances.is_empty() {
        let even = even_pace::targets(test.distance, test.time, facts.course, Start::Push);
        return even.into_iter().map(|target| by_coach(&paces, target)).collect();
    }
    distances
        .iter()
        .filter(|distance| distance.fits(facts.course))
        .filter_map(|distance| {
            let piece = even_pace::target(test.distance, test.time, *distance, Start::Push);
            let target = piece.or_else(|| at_critical_speed(&paces, *distance))?;
            Some(by_coach(&paces, target))
        })
        .collect()
}

/// Of the times that the coach set those that they are to hold today, with their
/// send-offs: while something is open, none faster than the test's.
pub fn own_holds(facts: &Facts) -> Vec<Target> {
    let distances: Vec<Distance> = facts.own_targets.iter().map(|own| own.distance).collect();
    if distances.is_empty() {
        return Vec::new();
    }
    let is_own = |target: &Target| {
        let mut all = facts.own_targets.iter();
        all.any(|own| own.distance == target.distance && own.time == target.time)
    };
    targets(facts, &distances).into_iter().filter(is_own).collect()
}

/// The stroke that a swimmer's targets are for; none before their first test.
pub fn coached_stroke(facts: &Facts) -> Option<Stroke> {
    let paces = Paces::of(facts, facts.course);
    paces.newest().map(|_| paces.stroke)
}

fn at_critical_speed(paces: &Paces, distance: Distance) -> Option<Target> {
    let hold = paces.at(98.0, distance)?;
    let send_off: SendOff = Band::of(hold.level).send_off(distance, hold.time);
    Some(Target { distance, time: hold.time, send_off: Some(send_off) })
}
