//! The cheapest split is the cheapest: every split of small squads is listed.

use std::collections::BTreeMap;

use lapwing::coaching::lanes::{Draw, Evening, Shortfall, draw, redraw};
use lapwing::units::Lane;
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha12Rng;

use super::brute::{self, Split};
use super::evenings::evening;

/// 5,000 evenings of up to twelve: a split is found exactly where there is one,
/// at the least cost to the unit, and its own cost is what it says.
#[test]
fn no_split_is_cheaper() {
    let mut random = ChaCha12Rng::seed_from_u64(1958);
    let (mut split, mut short) = (0, 0);
    for case in 0..5000 {
        let evening = evening(&mut random);
        let cheapest =
            brute::splits(&evening).iter().filter_map(|s| brute::cost(&evening, s)).min();
        match (draw(&evening), cheapest) {
            (Ok(drawn), Some(least)) => {
                assert_eq!(drawn.cost.units(), least, "case {case}: {evening:?}");
                assert_eq!(brute::cost(&evening, &handles(&drawn)), Some(least), "case {case}");
                split += 1;
            }
            (Err(_), None) => short += 1,
            (found, least) => panic!("case {case}: {found:?}, listed {least:?} in {evening:?}"),
        }
    }
    assert!(split > 2000 && short > 500, "both kinds are tried: {split} split, {short} not");
}

/// Without pins, partings and limits, no way at all to deal the swimmers out is
/// cheaper than a split into runs of neighbours.
#[test]
fn runs_of_neighbours_lose_nothing() {
    let mut random = ChaCha12Rng::seed_from_u64(53);
    for case in 0..300 {
        let mut evening = evening(&mut random);
        evening.swimmers.truncate(6);
        evening.lanes = evening.lanes.min(Lane::new(3).unwrap());
        evening.capacity = 12;
        (evening.pins, evening.apart, evening.set) = (BTreeMap::new(), Vec::new(), Vec::new());
        let least =
            brute::deals(&evening).iter().filter_map(|deal| brute::cost(&evening, deal)).min();
        assert_eq!(draw(&evening).ok().map(|drawn| drawn.cost.units()), least, "case {case}");
    }
}

/// Of the splits that cost nearly as little as the cheapest, one with the fewest
/// moved is taken, and of those the cheapest.
#[test]
fn no_near_split_moves_fewer() {
    let mut random = ChaCha12Rng::seed_from_u64(34);
    for case in 0..1500 {
        let evening = evening(&mut random);
        let mut before = BTreeMap::new();
        for one in &evening.swimmers {
            if random.random_bool(0.8) {
                let lane = Lane::new(random.random_range(1..=4)).unwrap();
                before.insert(one.name.clone(), lane);
            }
        }
        let costs: Vec<(usize, u64)> = brute::splits(&evening)
            .iter()
            .filter_map(|split| {
                Some((brute::movers(split, &before), brute::cost(&evening, split)?))
            })
            .collect();
        let Some(least) = costs.iter().map(|(_, cost)| *cost).min() else { continue };
        let near = least + (least / 10).max(25 * 300 * 300);
        let best = costs.iter().filter(|(_, cost)| *cost <= near).min().unwrap();
        let found = redraw(&evening, &before).unwrap();
        let found = (found.moved.len(), found.draw.cost.units());
        assert_eq!(found, *best, "case {case}: {evening:?} before {before:?}");
    }
}

/// The relaxation named is enough, and the next smaller one is not.
#[test]
fn the_relaxation_is_the_smallest() {
    let mut random = ChaCha12Rng::seed_from_u64(20);
    let mut kinds = [0; 6];
    for case in 0..5000 {
        let mut evening = evening(&mut random);
        match case % 4 {
            // Some pins lead out of the pool, others fill a lane.
            0 => evening.lanes = Lane::FIRST,
            1 => (evening.lanes, evening.capacity) = (Lane::LAST, 1),
            _ => {}
        }
        let Err(shortfall) = draw(&evening) else { continue };
        let splits = |evening: &Evening| draw(evening).is_ok();
        match shortfall {
            Shortfall::NoLane { name, lane } => {
                assert_eq!(evening.pins.get(&name), Some(&lane));
                assert!(lane > evening.lanes);
                kinds[0] += 1;
            }
            Shortfall::TooMany { capacity, .. } => {
                let places = |each: usize| each * usize::from(evening.lanes.number());
                assert!(places(capacity) >= evening.swimmers.len());
                assert!(places(capacity - 1) < evening.swimmers.len());
                kinds[1] += 1;
            }
            Shortfall::LaneFull { lane, pinned } => {
                let there = evening
                    .swimmers
                    .iter()
                    .filter(|one| evening.pins.get(&one.name) == Some(&lane));
                assert_eq!(there.count(), pinned);
                kinds[2] += 1;
            }
            Shortfall::Apart { give_up } => {
                evening.set.clear();
                assert!(!splits(&evening), "case {case}");
                evening.apart.retain(|pair| !give_up.contains(pair));
                assert!(splits(&evening), "case {case}");
                kinds[3] += 1;
            }
            Shortfall::Room { stretch_s } => {
                evening.stretch_s = stretch_s - 5;
                assert!(!splits(&evening), "case {case}: {stretch_s} is too much");
                evening.stretch_s = stretch_s;
                assert!(splits(&evening), "case {case}: {stretch_s} is too little");
                kinds[4] += 1;
            }
            Shortfall::Lapped { longest, stretch_s } => {
                evening.stretch_s = 3600;
                assert!(!splits(&evening), "case {case}: longer send-offs would do");
                for repeat in &mut evening.set {
                    if repeat.distance.amount() > longest.amount() {
                        repeat.distance = longest;
                    }
                }
                evening.stretch_s = stretch_s;
                assert!(splits(&evening), "case {case}: {longest} is too long");
                kinds[5] += 1;
            }
        }
    }
    assert!(kinds.iter().all(|met| *met > 0), "every kind is met: {kinds:?}");
}

/// A drawn lane never breaks what water allows, worked again in seconds.
#[test]
fn drawn_lanes_have_room() {
    let mut random = ChaCha12Rng::seed_from_u64(25);
    for case in 0..3000 {
        let evening = evening(&mut random);
        let Ok(drawn) = draw(&evening) else { continue };
        for lane in &drawn.lanes {
            for repeat in &lane.send_offs {
                let turn = lane.gap.seconds() * lane.swimmers.len() as u32;
                assert!(turn <= repeat.send_off.seconds(), "case {case}: {lane:?}");
                assert!(repeat.stretched_s <= evening.stretch_s, "case {case}: {lane:?}");
            }
        }
        let mut all: Vec<String> = handles(&drawn).concat();
        all.sort();
        assert_eq!(all, evening.swimmers.iter().map(|one| one.name.clone()).collect::<Vec<_>>());
    }
}

fn handles(drawn: &Draw) -> Split {
    let lane = |lane: &lapwing::coaching::lanes::LaneDrawn| {
        lane.swimmers.iter().map(|one| one.name.clone()).collect()
    };
    drawn.lanes.iter().map(lane).collect()
}
