//! A test night: who swims in which heat, who counts lengths for whom, and how
//! long it takes.
//!
//! Knows expected times and lanes; not the squad, nor why someone is left out.

use crate::units::{Centis, Distance, Lane};

/// How many swim side by side in a lane of a test (common practice, no source).
pub const TO_A_LANE: usize = 2;
/// Minutes between two heats (ours).
pub const CHANGE_OVER_MIN: u32 = 2;
/// Seconds per 100 that a heat is given where nobody's time is known (ours).
const UNKNOWN_PER_100_S: f64 = 150.0;

/// Someone who is put down.
#[derive(Debug, Clone, PartialEq)]
pub struct Entrant {
    /// Their handle.
    pub name: String,
    /// The time their tests promise over the distance; none without a test.
    pub expected: Option<Centis>,
}

/// A heat.
#[derive(Debug, Clone, PartialEq)]
pub struct Heat {
    /// Who swims, the fastest first.
    pub places: Vec<Place>,
    /// Whole minutes until its slowest is in.
    pub minutes: u32,
}

/// A swimmer's place in a heat.
#[derive(Debug, Clone, PartialEq)]
pub struct Place {
    /// Their handle.
    pub name: String,
    /// Their lane.
    pub lane: Lane,
    /// The time they are expected to swim.
    pub expected: Option<Centis>,
}

/// The heats, the fastest first, those without a test last: as few as the lanes
/// allow at two a lane, and of one size but for one swimmer, the smaller ones
/// first. Hence no heat of several has fewer swimmers than there are lanes, and
/// every lane has a counter.
pub fn heats(mut entrants: Vec<Entrant>, lanes: Lane, distance: Distance) -> Vec<Heat> {
    entrants.sort_by(|one, other| {
        let key = |entrant: &Entrant| (entrant.expected.is_none(), entrant.expected);
        key(one).cmp(&key(other)).then_with(|| one.name.cmp(&other.name))
    });
    let expected: Vec<Option<Centis>> = entrants.iter().map(|one| one.expected).collect();
    let unknown_s = unknown_s(&expected, distance);
    let number = entrants.len().div_ceil(usize::from(lanes.number()) * TO_A_LANE);
    let mut left = entrants.into_iter();
    (0..number)
        .map(|at| {
            let size = left.len() / (number - at);
            let swum: Vec<Entrant> = left.by_ref().take(size).collect();
            let places =
                swum.into_iter().zip(lanes.up_to().collect::<Vec<_>>().into_iter().cycle());
            let place = |(one, lane): (Entrant, Lane)| Place {
                name: one.name,
                lane,
                expected: one.expected,
            };
            Heat::of(places.map(place).collect(), unknown_s)
        })
        .collect()
}

/// Seconds that somebody without a test is given, beside others who have one.
fn unknown_s(expected: &[Option<Centis>], distance: Distance) -> f64 {
    let slowest = expected.iter().flatten().max();
    let unknown = f64::from(distance.amount()) / 100.0 * UNKNOWN_PER_100_S;
    slowest.map_or(unknown, |time| time.seconds().max(unknown))
}

/// Heats as they were made up before, with their minutes.
pub fn as_made_up(heats: Vec<Vec<Place>>, distance: Distance) -> Vec<Heat> {
    let expected: Vec<Option<Centis>> =
        heats.iter().flatten().map(|place| place.expected).collect();
    let unknown_s = unknown_s(&expected, distance);
    heats.into_iter().map(|places| Heat::of(places, unknown_s)).collect()
}

impl Heat {
    fn of(places: Vec<Place>, unknown_s: f64) -> Heat {
        let times = places.iter().map(|one| one.expected.map_or(unknown_s, Centis::seconds));
        let longest = times.fold(0.0, f64::max);
        Heat { places, minutes: (longest / 60.0).ceil() as u32 }
    }
}

/// Who counts for the swimmer in `place` of heat `at`: one of the next heat in
/// the same lane, for the last heat one of the first; none where there is but
/// one heat.
pub fn counter(heats: &[Heat], at: usize, place: usize) -> Option<&Place> {
    let lane = heats.get(at)?.places.get(place)?.lane;
    let next = heats.get((at + 1) % heats.len()).filter(|_| heats.len() > 1)?;
    let same = |other: &&Place| other.lane == lane;
    next.places.get(place).filter(same).or_else(|| next.places.iter().find(same))
}

/// Whole minutes that all heats take, change-overs between them included.
pub fn minutes(heats: &[Heat]) -> u32 {
    let changes = u32::try_from(heats.len().saturating_sub(1)).unwrap_or(u32::MAX);
    heats.iter().map(|heat| heat.minutes).sum::<u32>() + changes * CHANGE_OVER_MIN
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use std::collections::BTreeSet;

    fn far() -> Distance {
        Distance::new(400, crate::units::Unit::Metre).unwrap()
    }

    fn entrant(at: usize, seconds: Option<u32>) -> Entrant {
        let expected = seconds.map(|seconds| Centis::from_whole_seconds(seconds).unwrap());
        Entrant { name: format!("bird{at:02}"), expected }
    }

    #[test]
    fn twenty_four_in_four_lanes_are_three_heats() {
        let all = (0..24).map(|at| entrant(at, Some(600 - 10 * at as u32))).collect();
        let heats = heats(all, Lane::new(4).unwrap(), far());
        assert_eq!(heats.iter().map(|heat| heat.places.len()).collect::<Vec<_>>(), [8, 8, 8]);
        // 370..440, 450..520 and 530..600 s: 8, 9 and 10 min, and two changes.
        assert_eq!(heats.iter().map(|heat| heat.minutes).collect::<Vec<_>>(), [8, 9, 10]);
        assert_eq!(minutes(&heats), 31);
        assert_eq!(heats[0].places[0].name, "bird23");
        assert_eq!(counter(&heats, 2, 0).unwrap().name, "bird23");
    }

    #[test]
    fn one_heat_has_no_counters_among_its_swimmers() {
        let one = heats(vec![entrant(0, None)], Lane::new(4).unwrap(), far());
        assert_eq!(counter(&one, 0, 0), None);
        assert_eq!(minutes(&one), 10);
        assert!(heats(vec![], Lane::new(4).unwrap(), far()).is_empty());
    }

    proptest! {
        #[test]
        fn all_are_in_one_heat_in_order_and_counted(
            times in prop::collection::vec(prop::option::of(240u32..1200), 0..60),
            lanes in 1u8..=10,
        ) {
            let all: Vec<Entrant> =
                times.iter().enumerate().map(|(at, time)| entrant(at, *time)).collect();
            let lanes = Lane::new(lanes).unwrap();
            let heats = heats(all.clone(), lanes, far());
            let placed: Vec<&Place> = heats.iter().flat_map(|heat| &heat.places).collect();
            let names: BTreeSet<&String> = placed.iter().map(|one| &one.name).collect();
            prop_assert_eq!(placed.len(), all.len());
            prop_assert_eq!(names, all.iter().map(|one| &one.name).collect());
            let key = |one: &Place| one.expected.map_or(u32::MAX, |time| time.seconds() as u32);
            prop_assert!(placed.windows(2).all(|two| key(two[0]) <= key(two[1])));
            for (at, heat) in heats.iter().enumerate() {
                prop_assert!(!heat.places.is_empty());
                for lane in lanes.up_to() {
                    let there = heat.places.iter().filter(|one| one.lane == lane).count();
                    prop_assert!(there <= TO_A_LANE);
                }
                for (place, one) in heat.places.iter().enumerate() {
                    match counter(&heats, at, place) {
                        None => prop_assert_eq!(heats.len(), 1),
                        Some(other) => {
                            prop_assert_eq!(one.lane, other.lane);
                            prop_assert_ne!(&one.name, &other.name);
                        }
                    }
                }
            }
        }
    }
}
