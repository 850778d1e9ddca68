//! The parts that sample outcomes are built from: names, swims, sets, sessions.

use jiff::civil::{Date, date};
use lapwing::message::{Length, Name, Statement, TypedTime};
use lapwing::session::{Block, Cue, Part, Purpose, Repeat, Session};
use lapwing::swim::Trial;
use lapwing::swim::critical_speed::{Basis, Estimate, PaceBand};
use lapwing::swim::even_pace::{Target, targets};
use lapwing::units::{
    Centis, Course, Distance, Equipment, Level, Pace, SendOff, Start, Stroke, Unit,
};

pub const MONDAY: Date = date(2026, 3, 2);

pub fn name(word: &str) -> Name {
    Name::new(word).unwrap()
}

pub fn time(text: &str) -> Centis {
    text.parse().unwrap()
}

pub fn typed(text: &str) -> TypedTime {
    TypedTime::sure(time(text))
}

pub fn metres(amount: u32) -> Distance {
    Distance::new(amount, Unit::Metre).unwrap()
}

pub fn length(amount: u32) -> Length {
    Length { amount, unit: None }
}

pub fn trial(amount: u32, text: &str, on: Date) -> Trial {
    Trial {
        distance: metres(amount),
        time: time(text),
        stroke: Stroke::Free,
        course: Course::Short25m,
        on,
        meet: false,
    }
}

pub fn yards(stroke: Stroke) -> Trial {
    Trial {
        distance: Distance::new(200, Unit::Yard).unwrap(),
        stroke,
        course: Course::Short25yd,
        ..trial(200, "2:48.35", MONDAY)
    }
}

pub fn usual_targets() -> Vec<Target> {
    targets(metres(200), time("3:12"), Course::Short25m, Start::Push)
}

/// Targets of which the longest has no send-off.
pub fn targets_to_a_half_and_more() -> Vec<Target> {
    let whole = Target { distance: metres(200), time: time("3:12"), send_off: None };
    usual_targets().into_iter().chain([whole]).collect()
}

pub fn critical(basis: Basis) -> Estimate {
    let pace = |seconds| Pace::new(seconds, Unit::Metre).unwrap();
    let band = PaceBand { pace: pace(109.07), low: pace(102.76), high: pace(117.04) };
    let made_from = match basis {
        Basis::None => vec![],
        Basis::OneTest => vec![trial(200, "3:12", MONDAY)],
        Basis::Curve => vec![trial(200, "3:12", MONDAY), trial(400, "6:50", MONDAY)],
    };
    Estimate { basis, band: (basis != Basis::None).then_some(band), linear: None, made_from }
}

pub fn repeat(count: u16, amount: u32, level: Level) -> Repeat {
    Repeat {
        count,
        distance: metres(amount),
        stroke: Stroke::Free,
        target: Some(time("48")),
        send_off: Some(SendOff::new(75).unwrap()),
        rest: None,
        aim: None,
        level,
        equipment: vec![],
        cue: None,
    }
}

/// Rest in place of a send-off, and a level in place of a target.
pub fn rested(stroke: Stroke, level: Level, equipment: Vec<Equipment>) -> Repeat {
    Repeat {
        stroke,
        target: None,
        send_off: None,
        rest: Some(time("20")),
        equipment,
        cue: Some(Cue::Drill("side-kick".into())),
        aim: None,
        ..repeat(4, 50, level)
    }
}

pub fn block(part: Part, rounds: u16, repeats: Vec<Repeat>) -> Block {
    Block { part, rounds, repeats }
}

pub fn session(purpose: Purpose, main: Vec<Block>) -> Session {
    let mut blocks =
        vec![block(Part::WarmUp, 1, vec![repeat(1, 200, Level::Easy), repeat(4, 25, Level::Easy)])];
    blocks.extend(main);
    blocks.push(block(Part::SwimDown, 1, vec![repeat(1, 100, Level::Easy)]));
    Session {
        on: date(2026, 3, 4),
        purpose,
        unit: Unit::Metre,
        blocks: blocks.into(),
        rules: vec!["even-pace".into()],
        without: vec![],
    }
}

pub fn pace_session() -> Session {
    let rounds = vec![repeat(3, 50, Level::Hard), repeat(1, 50, Level::Easy)];
    session(Purpose::PaceHolding, vec![block(Part::Main, 2, rounds)])
}

pub fn easy_session() -> Session {
    session(Purpose::Return, vec![block(Part::Main, 1, vec![repeat(6, 100, Level::Easy)])])
}

/// Every stroke, kit, level and part in one.
pub fn session_of_everything() -> Session {
    let strokes = Stroke::ALL.map(|stroke| rested(stroke, Level::Easy, vec![])).to_vec();
    let kit = vec![rested(Stroke::Free, Level::Steady, Equipment::ALL.to_vec())];
    let levels = Level::ALL.map(|level| rested(Stroke::Free, level, vec![])).to_vec();
    session(
        Purpose::Technique,
        vec![
            block(Part::Drill, 1, strokes),
            block(Part::Build, 1, kit),
            block(Part::Test, 1, vec![repeat(1, 200, Level::Hard)]),
            block(Part::Recovery, 1, vec![repeat(1, 100, Level::Easy)]),
            block(Part::Main, 1, levels),
        ],
    )
}

pub fn of_me(kind: lapwing::message::Kind) -> Statement {
    Statement { who: None, kind }
}
