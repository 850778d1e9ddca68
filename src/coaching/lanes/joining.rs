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
            let swimmers = board.swimmers.iter().enumerate();
            let in_it =
                swimmers.filter(|(at, one)| *at != place && now.get(&one.name) == Some(lane));
            in_it.map(|(at, _)| at).collect()
        })
        .collect();
    let burdens: Vec<Burden> = lanes.iter().map(|lane| burden(&board, lane)).collect();
    let with_them = |(to, (_, there)): &(usize, (&Lane, &Vec<usize>))| {
        let mut joined = (*there).clone();
        joined.insert(joined.partition_point(|one| *one < place), place);
        let others = burdens.iter().enumerate().filter(|(at, _)| at != to);
        sum(others.map(|(_, burden)| burden).chain([&burden(&board, &joined)]))
    };
    let cheapest = board.lanes.iter().zip(&lanes).enumerate().min_by_key(with_them);
    cheapest.map(|(_, (lane, _))| *lane)
}
