//! Samples of a night's set and of what becomes of it.

use jiff::civil::{Time, time as clock};
use lapwing::coaching::evening::{Beyond, Expected, GivenUp, Tight};
use lapwing::coaching::lanes::Gap;
use lapwing::message::Name;
use lapwing::reply::*;
use lapwing::session::{Aim, Limit, Part, Purpose, Repeat, Session};
use lapwing::units::{Equipment, Lane, Level, SendOff, Stroke};

use super::parts::*;

fn version(count: u16, held: &str, on: u32) -> Session {
    let line = Repeat {
        target: Some(time(held)),
        send_off: Some(SendOff::new(on).unwrap()),
        aim: Some(Aim::TestPace(metres(200))),
        ..repeat(count, 50, Level::Hard)
    };
    let drill = Repeat { stroke: Stroke::Drill, target: None, ..repeat(4, 25, Level::Easy) };
    session(
        Purpose::PaceHolding,
        vec![block(Part::Drill, 1, vec![drill]), block(Part::Main, 1, vec![line])],
    )
}

fn lane(lane: u8, swimmers: &[&str], session: Session, ends: Option<Time>) -> LaneReply {
    let swimmers: Vec<Name> = swimmers.iter().map(|one| name(one)).collect();
    let main = session.blocks[2].repeats[0].clone();
    let expected = Expected {
        line: Repeat { stroke: Stroke::Kick, ..repeat(4, 50, Level::Easy) },
        time: time("1:20"),
        guess: true,
    };
    let targets = swimmers.iter().map(|swimmer| OwnTargets {
        swimmer: swimmer.clone(),
        lines: vec![main.clone()],
        expected: vec![expected.clone()],
    });
    LaneReply {
        lane,
        targets: targets.collect(),
        swimmers,
        session,
        ends,
        gently: vec![name("dunlin")],
        tight: vec![],
        beyond: vec![],
        too_long: None,
    }
}

/// One a shape: by the clock; without it and in a room, too long and too tight;
/// with lanes that no longer have the same parts.
pub fn evenings() -> Vec<EveningReply> {
    let by_clock = EveningReply {
        on: MONDAY,
        minutes: 60,
        lanes: vec![
            lane(1, &["teal", "siskin"], version(10, "41", 65), Some(clock(20, 38, 10, 0))),
            lane(2, &["heron"], version(8, "48", 80), Some(clock(20, 39, 0, 0))),
        ],
        only: None,
        in_room: false,
        without: vec![Limit::Kit(Equipment::Fins)],
    };
    let tight = Tight {
        line: Repeat { send_off: Some(SendOff::new(55).unwrap()), ..repeat(8, 50, Level::Hard) },
        fits: SendOff::new(65).unwrap(),
        guess: true,
    };
    let too_long = |fits| Some(TooLong { by_s: 170, without: given_up(), fits });
    let beyond = |own| Beyond { line: repeat(8, 50, Level::Sprint), swimmers: 5, of: 6, own };
    let over = |fits| LaneReply {
        too_long: too_long(fits),
        tight: vec![tight.clone()],
        beyond: vec![beyond(Some(time("1:02"))), beyond(None)],
        ..lane(2, &[], version(8, "48", 80), None)
    };
    let first = lane(1, &[], version(8, "48", 80), None);
    let in_room = EveningReply {
        lanes: vec![first.clone(), over(true)],
        in_room: true,
        without: vec![],
        ..by_clock.clone()
    };
    let short = LaneReply { lane: 1, session: pace_session(), ..first };
    let unlike = EveningReply { lanes: vec![short, over(false)], ..by_clock.clone() };
    let alone =
        EveningReply { only: Some(1), lanes: by_clock.lanes[..1].to_vec(), ..by_clock.clone() };
    vec![by_clock, in_room, unlike, alone]
}

fn given_up() -> Vec<GivenUp> {
    let drill = Repeat { stroke: Stroke::Drill, ..repeat(4, 25, Level::Easy) };
    vec![
        GivenUp { part: Part::Drill, line: drill.clone(), left: 0, swum: 0 },
        GivenUp { part: Part::Drill, line: drill, left: 0, swum: 2 },
        GivenUp { part: Part::Main, line: repeat(8, 50, Level::Hard), left: 6, swum: 3 },
        GivenUp { part: Part::Main, line: repeat(8, 50, Level::Hard), left: 6, swum: 0 },
    ]
}

/// One a shape: by the clock and counted from the main set, one lane left as it
/// was, one that loses its main set and even so runs over.
pub fn changes() -> Vec<ChangedReply> {
    let stays = |lane, ends| LaneChange {
        lane,
        session: version(8, "48", 80),
        was: ends,
        now: ends,
        given_up: vec![],
        instead: vec![],
        fits: true,
        keeps_purpose: true,
        tight: vec![],
        whom: vec![],
    };
    let at = |minute| Ends::At(clock(20, minute, 0, 0));
    let cut = LaneChange { was: at(58), given_up: given_up(), ..stays(1, at(54)) };
    let longer =
        LaneChange { instead: vec![repeat(8, 50, Level::Hard)], was: at(52), ..stays(1, at(54)) };
    let same = LaneChange {
        instead: vec![repeat(6, 50, Level::Hard)],
        whom: vec![name("heron")],
        ..stays(2, at(54))
    };
    let gone = LaneChange {
        was: Ends::In(1440),
        given_up: given_up(),
        fits: false,
        keeps_purpose: false,
        ..stays(1, Ends::In(310))
    };
    let of = |lanes, from_main| ChangedReply { on: MONDAY, lanes, from_main };
    vec![
        of(vec![cut, stays(2, at(54))], false),
        of(vec![longer, same], false),
        of(vec![gone, LaneChange { was: Ends::In(900), ..stays(2, Ends::In(720)) }], true),
    ]
}

/// Lanes that are others now: someone moved, came and went; another gap; nothing.
pub fn lanes_changed() -> Vec<LanesChangedReply> {
    let lane = |number| Lane::new(number).ok();
    let nothing = LanesChangedReply {
        on: MONDAY,
        night: None,
        moved: vec![],
        lanes: vec![],
        relaxed: vec![],
        parted: vec![],
        gap: None,
    };
    let line = |on| {
        let send_off = Some(SendOff::new(on).unwrap());
        Repeat { send_off, ..repeat(8, 50, Level::Hard) }
    };
    let now = LaneNow {
        lane: 2,
        swimmers: vec![name("heron"), name("wren")],
        line: Some(line(80)),
        line_was: Some(line(75)),
        now: Some(Ends::At(clock(20, 54, 0, 0))),
        was: Some(Ends::At(clock(20, 52, 0, 0))),
        tight: vec![],
    };
    let moved = vec![
        (name("wren"), lane(1), lane(2)),
        (name("teal"), None, lane(1)),
        (name("siskin"), lane(3), None),
    ];
    let parted = vec![name("heron"), name("teal")];
    vec![
        LanesChangedReply { moved: moved.clone(), lanes: vec![now.clone()], ..nothing.clone() },
        LanesChangedReply { gap: Some(Gap::Ten), parted, ..nothing.clone() },
        nothing.clone(),
        // A lane fewer; wren comes to what is as it was.
        LanesChangedReply {
            night: Some(NightLine {
                when: When::On(MONDAY),
                starts: Some("20:00".into()),
                ends: Some("21:00".into()),
                lanes: Some(2),
                course: None,
                shut: false,
            }),
            moved,
            lanes: vec![LaneNow { line_was: Some(line(80)), ..now }],
            ..nothing
        },
    ]
}
