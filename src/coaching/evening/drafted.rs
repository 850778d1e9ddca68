//! Swimmers dealt out to lanes by pace alone, in equal groups.
//!
//! Knows no gaps and no laps: what a lane can physically hold is for whoever
//! draws the lanes.

use super::versions::MOST_VERSIONS;
use crate::coaching::Facts;
use crate::coaching::paces::Paces;
use crate::units::Course;

/// Swimmers a lane that are still few (ours).
const FEW: usize = 4;

/// Places in `swimmers` by lane, the fastest lane first, whoever has no test
/// last: in as many lanes as it takes for few in each, of those `booked`; a lane
/// a version where nobody said how many there are.
pub fn drafted(swimmers: &[Facts], course: Course, booked: Option<u8>) -> Vec<Vec<usize>> {
    let pace = |facts: &Facts| {
        let paces = Paces::of(facts, course);
        (paces.newest().is_none(), paces.easy_per_100_s())
    };
    let paces: Vec<(bool, f64)> = swimmers.iter().map(pace).collect();
    let mut order: Vec<usize> = (0..swimmers.len()).collect();
    order.sort_by(|one, other| {
        let (one, other) = (paces[*one], paces[*other]);
        one.0.cmp(&other.0).then(one.1.total_cmp(&other.1))
    });
    let booked = booked.map_or(MOST_VERSIONS, usize::from).max(1);
    let lanes = swimmers.len().div_ceil(FEW).max(2).min(booked).min(swimmers.len());
    let mut left = order.as_slice();
    (0..lanes)
        .map(|lane| {
            let (own, rest) = left.split_at(left.len().div_ceil(lanes - lane));
            left = rest;
            own.to_vec()
        })
        .collect()
}
