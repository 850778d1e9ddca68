//! The model of `coaching::lanes`, worked by listing every split. Written from
//! its page alone, in seconds and fractions where that is natural, and shares
//! no step with it: only `swim`'s levels and the types are common to both.

use std::collections::BTreeMap;

use lapwing::coaching::lanes::{Entrant, Evening, KnownPace, LaneRepeat};
use lapwing::swim::levels::{Band, at_percent};
use lapwing::units::{Lane, Level, Pace};

/// A lane's swimmers, by handle.
pub type Split = Vec<Vec<String>>;

/// Every split that the model allows, limits unchecked.
pub fn splits(evening: &Evening) -> Vec<Split> {
    let order = in_order(evening);
    let lanes = usize::from(evening.lanes.number());
    let (held, free): (Vec<_>, Vec<_>) =
        order.into_iter().partition(|(name, _)| evening.pins.contains_key(name));
    let mut every = vec![vec![Vec::new(); lanes]];
    for (name, _) in held {
        let lane = usize::from(evening.pins[&name].number()) - 1;
        every.iter_mut().for_each(|split: &mut Split| split[lane].push(name.clone()));
    }
    // Each free swimmer goes into the last one's lane or a later one.
    let mut open: Vec<(Split, usize)> = every.into_iter().map(|split| (split, 0)).collect();
    for (name, _) in free {
        open = open
            .into_iter()
            .flat_map(|(split, last)| {
                let name = name.clone();
                (last..lanes).map(move |lane| {
                    let mut split = split.clone();
                    split[lane].push(name.clone());
                    (split, lane)
                })
            })
            .collect();
    }
    open.into_iter().map(|(split, _)| split).collect()
}

/// Every way at all to deal the swimmers out.
pub fn deals(evening: &Evening) -> Vec<Split> {
    let lanes = usize::from(evening.lanes.number());
    let mut every: Vec<Split> = vec![vec![Vec::new(); lanes]];
    for one in &evening.swimmers {
        every = every
            .into_iter()
            .flat_map(|split| {
                (0..lanes).map(move |lane| {
                    let mut split = split.clone();
                    split[lane].push(one.name.clone());
                    split
                })
            })
            .collect();
    }
    every
}

/// What a split costs; nothing if it breaks a limit.
pub fn cost(evening: &Evening, split: &Split) -> Option<u64> {
    let paces: BTreeMap<String, Pace> = in_order(evening).into_iter().collect();
    split.iter().map(|lane| lane_cost(evening, &paces, lane)).sum()
}

/// How many of a split are in another lane than before.
pub fn movers(split: &Split, before: &BTreeMap<String, Lane>) -> usize {
    let lanes = split.iter().zip(1u8..);
    lanes
        .flat_map(|(lane, number)| lane.iter().map(move |name| (name, number)))
        .filter(|(name, number)| before.get(*name).is_some_and(|was| was.number() != *number))
        .count()
}

/// Handles and the pace each is taken to have, fastest first.
fn in_order(evening: &Evening) -> Vec<(String, Pace)> {
    let unit = evening.course.unit();
    let known = |one: &Entrant| match one.known_pace {
        KnownPace::Tested(pace) | KnownPace::Guessed(pace) => Some(pace),
        KnownPace::Unknown => None,
    };
    let mut with: Vec<(String, Pace)> =
        evening.swimmers.iter().filter_map(|one| Some((one.name.clone(), known(one)?))).collect();
    with.sort_by_key(|(name, pace)| (pace.per_100().unwrap(), name.clone()));
    let slowest = with.last().map_or_else(|| Pace::new(300.0, unit).unwrap(), |(_, pace)| *pace);
    let mut without: Vec<String> = evening
        .swimmers
        .iter()
        .filter(|one| known(one).is_none())
        .map(|one| one.name.clone())
        .collect();
    without.sort();
    with.extend(without.into_iter().map(|name| (name, slowest)));
    with
}

fn lane_cost(evening: &Evening, paces: &BTreeMap<String, Pace>, lane: &[String]) -> Option<u64> {
    let together = |(one, other): &(String, String)| lane.contains(one) && lane.contains(other);
    if lane.len() > usize::from(evening.capacity) || evening.apart.iter().any(together) {
        return None;
    }
    let hundredths = |name: &String| u64::from(paces[name].per_100().unwrap().hundredths());
    let Some(slowest) = lane.iter().map(hundredths).max() else { return Some(0) };
    let by_pace = |one: &&String, other: &&String| {
        paces[*one].per_100_s().total_cmp(&paces[*other].per_100_s())
    };
    let (first, last) = (lane.iter().min_by(by_pace)?, lane.iter().max_by(by_pace)?);
    let gap = u64::from(evening.gap.seconds());
    let behind = (lane.len() - 1) as u64 * gap;
    let mut stretch = 0;
    for repeat in &evening.set {
        let (fast, slow) = (swim(paces[first], repeat), swim(paces[last], repeat));
        let send_off = match repeat.send_off {
            Some(send_off) => send_off,
            None => {
                let time = lapwing::units::Centis::new(u32::try_from(slow).unwrap()).unwrap();
                Band::of(repeat.level).send_off(repeat.distance, time)
            }
        };
        // The least number of fives by which the first leaves a gap behind the last.
        let mut fives = 0;
        while behind + gap > u64::from(send_off.seconds()) + 5 * fives {
            fives += 1;
        }
        stretch = stretch.max(5 * fives);
        if let Some(length) = evening.course.length() {
            let (circle, far) = (2 * u64::from(length), u64::from(repeat.distance.amount()));
            // How far the last has come when the first is home, times their time.
            let came = far * fast.saturating_sub(behind * 100);
            if far > circle && far * slow - came >= circle * slow {
                return None;
            }
        }
    }
    if stretch > u64::from(evening.stretch_s) {
        return None;
    }
    let waiting: u64 = lane
        .iter()
        .map(|name| {
            let own = hundredths(name);
            let off = slowest - own;
            // In tenths of a hundredth: what is over 10 %.
            let over = (slowest * 10).saturating_sub(own * 11);
            // 25 times (square + 4 x (over / 10) squared).
            25 * off.pow(2) + over.pow(2)
        })
        .sum();
    let pairs = (0..lane.len()).map(|ahead| ahead as u64).sum::<u64>();
    // Each as if half the stretch off, in hundredths.
    let standing = 25 * (stretch * 50).pow(2) * lane.len() as u64;
    Some(waiting + pairs * 25 * 300 * 300 + standing)
}

/// The time of one repeat, in hundredths, in the middle of its level.
fn swim(pace: Pace, repeat: &LaneRepeat) -> u64 {
    let percent = match repeat.level {
        Level::Easy => 84.0,
        Level::Steady => 91.5,
        Level::Threshold => 97.5,
        Level::Hard => 102.5,
        Level::Sprint => 108.0,
    };
    u64::from(at_percent(pace, percent).time_for(repeat.distance).unwrap().hundredths())
}
