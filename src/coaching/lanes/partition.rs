//! The cheapest cut of the order into lanes, by dynamic programming.
//!
//! Knows a board and which swimmers would move; nothing of why.

use std::iter::{once, repeat_n};

use super::board::{Board, Run};
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

/// The cheapest cut of all, if there is any.
pub(super) fn cheapest(board: &Board<'_>) -> Option<Cut> {
    let runs = |lane: usize, end: usize, visit: &mut dyn FnMut(Run)| board.runs(lane, end, visit);
    by_movers(board, runs, &Fresh, 0, |_, _, _| true).pop().flatten()
}

/// The cuts that cost no more than is enough, by their runs.
pub(super) struct Near {
    /// By lane and by where they end, in the board's order: each stands in such a cut.
    runs: Vec<Vec<Vec<Run>>>,
    rest: Rest,
    enough: Cost,
}

impl Near {
    /// Those of a board that cost no more than `enough`.
    pub fn of(board: &Board<'_>, enough: Cost) -> Near {
        let swimmers = board.free.len();
        let rest = Rest::of(board);
        // What the lanes before cost at the least, by where the last of them ends.
        let mut before = begun(Cost::default(), Cost::BEYOND, swimmers);
        let mut runs = Vec::with_capacity(board.lanes.len());
        for lane in 0..board.lanes.len() {
            let mut next = vec![Cost::BEYOND; swimmers + 1];
            let mut of_lane = vec![Vec::new(); swimmers + 1];
            for end in board.ends(lane) {
                let Some((least, near)) = next.get_mut(end).zip(of_lane.get_mut(end)) else {
                    continue;
                };
                let after = rest.behind(lane, end);
                board.runs(lane, end, |run| {
                    let so_far = cost_at(&before, run.start) + run.cost;
                    *least = (*least).min(so_far);
                    if so_far + after <= enough {
                        near.push(run);
                    }
                });
            }
            before = next;
            runs.push(of_lane);
        }
        Near { runs, rest, enough }
    }

    /// As many as have to move in any of these cuts, or more.
    pub fn fewest(&self, movement: &impl Movement) -> Option<usize> {
        let mut least = begun(Some(0), None, self.runs.first()?.len().checked_sub(1)?);
        for (lane, of_lane) in self.runs.iter().enumerate() {
            let to = |(end, runs): (usize, &Vec<Run>)| {
                let moved = |run: &Run| {
                    let before: Option<usize> = *least.get(run.start)?;
                    Some(before? + movement.movers_to(lane, run.start, end))
                };
                runs.iter().filter_map(moved).min()
            };
            least = of_lane.iter().enumerate().map(to).collect();
        }
        least.pop()?
    }

    /// For each number of movers up to `most`, the cheapest cut with exactly so many; of
    /// equals the one found first, always the same.
    pub fn cheapest(
        &self,
        board: &Board<'_>,
        movement: &impl Movement,
        most: usize,
    ) -> Vec<Option<Cut>> {
        let runs = |lane: usize, end: usize, visit: &mut dyn FnMut(Run)| {
            let runs = self.runs.get(lane).and_then(|of_lane| of_lane.get(end));
            runs.into_iter().flatten().copied().for_each(visit);
        };
        by_movers(board, runs, movement, most, |lane, end, so_far| {
            so_far + self.rest.behind(lane, end) <= self.enough
        })
    }
}

/// A row in which only the first place has been come to.
fn begun<T: Copy>(first: T, others: T, how_many: usize) -> Vec<T> {
    once(first).chain(repeat_n(others, how_many)).collect()
}

/// What stands at a place of a row of costs.
fn cost_at(costs: &[Cost], place: usize) -> Cost {
    costs.get(place).copied().unwrap_or(Cost::BEYOND)
}

/// What the lanes after each cost at the least, by where the first of them starts.
struct Rest(Vec<Vec<Cost>>);

impl Rest {
    fn of(board: &Board<'_>) -> Rest {
        let swimmers = board.free.len();
        let mut after: Vec<Cost> =
            repeat_n(Cost::BEYOND, swimmers).chain([Cost::default()]).collect();
        let mut rest = Vec::with_capacity(board.lanes.len());
        for lane in (0..board.lanes.len()).rev() {
            let mut least = vec![Cost::BEYOND; swimmers + 1];
            for end in board.ends(lane) {
                let after = cost_at(&after, end);
                board.runs(lane, end, |run| {
                    if let Some(least) = least.get_mut(run.start) {
                        *least = (*least).min(run.cost + after);
                    }
                });
            }
            rest.push(std::mem::replace(&mut after, least));
        }
        rest.reverse();
        Rest(rest)
    }

    /// What the lanes behind this one cost, whose run ends there.
    fn behind(&self, lane: usize, end: usize) -> Cost {
        self.0.get(lane).map_or(Cost::BEYOND, |costs| cost_at(costs, end))
    }
}

/// The least by which send-offs are stretched in the lane that needs it most; `None`
/// where there is no cut at all.
pub(super) fn least_stretch(board: &Board<'_>) -> Option<u32> {
    let swimmers = board.free.len();
    let mut best = begun(Some(0), None, swimmers);
    for lane in 0..board.lanes.len() {
        let mut next: Vec<Option<u32>> = vec![None; swimmers + 1];
        for end in board.ends(lane) {
            let Some(least) = next.get_mut(end) else { continue };
            board.runs(lane, end, |run| {
                if let Some(before) = best.get(run.start).copied().flatten() {
                    let stretch_s = run.stretch_s.max(before);
                    *least = Some(least.map_or(stretch_s, |least| least.min(stretch_s)));
                }
            });
        }
        best = next;
    }
    best.pop()?
}

/// The cheapest cuts of these runs by number of movers, where `may` says of a lane, of where its run
/// ends and of what all costs up to there whether that is to be followed.
fn by_movers(
    board: &Board<'_>,
    runs: impl Fn(usize, usize, &mut dyn FnMut(Run)),
    movement: &impl Movement,
    most: usize,
    may: impl Fn(usize, usize, Cost) -> bool,
) -> Vec<Option<Cut>> {
    let (swimmers, lanes, width) = (board.free.len(), board.lanes.len(), most + 1);
    let cells = (swimmers + 1) * width;
    let mut best = begun(Cost::default(), Cost::BEYOND, cells - 1);
    // The fewest and the most movers of the cells that can be come to.
    let mut spans = begun(Some((0, 0)), None, swimmers);
    // Where the run starts that leads to each cell, a table a lane.
    let mut starts = Vec::with_capacity(lanes);
    for lane in 0..lanes {
        let mut next = vec![Cost::BEYOND; cells];
        let mut start_of = vec![0u32; cells];
        let mut next_spans = vec![None; swimmers + 1];
        for end in board.ends(lane) {
            let Some(next_span) = next_spans.get_mut(end) else { continue };
            runs(lane, end, &mut |Run { start, cost, .. }| {
                let span = spans.get(start).copied().flatten();
                let Some((fewest, greatest)) = span.filter(|_| may(lane, end, cost)) else {
                    return;
                };
                let movers = movement.movers_to(lane, start, end);
                for before in fewest..width.saturating_sub(movers).min(greatest + 1) {
                    let so_far = cost_at(&best, start * width + before);
                    let (after, cell) = (before + movers, end * width + before + movers);
                    let Some((least, from)) = next.get_mut(cell).zip(start_of.get_mut(cell)) else {
                        continue;
                    };
                    if so_far < Cost::BEYOND
                        && so_far + cost < *least
                        && may(lane, end, so_far + cost)
                    {
                        *least = so_far + cost;
                        *from = u32::try_from(start).unwrap_or(u32::MAX);
                        let (low, high) = next_span.unwrap_or((after, after));
                        *next_span = Some((after.min(low), after.max(high)));
                    }
                }
            });
        }
        (best, spans) = (next, next_spans);
        starts.push(start_of);
    }
    (0..width)
        .map(|movers| {
            let cost = cost_at(&best, swimmers * width + movers);
            (cost < Cost::BEYOND)
                .then(|| Cut { runs: trace(&starts, movement, swimmers, width, movers), cost })
        })
        .collect()
}

/// The runs that led to the last cell, first lane first.
fn trace(
    starts: &[Vec<u32>],
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
            let start = start_of.get(end * width + movers).map_or(0, |start| *start as usize);
            movers = movers.saturating_sub(movement.movers_to(lane, start, end));
            let run = (start, end);
            end = start;
            run
        })
        .collect();
    runs.reverse();
    runs
}
