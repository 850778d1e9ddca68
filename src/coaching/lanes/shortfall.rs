//! Why no split keeps every limit, and the least that would have to give.
//!
//! Knows limits; whether to give way is the coach's decision.

use strum::{IntoStaticStr, VariantNames};

use super::board::Board;
use super::evening::Evening;
use super::limits::{circle, cut_to};
use super::partition;
use crate::units::{Distance, Lane};

/// A limit that no split keeps, with the smallest relaxation that lets one.
#[derive(Debug, Clone, PartialEq, Eq)]
#[derive(IntoStaticStr, VariantNames)]
pub enum Shortfall {
    /// Someone is pinned to a lane that we don't have.
    NoLane {
        /// Who.
        name: String,
        /// Where to.
        lane: Lane,
    },
    /// More are there than may swim.
    TooMany {
        /// How many are there.
        present: usize,
        /// The least number a lane that would do.
        capacity: usize,
    },
    /// More are pinned to a lane than may swim in it.
    LaneFull {
        /// Which.
        lane: Lane,
        /// How many are pinned to it: the least number that would do.
        pinned: usize,
    },
    /// These partings can't all be met, pins and lanes being as they are.
    Apart {
        /// The fewest that would have to be given up (of several such choices
        /// the first); where no two are enough, all of them.
        give_up: Vec<(String, String)>,
    },
    /// A send-off leaves too little room for the lane.
    Room {
        /// The least number of seconds, a multiple of five, by which send-offs
        /// would have to be longer.
        stretch_s: u32,
    },
    /// The last of a lane would be lapped within one repeat.
    Lapped {
        /// The longest repeat that would do.
        longest: Distance,
        /// By how much send-offs would have to be longer even so.
        stretch_s: u32,
    },
}

/// The most that a send-off is stretched: to the longest there is.
const MOST_STRETCH_S: u32 = 3600;

/// A wish or number that can't be met whatever is swum.
pub(super) fn unmet_wish(evening: &Evening) -> Option<Shortfall> {
    let present = evening.swimmers.len();
    let lanes = usize::from(evening.lanes.number());
    let mut pins: Vec<(Lane, &str)> = evening
        .swimmers
        .iter()
        .filter_map(|one| Some((*evening.pins.get(&one.name)?, one.name.as_str())))
        .collect();
    pins.sort_unstable();
    if let Some((lane, name)) = pins.iter().find(|(lane, _)| *lane > evening.lanes) {
        return Some(Shortfall::NoLane { name: (*name).to_owned(), lane: *lane });
    }
    if present > lanes * usize::from(evening.capacity) {
        return Some(Shortfall::TooMany { present, capacity: present.div_ceil(lanes) });
    }
    evening.lanes.up_to().find_map(|lane| {
        let pinned = pins.iter().filter(|(to, _)| *to == lane).count();
        (pinned > usize::from(evening.capacity)).then_some(Shortfall::LaneFull { lane, pinned })
    })
}

/// What else leaves `evening` without a split: partings, else the set's times.
pub(super) fn unmet_limit(evening: &Evening) -> Shortfall {
    partings(evening).unwrap_or_else(|| times(evening))
}

/// Partings that can't be met whatever is swum.
fn partings(evening: &Evening) -> Option<Shortfall> {
    let without_set = Evening { set: Vec::new(), ..evening.clone() };
    if is_possible(&without_set) {
        return None;
    }
    let pairs = &evening.apart;
    let possible_without = |given_up: &[usize]| {
        let kept = pairs.iter().enumerate().filter(|(at, _)| !given_up.contains(at));
        is_possible(&Evening {
            apart: kept.map(|(_, pair)| pair.clone()).collect(),
            ..without_set.clone()
        })
    };
    let one = (0..pairs.len()).map(|at| vec![at]).find(|given_up| possible_without(given_up));
    let two = || {
        let couples =
            (0..pairs.len()).flat_map(|at| (at + 1..pairs.len()).map(move |b| vec![at, b]));
        couples.into_iter().find(|given_up| possible_without(given_up))
    };
    let given_up = one.or_else(two).unwrap_or_else(|| (0..pairs.len()).collect());
    let give_up = given_up.into_iter().filter_map(|at| pairs.get(at).cloned()).collect();
    Some(Shortfall::Apart { give_up })
}

/// What the set's times don't allow.
fn times(evening: &Evening) -> Shortfall {
    let roomy = Evening { stretch_s: MOST_STRETCH_S, ..evening.clone() };
    if is_possible(&roomy) {
        return Shortfall::Room { stretch_s: least_stretch(evening) };
    }
    let length = evening.course.length().unwrap_or(25);
    let shortest = circle(evening.course).unwrap_or(length);
    let greatest =
        evening.set.iter().map(|repeat| repeat.distance.amount()).max().unwrap_or(shortest);
    let unit = evening.course.unit();
    let shorter = |amount: u32, evening: &Evening| {
        let longest = Distance::new(amount, unit).ok()?;
        let set = evening.set.iter().map(|repeat| cut_to(repeat, longest)).collect();
        Some((longest, Evening { set, ..evening.clone() }))
    };
    let lengths = (shortest / length..=greatest / length).rev();
    lengths
        .filter_map(|lengths| shorter(lengths * length, &roomy))
        .find(|(_, evening)| is_possible(evening))
        .map(|(longest, shorter)| Shortfall::Lapped { longest, stretch_s: least_stretch(&shorter) })
        // Not even an hour's send-off is enough, however short the repeats.
        .unwrap_or(Shortfall::Room { stretch_s: MOST_STRETCH_S })
}

/// The least stretch, in steps of five seconds, that is enough.
fn least_stretch(evening: &Evening) -> u32 {
    let roomy = Evening { stretch_s: MOST_STRETCH_S, ..evening.clone() };
    partition::least_stretch(&Board::of(&roomy)).unwrap_or(MOST_STRETCH_S)
}

fn is_possible(evening: &Evening) -> bool {
    partition::least_stretch(&Board::of(evening)).is_some()
}
