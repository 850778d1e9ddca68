//! Random sets, as a coach might write them.

use jiff::civil::date;
use lapwing::session::{Block, Part, Purpose, Repeat, Session};
use lapwing::units::{Centis, Distance, Level, SendOff, Stroke, Unit};
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::select;

/// A line of `level`: 25 to 200 m with at least ten seconds of rest.
pub fn line(level: Level, most: u16) -> impl Strategy<Value = Repeat> {
    (1..=most, select(vec![25u32, 50, 75, 100, 200]), 10u32..40, any::<bool>()).prop_map(
        move |(count, amount, rest, kick)| {
            let time = Centis::from_whole_seconds(amount).unwrap();
            Repeat {
                count,
                distance: Distance::new(amount, Unit::Metre).unwrap(),
                stroke: if kick && !level.is_hard() { Stroke::Kick } else { Stroke::Free },
                target: level.is_hard().then_some(time),
                aim: None,
                send_off: Some(SendOff::after(time, rest)),
                rest: None,
                level,
                equipment: vec![],
                cue: None,
            }
        },
    )
}

fn block(part: Part, level: Level, most: u16) -> impl Strategy<Value = Block> {
    vec(line(level, most), 1..3).prop_map(move |repeats| Block { part, rounds: 1, repeats })
}

/// Warm-up, perhaps drills, a build and swims beside, a main set in rounds,
/// swim-down; no line of more than `most` repeats.
pub fn session(most: u16) -> impl Strategy<Value = Session> {
    let main = (1u16..=3, vec(line(Level::Hard, most), 1..3), line(Level::Easy, 1), any::<bool>())
        .prop_map(|(rounds, mut repeats, easy, between)| {
            repeats.extend(between.then_some(easy));
            Block { part: Part::Main, rounds, repeats }
        });
    (
        block(Part::WarmUp, Level::Easy, most),
        vec(block(Part::Drill, Level::Easy, most), 0..2),
        vec(block(Part::Build, Level::Steady, most), 0..2),
        main,
        vec(block(Part::Main, Level::Steady, most), 0..2),
        block(Part::SwimDown, Level::Easy, 2),
    )
        .prop_map(|(warm_up, drills, build, main, beside, swim_down)| {
            let mut blocks = vec![warm_up];
            blocks.extend(drills);
            blocks.extend(build);
            blocks.push(main);
            blocks.extend(beside);
            blocks.push(swim_down);
            Session {
                on: date(2026, 3, 3),
                purpose: Purpose::PaceHolding,
                unit: Unit::Metre,
                blocks: blocks.into(),
                rules: vec![],
                without: vec![],
            }
        })
}
