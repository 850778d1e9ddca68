//! New lanes with the fewest people moved: someone is late, a lane is lost.

use std::collections::BTreeMap;

use super::board::Board;
use super::draw::{Draw, cheapest_cut, drawn};
use super::evening::Evening;
use super::partition::{Movement, Near};
use super::shortfall::Shortfall;
use crate::units::Lane;

/// Lanes drawn again.
#[derive(Debug, Clone, PartialEq)]
pub struct Redraw {
    /// The lanes now.
    pub draw: Draw,
    /// Who moves, in the order of pace; those who were in no lane before, or are
    /// in none now, don't count.
    pub moved: Vec<Moved>,
}

/// Someone who changes lanes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Moved {
    /// Who.
    pub name: String,
    /// From where.
    pub from: Lane,
    /// To where.
    pub to: Lane,
}

/// Draws lanes for those present so that as few as possible leave the lane they
/// were in `before`: of all splits that cost nearly as little as the cheapest (a
/// tenth more, or [`Cost::PAIR`](super::Cost::PAIR) more where that is greater;
/// ours), one with the fewest moved, and of those the cheapest.
///
/// # Errors
/// [`Shortfall`], as for [`draw`](super::draw()).
pub fn redraw(evening: &Evening, before: &BTreeMap<String, Lane>) -> Result<Redraw, Shortfall> {
    let board = Board::of(evening);
    let cheapest_cut = cheapest_cut(evening, &board)?;
    let enough = cheapest_cut.cost.and_a_tenth();
    let (settled, near) = (Settled::of(&board, before), Near::of(&board, enough));
    let mut most = near.fewest(&settled).unwrap_or(board.free.len()).max(1);
    let cut = loop {
        let cuts = near.cheapest(&board, &settled, most);
        match cuts.into_iter().flatten().next() {
            Some(cut) => break cut,
            None if most >= board.free.len() => break cheapest_cut,
            None => most = (most * 2).min(board.free.len()),
        }
    };
    let draw = drawn(evening, &board, &cut);
    let moved = moved(&board, &draw, before);
    Ok(Redraw { draw, moved })
}

/// For each lane, how many of the first free swimmers were in another.
struct Settled(Vec<Vec<usize>>);

impl Settled {
    fn of(board: &Board<'_>, before: &BTreeMap<String, Lane>) -> Settled {
        let from = |place: &usize| before.get(&board.swimmers.get(*place)?.name);
        let from: Vec<Option<&Lane>> = board.free.iter().map(from).collect();
        let count = |lane: &Lane| {
            let mut movers = 0;
            let more = from.iter().map(|was| {
                movers += usize::from(was.is_some_and(|was| was != lane));
                movers
            });
            std::iter::once(0).chain(more).collect()
        };
        Settled(board.lanes.iter().map(count).collect())
    }
}

impl Movement for Settled {
    fn movers_to(&self, lane: usize, start: usize, end: usize) -> usize {
        let of_first = |count: usize| self.0.get(lane)?.get(count).copied();
        of_first(end).zip(of_first(start)).map_or(0, |(all, before)| all.saturating_sub(before))
    }
}

fn moved(board: &Board<'_>, draw: &Draw, before: &BTreeMap<String, Lane>) -> Vec<Moved> {
    let mut moved: Vec<Moved> = draw
        .lanes
        .iter()
        .flat_map(|lane| lane.swimmers.iter().map(move |one| (lane.lane, &one.name)))
        .filter_map(|(to, name)| {
            let from = *before.get(name)?;
            (from != to).then(|| Moved { name: name.clone(), from, to })
        })
        .collect();
    moved.sort_by_key(|one| board.place(&one.name));
    moved
}
