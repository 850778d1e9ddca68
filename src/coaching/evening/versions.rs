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
    let pace = |at: usize| lanes[at].slowest().easy_per_100_s();
    let mut order: Vec<usize> = (0..lanes.len()).collect();
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
    let cut = cuts.min_by(|one, other| cost(one).total_cmp(&cost(other)));
    let (first, second) = cut.unwrap_or((1, 2));
    let runs = [&order[..first], &order[first..second], &order[second..]];
    let mut by = vec![0; lanes.len()];
    for run in runs {
        for at in run {
            by[*at] = run.last().copied().unwrap_or(*at);
        }
    }
    by
}
