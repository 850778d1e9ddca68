//! Which lanes swim the same version: a coach watches three at most.
//!
//! Knows paces; not what is swum.

use super::lane::Lane;
use crate::coaching::Facts;
use crate::units::Course;

/// One session is written in at most so many versions (common practice, no
/// source: a coach watches two or three).
pub(super) const MOST_VERSIONS: usize = 3;

/// The versions, and which of them each lane swims.
pub(super) struct Versions {
    /// One a version, the fastest first.
    pub lanes: Vec<Lane>,
    /// The place of a lane's version, lane by lane.
    pub of_lane: Vec<usize>,
}

/// A version a lane, or where there are more lanes than versions the split of
/// neighbours by pace in which lanes wait least for the slowest of their
/// version; `None` where a lane is empty.
pub(super) fn versions(lanes: &[Vec<&Facts>], course: Course) -> Option<Versions> {
    let alone: Vec<Lane> =
        lanes.iter().map(|swimmers| Lane::of(swimmers, course)).collect::<Option<_>>()?;
    if alone.len() <= MOST_VERSIONS {
        let of_lane = (0..alone.len()).collect();
        return Some(Versions { lanes: alone, of_lane });
    }
    let pace = |at: usize| alone[at].slowest().easy_per_100_s();
    let mut order: Vec<usize> = (0..alone.len()).collect();
    order.sort_by(|one, other| pace(*one).total_cmp(&pace(*other)));
    let waits = |run: &[usize]| {
        let slowest = run.last().map_or(0.0, |last| pace(*last));
        run.iter().map(|at| (slowest - pace(*at)).powi(2)).sum::<f64>()
    };
    let cuts = (1..order.len() - 1)
        .flat_map(|first| (first + 1..order.len()).map(move |second| (first, second)));
    let cost = |(first, second): &(usize, usize)| {
        waits(&order[..*first]) + waits(&order[*first..*second]) + waits(&order[*second..])
    };
    let (first, second) = cuts.min_by(|one, other| cost(one).total_cmp(&cost(other)))?;
    let runs = [&order[..first], &order[first..second], &order[second..]];
    let mut of_lane = vec![0; lanes.len()];
    for (version, run) in runs.iter().enumerate() {
        run.iter().for_each(|at| of_lane[*at] = version);
    }
    let shared = runs.iter().map(|run| {
        let swimmers: Vec<&[&Facts]> = run.iter().map(|at| lanes[*at].as_slice()).collect();
        Lane::shared(&swimmers, course)
    });
    Some(Versions { lanes: shared.collect::<Option<_>>()?, of_lane })
}
