//! Lanes that a coach can check with a pencil.

use std::collections::BTreeMap;

use lapwing::coaching::lanes::{
    Entrant, Evening, Gap, KnownPace, LaneRepeat, Moved, Shortfall, draw, move_worth_making, redraw,
};
use lapwing::units::{Course, Distance, Lane, Level, Pace, SendOff, Unit};

fn lane(number: u8) -> Lane {
    Lane::new(number).unwrap()
}

/// Swimmers by handle and seconds per 100; none for nothing known.
fn evening(lanes: u8, swimmers: &[(&str, Option<f64>)]) -> Evening {
    let entrant = |(name, pace): &(&str, Option<f64>)| Entrant {
        name: (*name).to_owned(),
        known_pace: match pace {
            Some(pace) => KnownPace::Tested(Pace::new(*pace, Unit::Metre).unwrap()),
            None => KnownPace::Unknown,
        },
    };
    Evening {
        swimmers: swimmers.iter().map(entrant).collect(),
        lanes: lane(lanes),
        capacity: 8,
        gap: Gap::Five,
        course: Course::Short25m,
        set: Vec::new(),
        pins: BTreeMap::new(),
        apart: Vec::new(),
        stretch_s: 0,
    }
}

fn repeat(count: u16, metres: u32, send_off: Option<u32>) -> LaneRepeat {
    LaneRepeat {
        count,
        distance: Distance::new(metres, Unit::Metre).unwrap(),
        level: Level::Threshold,
        send_off: send_off.map(|seconds| SendOff::new(seconds).unwrap()),
    }
}

/// `heron teal | wren`: the lanes in one line.
fn shown(evening: &Evening) -> String {
    let drawn = draw(evening).unwrap();
    let lanes = drawn.lanes.iter().map(|lane| {
        lane.swimmers.iter().map(|one| one.name.as_str()).collect::<Vec<_>>().join(" ")
    });
    lanes.collect::<Vec<_>>().join(" | ")
}

const SIX: [(&str, Option<f64>); 6] = [
    ("heron", Some(96.0)),
    ("teal", Some(94.0)),
    ("wren", Some(118.0)),
    ("siskin", Some(120.0)),
    ("dunlin", Some(121.0)),
    ("robin", None),
];

#[test]
fn by_pace_and_a_stranger_last() {
    assert_eq!(shown(&evening(2, &SIX)), "teal heron | wren siskin dunlin robin");
}

/// Ties lead off by name; a lane more than there are swimmers stays empty, and
/// it is the last.
#[test]
fn ties_and_empty_lanes() {
    let tied = [("wren", Some(100.0)), ("heron", Some(100.0))];
    assert_eq!(shown(&evening(1, &tied)), "heron wren");
    assert_eq!(shown(&evening(4, &tied)), "heron | wren |  | ");
    assert_eq!(shown(&evening(2, &[])), " | ");
}

#[test]
fn pins_and_partings() {
    let mut pinned = evening(2, &SIX);
    pinned.pins.insert("heron".into(), lane(2));
    assert_eq!(shown(&pinned), "teal | heron wren siskin dunlin robin");
    let mut parted = evening(2, &SIX);
    parted.apart.push(("teal".into(), "heron".into()));
    assert_eq!(shown(&parted), "teal | heron wren siskin dunlin robin");
}

/// Four at threshold, the slowest 1:40 per 100: 97.5 % of that speed is 51.28
/// over 50, and 10 s of rest more give 1:05. They circle, so the last may still
/// be coming home when the first leaves: 4 x 5 s is all that it takes. Ten apart,
/// seven would need 1:10.
#[test]
fn circling_swimmers_overlap() {
    let four = [("heron", 97.0), ("teal", 98.0), ("wren", 99.0), ("siskin", 100.0)];
    let four = four.map(|(name, pace)| (name, Some(pace)));
    let mut one_lane = evening(1, &four);
    one_lane.set = vec![repeat(8, 50, None)];
    let drawn = draw(&one_lane).unwrap();
    let send_off = drawn.lanes[0].send_offs[0];
    assert_eq!((send_off.send_off.seconds(), send_off.stretched_s), (65, 0));
    // Seven times 1:05, then the last leaves 15 s behind and swims 51.28.
    assert_eq!(drawn.lanes[0].finish.unwrap().hundredths(), (7 * 65 + 15) * 100 + 5128);
    one_lane.gap = Gap::Ten;
    assert!(draw(&one_lane).is_ok());
    let seven = ["avocet", "bunting", "crake", "dunlin", "egret", "fulmar", "godwit"];
    let mut ten_apart = evening(1, &seven.map(|name| (name, Some(100.0))));
    ten_apart.gap = Gap::Ten;
    ten_apart.set = vec![repeat(8, 50, None)];
    assert_eq!(draw(&ten_apart), Err(Shortfall::Room { stretch_s: 5 }));
    ten_apart.stretch_s = 5;
    let drawn = draw(&ten_apart).unwrap();
    let send_off = drawn.lanes[0].send_offs[0];
    assert_eq!((send_off.send_off.seconds(), send_off.stretched_s), (70, 5));
}

/// Threshold paces of 1:36 and 1:47.5: on a 400 the times are 6:33.85 and
/// 7:21.03, and with the gap the last has 400 x 52.18 / 441.03 = 47.3 m to go
/// when the first is home. At 1:52 that is 61.5 m over 400, 50.8 m over 325 and
/// 47.2 m over 300. The trade's 12 % on a 400 is the same rule without the gap.
#[test]
fn nobody_is_lapped() {
    let pair = |slow| [("heron", Some(96.0)), ("wren", Some(slow))];
    let mut one_lane = evening(1, &pair(107.5));
    one_lane.set = vec![repeat(3, 400, Some(600))];
    assert!(draw(&one_lane).is_ok());
    let mut one_lane = evening(1, &pair(112.0));
    one_lane.set = vec![repeat(3, 400, Some(600))];
    let longest = "300m".parse().unwrap();
    assert_eq!(draw(&one_lane), Err(Shortfall::Lapped { longest, stretch_s: 0 }));
    one_lane.lanes = lane(2);
    assert_eq!(shown(&one_lane), "heron | wren");
    // A circle of a 50 m pool is 100 m.
    let mut long_course = evening(1, &pair(112.0));
    long_course.course = Course::Long50m;
    long_course.set = vec![repeat(3, 400, Some(600))];
    assert!(draw(&long_course).is_ok());
}

#[test]
fn what_cannot_be_met_is_said() {
    let mut crowded = evening(1, &SIX);
    crowded.capacity = 5;
    assert_eq!(draw(&crowded), Err(Shortfall::TooMany { present: 6, capacity: 6 }));
    let mut parted = evening(1, &SIX);
    parted.apart.push(("teal".into(), "wren".into()));
    let give_up = parted.apart.clone();
    assert_eq!(draw(&parted), Err(Shortfall::Apart { give_up }));
    let mut pinned = evening(2, &SIX);
    pinned.pins.insert("teal".into(), lane(3));
    assert_eq!(draw(&pinned), Err(Shortfall::NoLane { name: "teal".into(), lane: lane(3) }));
    let mut full = evening(2, &SIX);
    full.capacity = 3;
    for name in ["teal", "heron", "wren", "siskin"] {
        full.pins.insert(name.into(), lane(1));
    }
    assert_eq!(draw(&full), Err(Shortfall::LaneFull { lane: lane(1), pinned: 4 }));
}

/// One more comes late: they join the lane of their pace and nobody moves.
#[test]
fn late_moves_nobody() {
    let mut all = SIX.to_vec();
    all.push(("crake", Some(119.0)));
    let before =
        [("teal", 1), ("heron", 1), ("wren", 2), ("siskin", 2), ("dunlin", 2), ("robin", 2)];
    let before = before.map(|(name, number)| (name.to_owned(), lane(number))).into();
    let redrawn = redraw(&evening(2, &all), &before).unwrap();
    assert_eq!(redrawn.moved, []);
    assert_eq!(redrawn.draw.lanes[1].swimmers[1].name, "crake");
}

/// The third lane is lost: only its two move.
#[test]
fn a_lost_lane_moves_its_own() {
    let before =
        [("teal", 1), ("heron", 1), ("wren", 2), ("siskin", 2), ("dunlin", 3), ("robin", 3)];
    let before = before.map(|(name, number)| (name.to_owned(), lane(number))).into();
    let redrawn = redraw(&evening(2, &SIX), &before).unwrap();
    let moved = |name: &str| Moved { name: name.into(), from: lane(3), to: lane(2) };
    assert_eq!(redrawn.moved, [moved("dunlin"), moved("robin")]);
}

/// Wren among the fast is the one to move; when all are well placed, nobody is.
#[test]
fn the_one_move() {
    let now = |wren: u8| -> BTreeMap<String, Lane> {
        let now =
            [("teal", 1), ("heron", 1), ("wren", wren), ("siskin", 2), ("dunlin", 2), ("robin", 2)];
        now.map(|(name, number)| (name.to_owned(), lane(number))).into()
    };
    let six = evening(2, &SIX);
    let advised = move_worth_making(&six, &now(1)).unwrap();
    assert_eq!((advised.name.as_str(), advised.to, advised.mends), ("wren", lane(2), false));
    assert_eq!(move_worth_making(&six, &now(2)), None);
}
