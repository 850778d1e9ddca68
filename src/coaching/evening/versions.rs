//! Which lanes swim the same repeats: a coach watches three versions at most.
//!
//! Knows paces; not what is swum, and no send-off: that is each lane's own.

use super::lane::Lane;

/// One session is written in at most so many versions (common practice, no
/// source: a coach watches two or three).
const MOST_VERSIONS: usize = 3;

/// For each lane, the lane that its version is written by: the slowest of those
/// that share it, which is itself for a lane alone.
///
/// They share warm-up, drills and build; of the main set a lane with time for more swims
/// more. A version a lane, or where there are more lanes than versions the split of
/// neighbours by pace in which lanes wait least for the slowest of their version.
pub(super) fn versions(lanes: &[Lane]) -> Vec<usize> {
    if lanes.len() <= MOST_VERSIONS {
        return (0..lanes.len()).collect();
    }
    // Each lane with its pace, fastest first.
    let paces = lanes.iter().map(|lane| lane.slowest().easy_per_100_s());
    let mut order: Vec<(usize, f64)> = paces.enumerate().collect();
    order.sort_by(|(_, one), (_, other)| one.total_cmp(other));
    let waits = |run: &[(usize, f64)]| {
        let slowest = run.last().map_or(0.0, |(_, last)| *last);
        run.iter().map(|(_, pace)| (slowest - pace).powi(2)).sum::<f64>()
    };
    let runs = |(first, second): (usize, usize)| {
        let (fast, rest) = order.split_at(first);
        let (middle, slow) = rest.split_at(second - first);
        [fast, middle, slow]
    };
    let cuts = (1..order.len() - 1)
        .flat_map(|first| (first + 1..order.len()).map(move |second| (first, second)));
    let cost = |cut: &(usize, usize)| runs(*cut).into_iter().map(waits).sum::<f64>();
    let cut = cuts.min_by(|one, other| cost(one).total_cmp(&cost(other)));
    let slowest_of = |run: &[(usize, f64)]| run.last().map(|(at, _)| *at);
    let runs = runs(cut.unwrap_or((1, 2)));
    let by = runs.into_iter().flat_map(|run| run.iter().map(move |(at, _)| (*at, slowest_of(run))));
    let mut by: Vec<(usize, Option<usize>)> = by.collect();
    by.sort_unstable();
    by.into_iter().map(|(at, slowest)| slowest.unwrap_or(at)).collect()
}
