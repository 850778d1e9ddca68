//! The lanes as they stand: order, send-offs of the set in force, the gap.

use jiff::civil::Date;

use super::Person;
use crate::coaching::evening::swims_gently;
use crate::coaching::lanes::{Gap, OneMove, Standing};
use crate::desk::bench::Desk;
use crate::message::Name;
use crate::profile::LaneKept;
use crate::session::{Block, Part, Session};

/// The lanes of a night.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lanes {
    /// Every lane there is, lane 1 first.
    pub lanes: Vec<LaneNow>,
    /// Seconds between two who leave behind each other, where lanes were drawn.
    pub gap: Option<Gap>,
    /// The one move worth making.
    pub advice: Option<OneMove>,
    /// Seen at the pool, and in no lane though they may swim.
    pub in_none: Vec<Person>,
}

/// A lane.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LaneNow {
    /// Which, counted from 1.
    pub lane: u8,
    /// Who swims in it, in the order they lead off.
    pub swimmers: Vec<Placed>,
    /// The main blocks of its set, with its own send-offs.
    pub main: Vec<Block>,
}

/// A swimmer in her place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Placed {
    /// Who.
    pub who: Person,
    /// Her pace is guessed or not known.
    pub guessed: bool,
    /// She swims the gentle version; why is not told here.
    pub gently: bool,
    /// She must not swim.
    pub stopped: bool,
    /// The one thing she works on, in the coach's words.
    pub focus: Option<String>,
}

/// The lanes of `on` as they stand.
pub fn lanes(desk: &Desk<'_>, on: Date) -> Lanes {
    let tonight = desk.tonight(on);
    let here = desk.squad.here_on(on, desk.now());
    let in_none = here
        .filter(|one| !desk.squad.is_done(one, on, desk.now()))
        .filter(|one| tonight.kept.lane_of(&one.name).is_none())
        .map(|one| Person::of(desk, &one.name))
        .collect();
    let drawn = tonight.kept.drawn;
    let told = drawn.then(|| tonight.lanes_told(desk, Vec::new()));
    let shown = |lane: &&LaneKept| drawn || lane.session.is_some();
    let lane = |lane: &LaneKept| LaneNow {
        lane: lane.lane.number(),
        swimmers: lane.swimmers.iter().map(|name| placed(desk, on, name)).collect(),
        main: lane.session.as_ref().map(|one| main(&desk.shown(one))).unwrap_or_default(),
    };
    Lanes {
        lanes: tonight.kept.lanes.iter().filter(shown).map(lane).collect(),
        gap: drawn.then_some(tonight.kept.gap),
        advice: told.and_then(|told| told.advice),
        in_none,
    }
}

fn placed(desk: &Desk<'_>, on: Date, name: &Name) -> Placed {
    let standing = desk.standing_of(name, desk.booking(on).course);
    Placed {
        focus: desk.swimmer(name).and_then(|one| one.focus_at(desk.now())).cloned(),
        who: Person::of(desk, name),
        guessed: !matches!(standing, Standing::Tested(_)),
        gently: desk.facts(name).is_some_and(|facts| swims_gently(desk.asked.book, &facts)),
        stopped: desk.swimmer(name).is_some_and(|swimmer| swimmer.is_stopped(desk.now())),
    }
}

fn main(session: &Session) -> Vec<Block> {
    let blocks = session.blocks.iter();
    blocks.filter(|block| matches!(block.part, Part::Main | Part::Test)).cloned().collect()
}
