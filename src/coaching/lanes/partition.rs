//! The cheapest cut of the order into lanes, by dynamic programming.
//!
//! Knows a board and which swimmers would move; nothing of why.

use super::board::Board;
use super::cost::Cost;

/// Where each lane's run of free swimmers starts and ends, and what all costs.
pub(super) struct Cut {
    /// The runs, a lane each, as places in the board's free swimmers.
    pub runs: Vec<(usize, usize)>,
    /// What the lanes cost together.
    pub cost: Cost,
}

/// How many of a lane's run were elsewhere before.
pub(super) trait Movement {
    /// Of the free swimmers from `start` to before `end`, those who would have
    /// to move into `lane`.
    fn movers_to(&self, lane: usize, start: usize, end: usize) -> usize;
}

/// Nobody has been anywhere yet.
pub(super) struct Fresh;

impl Movement for Fresh {
    fn movers_to(&self, _lane: usize, _start: usize, _end: usize) -> usize {
        0
    }
}

/// For each number of movers up to `most`, the cheapest cut with exactly so
/// many; of equals the one found first, always the same.
pub(super) fn cheapest(
    board: &Board<'_>,
    movement: &impl Movement,
    most: usize,
) -> Vec<Option<Cut>> {
    let (swimmers, lanes, width) = (board.free.len(), board.lanes.len(), most + 1);
    let cells = (swimmers + 1) * width;
    let mut best = vec![Cost::BEYOND; cells];
    best[0] = Cost::default();
    // Where the run starts that leads to each cell, a table a lane.
    let mut starts = Vec::with_capacity(lanes);
    for lane in 0..lanes {
        let mut next = vec![Cost::BEYOND; cells];
        let mut start_of = vec![0; cells];
        for end in 0..=swimmers {
            board.runs(lane, end, |start, cost| {
                let movers = movement.movers_to(lane, start, end);
                for before in 0..width.saturating_sub(movers) {
                    let so_far = best[start * width + before];
                    let cell = end * width + before + movers;
                    if so_far < Cost::BEYOND && so_far + cost < next[cell] {
                        next[cell] = so_far + cost;
                        start_of[cell] = start;
                    }
                }
            });
        }
        best = next;
        starts.push(start_of);
    }
    (0..width)
        .map(|movers| {
            let cost = best[swimmers * width + movers];
            (cost < Cost::BEYOND)
                .then(|| Cut { runs: trace(&starts, movement, swimmers, width, movers), cost })
        })
        .collect()
}

/// The runs that led to the last cell, first lane first.
fn trace(
    starts: &[Vec<usize>],
    movement: &impl Movement,
    swimmers: usize,
    width: usize,
    mut movers: usize,
) -> Vec<(usize, usize)> {
    let mut end = swimmers;
    let mut runs: Vec<(usize, usize)> = starts
        .iter()
        .enumerate()
        .rev()
        .map(|(lane, start_of)| {
            let start = start_of[end * width + movers];
            movers -= movement.movers_to(lane, start, end);
            let run = (start, end);
            end = start;
            run
        })
        .collect();
    runs.reverse();
    runs
}
