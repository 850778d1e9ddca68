//! Evenings drawn by lot.

use std::collections::BTreeMap;

use lapwing::coaching::lanes::{Entrant, Evening, Gap, KnownPace, LaneRepeat};
use lapwing::units::{Course, Distance, Lane, Level, Pace, SendOff};
use rand::{Rng, RngExt};

const HANDLES: [&str; 12] = [
    "avocet", "bunting", "crake", "dunlin", "egret", "fulmar", "godwit", "heron", "ibis",
    "jackdaw", "knot", "linnet",
];

/// An evening of up to twelve: ties, guesses and strangers, pins, partings and
/// sets among them, so that a good part can't be split at all.
pub fn evening(random: &mut impl Rng) -> Evening {
    let course = [Course::Short25m, Course::Long50m, Course::Short25yd][random.random_range(0..3)];
    let present = random.random_range(0..=12);
    let lanes = random.random_range(1..=4);
    let spread = [0, 10, 60][random.random_range(0..3)];
    let swimmers: Vec<Entrant> = HANDLES[..present]
        .iter()
        .map(|name| Entrant {
            name: (*name).to_owned(),
            known_pace: known_pace(random, course, spread),
        })
        .collect();
    let handle = |random: &mut dyn Rng| HANDLES[random.random_range(0..12)].to_owned();
    let mut pins = BTreeMap::new();
    for _ in 0..random.random_range(0..3) {
        pins.insert(handle(random), Lane::new(random.random_range(1..=lanes)).unwrap());
    }
    let apart: Vec<(String, String)> = (0..random.random_range(0..4))
        .map(|_| (handle(random), handle(random)))
        .filter(|(one, other)| one != other)
        .collect();
    let set = (0..random.random_range(0..3)).map(|_| repeat(random, course)).collect();
    Evening {
        swimmers,
        lanes: Lane::new(lanes).unwrap(),
        capacity: random.random_range(3..=8),
        gap: if random.random_bool(0.8) { Gap::Five } else { Gap::Ten },
        course,
        set,
        pins,
        apart,
        stretch_s: [0, 0, 10, 30, 60][random.random_range(0..5)],
    }
}

fn known_pace(random: &mut impl Rng, course: Course, spread: u32) -> KnownPace {
    if random.random_bool(0.1) {
        return KnownPace::Unknown;
    }
    // Whole seconds in a narrow field, so that some tie.
    let per_100_s = f64::from(80 + random.random_range(0..=spread));
    let tenths = if random.random_bool(0.5) { random.random_range(0..10) } else { 0 };
    let pace = Pace::new(per_100_s + f64::from(tenths) / 10.0, course.unit()).unwrap();
    if random.random_bool(0.2) { KnownPace::Guessed(pace) } else { KnownPace::Tested(pace) }
}

fn repeat(random: &mut impl Rng, course: Course) -> LaneRepeat {
    let length = course.length().unwrap();
    let lengths = [1, 2, 4, 8, 16][random.random_range(0..5)];
    let send_off = random
        .random_bool(0.2)
        .then(|| SendOff::new(length * lengths * random.random_range(8..14) / 5).unwrap());
    LaneRepeat {
        count: random.random_range(1..20),
        distance: Distance::new(length * lengths, course.unit()).unwrap(),
        level: Level::ALL[random.random_range(0..5)],
        send_off,
    }
}
