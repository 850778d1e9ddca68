//! Samples of all that is known of what is asked.

use jiff::civil::{date, time as clock};
use lapwing::coaching::evening::Position;
use lapwing::reply::{
    Known, LaneStanding, NightLine, ResultLine, StandingReply, Swam, SwumReply, TestDue, Unknown,
    When,
};
use lapwing::session::{Part, Repeat};
use lapwing::units::{Course, Level, SendOff, Stroke};

use super::parts::{MONDAY, metres, name, time, trial};

const WEDNESDAY: jiff::civil::Date = date(2026, 3, 4);

fn night(shut: bool) -> NightLine {
    match shut {
        true => NightLine::shut(WEDNESDAY),
        false => NightLine {
            when: When::On(WEDNESDAY),
            starts: Some("19:00".into()),
            ends: Some("20:00".into()),
            lanes: Some(4),
            course: Some(Course::Short25m),
            shut: false,
        },
    }
}

fn line() -> Repeat {
    Repeat {
        count: 8,
        distance: metres(50),
        stroke: Stroke::Free,
        target: Some(time("48")),
        aim: None,
        send_off: SendOff::new(75).ok(),
        rest: None,
        level: Level::Threshold,
        equipment: vec![],
        cue: None,
    }
}

fn swimming(count: u16, round: (u16, u16)) -> Position {
    let line = Repeat { count, ..line() };
    Position::Swimming { part: Part::Main, round, line, number: 1, next_s: 20 }
}

/// Every answer in every shape.
pub fn known() -> Vec<Known> {
    let told = super::answers::answers().into_iter().map(Known::Told);
    fixed().into_iter().chain(told).collect()
}

fn fixed() -> Vec<Known> {
    let heron = || Some(name("heron"));
    let last = trial(200, "3:12", MONDAY);
    let from = |now, distance| TestDue::From { on: date(2026, 4, 13), now, distance, last };
    let called = TestDue::Called { on: WEDNESDAY, distance: metres(400) };
    let swum = SwumReply {
        who: None,
        from: MONDAY,
        to: WEDNESDAY,
        cut: false,
        sessions: 2,
        metres: 3600,
        sets: 1,
        tests: 1,
    };
    let nothing = SwumReply {
        who: heron(),
        from: WEDNESDAY,
        cut: true,
        sessions: 0,
        metres: 0,
        sets: 0,
        tests: 0,
        ..swum.clone()
    };
    let more = SwumReply { sets: 3, tests: 2, sessions: 1, ..swum.clone() };
    let result = |who, what| ResultLine { who, what };
    let set = |held| Swam::Set {
        count: 8,
        distance: metres(50),
        held,
        times: vec![Some(time("48")), None],
    };
    let stands = |lane, position, to_come: &[Part]| LaneStanding {
        lane,
        position,
        to_come: to_come.to_vec(),
        ends: Some(clock(19, 52, 0, 0)),
    };
    vec![
        Known::NextTest { who: None, due: called.clone() },
        Known::NextTest { who: heron(), due: called },
        Known::NextTest { who: None, due: from(false, Some(metres(400))) },
        Known::NextTest { who: None, due: from(false, None) },
        Known::NextTest { who: heron(), due: from(true, Some(metres(400))) },
        Known::NextTest { who: None, due: TestDue::First },
        Known::NextTest { who: None, due: TestDue::Waits },
        Known::LaneOf { who: None, on: WEDNESDAY, lane: 2 },
        Known::LaneOf { who: heron(), on: WEDNESDAY, lane: 2 },
        Known::Lanes {
            on: WEDNESDAY,
            lanes: vec![(1, vec![name("heron"), name("teal")]), (2, vec![])],
        },
        Known::Swum(swum),
        Known::Swum(nothing),
        Known::Swum(more),
        Known::Evening { night: night(false), of_day: false, next: None },
        Known::Evening { night: night(false), of_day: true, next: None },
        Known::Evening { night: night(true), of_day: true, next: Some(night(false)) },
        Known::Results {
            on: MONDAY,
            lines: vec![
                result(heron(), Swam::Test(last, Some(time("3:14.2")))),
                result(Some(name("teal")), Swam::Test(last, Some(time("3:11")))),
                result(Some(name("wren")), Swam::Test(last, Some(last.time))),
                result(Some(name("snipe")), Swam::Test(last, None)),
                result(Some(name("rook")), set(Some(6))),
                result(Some(name("kite")), set(None)),
            ],
        },
        Known::Results { on: MONDAY, lines: vec![result(None, Swam::Test(last, None))] },
        Known::Results { on: MONDAY, lines: vec![result(None, set(Some(6)))] },
        Known::Standing(StandingReply {
            begins: Some(clock(19, 0, 0, 0)),
            booked_until: Some(clock(20, 0, 0, 0)),
            left_min: None,
            lanes: vec![stands(1, None, &[Part::Main])],
        }),
        Known::Standing(StandingReply {
            begins: None,
            booked_until: Some(clock(20, 0, 0, 0)),
            left_min: Some(22),
            lanes: vec![
                stands(1, Some(swimming(8, (1, 1))), &[Part::SwimDown]),
                stands(2, Some(swimming(1, (2, 3))), &[Part::Drill, Part::SwimDown]),
                stands(3, Some(Position::Changing { next: Part::Main, in_s: 20 }), &[]),
                stands(4, Some(Position::Over), &[]),
            ],
        }),
        Known::Not(Unknown::Lanes { on: WEDNESDAY }),
        Known::Not(Unknown::Results { on: None }),
        Known::Not(Unknown::Results { on: Some(MONDAY) }),
        Known::Not(Unknown::Set { on: MONDAY }),
        Known::Not(Unknown::TestNight),
        Known::Not(Unknown::Night { on: None, next: None }),
        Known::Not(Unknown::Night { on: Some(MONDAY), next: Some(night(false)) }),
        Known::Not(Unknown::Night { on: Some(MONDAY), next: None }),
    ]
}
