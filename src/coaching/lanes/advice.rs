//! The one move worth making in lanes as they stand.

use std::collections::BTreeMap;

use super::board::Board;
use super::cost::Cost;
use super::evening::Evening;
use crate::units::Lane;

/// One swimmer into another lane.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OneMove {
    /// Who.
    pub name: String,
    /// From where.
    pub from: Lane,
    /// To where.
    pub to: Lane,
    /// A lane can't hold its swimmers as they stand, and this mends it.
    pub mends: bool,
}

/// A lane that breaks a limit, counted before any cost.
pub(super) type Burden = (usize, Cost);

/// The one move that helps most in lanes `now`, pins and partings kept; none
/// unless it mends a lane that breaks a limit, or the lanes as they stand cost a
/// tenth and [`Cost::PAIR`] more than with it (ours). Those present but in no
/// lane that we have, and those in a lane but not present, don't count. Of equal
/// moves the faster swimmer's.
pub fn move_worth_making(evening: &Evening, now: &BTreeMap<String, Lane>) -> Option<OneMove> {
    let board = Board::of(evening);
    let mut lanes: Vec<Vec<usize>> = vec![Vec::new(); board.lanes.len()];
    for (place, entrant) in board.swimmers.iter().enumerate() {
        let lane = now.get(&entrant.name).and_then(|lane| lanes.get_mut(index(*lane)));
        if let Some(lane) = lane {
            lane.push(place);
        }
    }
    let burdens: Vec<Burden> = lanes.iter().map(|lane| burden(&board, lane)).collect();
    let total = sum(burdens.iter());
    let mut best: Option<(Burden, usize, usize, usize)> = None;
    for &place in &board.free {
        let with = lanes.iter().enumerate().find(|(_, lane)| lane.contains(&place));
        let Some((from, with)) = with else { continue };
        let left: Vec<usize> = with.iter().copied().filter(|one| *one != place).collect();
        let left = burden(&board, &left);
        for (to, there) in lanes.iter().enumerate().filter(|(to, _)| *to != from) {
            let mut joined = there.clone();
            joined.insert(joined.partition_point(|one| *one < place), place);
            let others = burdens.iter().enumerate().filter(|(at, _)| *at != from && *at != to);
            let changed = [left, burden(&board, &joined)];
            let after = sum(others.map(|(_, burden)| burden).chain(&changed));
            if best.is_none_or(|(least, ..)| after < least) {
                best = Some((after, place, from, to));
            }
        }
    }
    let (after, place, from, to) = best?;
    let mends = after.0 < total.0;
    let saves = after.0 == total.0 && after.1.and_a_tenth() <= total.1;
    if !mends && !saves {
        return None;
    }
    Some(OneMove {
        name: board.swimmers.get(place)?.name.clone(),
        from: *board.lanes.get(from)?,
        to: *board.lanes.get(to)?,
        mends,
    })
}

fn index(lane: Lane) -> usize {
    usize::from(lane.number()) - 1
}

pub(super) fn burden(board: &Board<'_>, lane: &[usize]) -> Burden {
    match board.lane_cost(lane) {
        Some(cost) => (0, cost),
        None => (1, Cost::default()),
    }
}

pub(super) fn sum<'a>(burdens: impl Iterator<Item = &'a Burden>) -> Burden {
    burdens.fold((0, Cost::default()), |(broken, cost), (more, further)| {
        (broken + more, cost + *further)
    })
}
