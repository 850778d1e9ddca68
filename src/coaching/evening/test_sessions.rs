//! Sessions to test by.

use crate::session::{Block, Part, Purpose, Repeat, Session};
use crate::units::{Distance, Level, SendOff, Stroke, Unit};

/// Easy repeats of free on a send-off in seconds.
pub(super) fn line(count: u16, far: u32, send_off: u32) -> Repeat {
    Repeat {
        count,
        distance: Distance::new(far, Unit::Metre).unwrap(),
        stroke: Stroke::Free,
        target: None,
        aim: None,
        send_off: Some(SendOff::new(send_off).unwrap()),
        rest: None,
        level: Level::Easy,
        equipment: vec![],
        cue: None,
    }
}

/// A session of blocks, each swum in so many rounds.
pub(super) fn session(blocks: Vec<(Part, u16, Vec<Repeat>)>) -> Session {
    let block = |(part, rounds, repeats)| Block { part, rounds, repeats };
    Session {
        on: jiff::civil::date(2026, 3, 3),
        purpose: Purpose::PaceHolding,
        unit: Unit::Metre,
        blocks: blocks.into_iter().map(block).collect(),
        rules: vec![],
        without: vec![],
    }
}
