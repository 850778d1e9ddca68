//! The lane for one more, where nobody else moves.

use std::collections::BTreeMap;

use super::advice::{Burden, burden, sum};
use super::board::Board;
use super::evening::Evening;
use crate::units::Lane;

/// The lane in which `name` costs the others and themselves least, the others being
/// where they are `now`: one that holds them where there is any. Of equals the
/// first. `None` for someone who is not there.
pub fn lane_for(evening: &Evening, now: &BTreeMap<String, Lane>, name: &str) -> Option<Lane> {
    let board = Board::of(evening);
    let place = board.place(name)?;
    let lanes: Vec<Vec<usize>> = board
        .lanes
        .iter()
        .map(|lane| {
            let in_it =
                |at: &usize| *at != place && now.get(&board.swimmers[*at].name) == Some(lane);
            (0..board.swimmers.len()).filter(in_it).collect()
        })
        .collect();
    let burdens: Vec<Burden> = lanes.iter().map(|lane| burden(&board, lane)).collect();
    let with_her = |to: &usize| {
        let mut joined = lanes[*to].clone();
        joined.insert(joined.partition_point(|one| *one < place), place);
        let others = burdens.iter().enumerate().filter(|(at, _)| at != to);
        sum(others.map(|(_, burden)| burden).chain([&burden(&board, &joined)]))
    };
    (0..lanes.len()).min_by_key(with_her).map(|to| board.lanes[to])
}
