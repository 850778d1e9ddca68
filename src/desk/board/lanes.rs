//! The lanes as they stand: order, send-offs of the set in force, the gap.

use jiff::civil::Date;

use super::Person;
use crate::coaching::evening::swims_gently;
use crate::coaching::lanes::{Gap, OneMove, Standing};
use crate::desk::bench::Desk;
use crate::desk::lanes::{as_drawn, standing_of};
use crate::message::Name;
use crate::profile::LaneKept;
use crate::session::{Block, Part};

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

/// The lanes drawn for `on`, else those of its set.
pub fn lanes(desk: &Desk<'_>, on: Date) -> Lanes {
    let set = desk.set_in_force(on);
    let version =
        |lane: u8| set.as_ref().and_then(|set| set.lanes.iter().find(|one| one.lane == lane));
    let (orders, gap, advice) = match as_drawn(desk, on) {
        Some((drawn, gap, advice)) => {
            let orders = drawn.lanes.into_iter().map(|one| (one.lane.number(), one.swimmers));
            (orders.collect(), Some(gap), advice)
        }
        None => {
            let written = set.iter().flat_map(|set| &set.lanes);
            (written.map(|one| (one.lane, one.swimmers.clone())).collect(), None, None)
        }
    };
    let orders: Vec<(u8, Vec<Name>)> = orders;
    let here = desk.squad.here_on(on, desk.now());
    let in_none = here
        .filter(|one| !desk.squad.is_done(one, on, desk.now()))
        .filter(|one| !orders.iter().any(|(_, names)| names.contains(&one.name)))
        .map(|one| Person::of(desk, &one.name))
        .collect();
    let lane = |(lane, names): (u8, Vec<Name>)| LaneNow {
        lane,
        swimmers: names.iter().map(|name| placed(desk, on, name)).collect(),
        main: version(lane).map(main).unwrap_or_default(),
    };
    Lanes { lanes: orders.into_iter().map(lane).collect(), gap, advice, in_none }
}

fn placed(desk: &Desk<'_>, on: Date, name: &Name) -> Placed {
    let standing = standing_of(desk, name, desk.booking(on).course);
    Placed {
        focus: desk.swimmer(name).and_then(|one| one.focus_at(desk.now())).cloned(),
        who: Person::of(desk, name),
        guessed: !matches!(standing, Standing::Tested(_)),
        gently: desk.facts(name).is_some_and(|facts| swims_gently(desk.asked.book, &facts)),
        stopped: desk.swimmer(name).is_some_and(|swimmer| swimmer.is_stopped(desk.now())),
    }
}

fn main(lane: &LaneKept) -> Vec<Block> {
    let blocks = lane.session.blocks.iter();
    blocks.filter(|block| matches!(block.part, Part::Main | Part::Test)).cloned().collect()
}
