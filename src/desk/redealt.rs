//! The set in force dealt out to the lanes as they are drawn anew, so that set and
//! lanes never speak of different people.

use jiff::civil::Date;

use super::bench::Desk;
use super::coach_set::{by_lane, kept};
use super::squad_session::planned;
use crate::coaching::Facts;
use crate::coaching::evening::{LaneSet, with_lane_targets};
use crate::coaching::lanes::{LaneDrawn, LaneSendOff};
use crate::profile::{Event, LaneKept, SetSource, SquadSet};
use crate::session::Part;
use crate::units::Level;

use super::evening::Drawn;

/// Writes the night's set anew for its lanes, from what it was written from; one
/// that was changed on the way is handed on as it stands.
pub fn redealt(desk: &mut Desk<'_>, on: Date) {
    let Some(set) = desk.squad.set_in_force(on, desk.now()).cloned() else { return };
    let again = match &set.source {
        Some(source) => written_anew(desk, on, source).map(|lanes| (source, lanes)),
        None => None,
    };
    let set = match again {
        Some((source, lanes)) => kept(on, source.clone(), set.begun, &lanes),
        None => handed_on(desk, set),
    };
    desk.record(Event::SquadSetPut { set });
}

fn written_anew(desk: &Desk<'_>, on: Date, source: &SetSource) -> Option<Vec<(Drawn, LaneSet)>> {
    match source {
        SetSource::Planned(wish) => planned(desk, on, wish).ok().map(|(_, lanes)| lanes),
        SetSource::Written(set) => by_lane(desk, on, &desk.booking(on), set).ok(),
    }
}

/// Each lane swims the version that most of its swimmers had, the times to hold
/// being those of the lane.
fn handed_on(desk: &Desk<'_>, set: SquadSet) -> SquadSet {
    let course = desk.booking(set.on).course;
    let lanes = desk.drawn(set.on).into_iter().filter_map(|drawn| {
        let of_theirs = |lane: &&LaneKept| {
            drawn.swimmers.iter().filter(|(name, _)| lane.swimmers.contains(name)).count()
        };
        // Of lanes with as many, the one with the nearest number.
        let near = |lane: &&LaneKept| std::cmp::Reverse(lane.lane.abs_diff(drawn.lane));
        let had = set.lanes.iter().max_by_key(|lane| (of_theirs(lane), near(lane)))?;
        let facts: Vec<&Facts> = drawn.swimmers.iter().map(|(_, facts)| facts).collect();
        Some(LaneKept {
            lane: drawn.lane,
            session: with_lane_targets(&had.session, &facts, course),
            swimmers: drawn.swimmers.into_iter().map(|(name, _)| name).collect(),
        })
    });
    SquadSet { lanes: lanes.collect(), ..set.clone() }
}

/// The lanes with the send-offs of the set that each swims, where one is in
/// force.
pub fn with_set(desk: &Desk<'_>, on: Date, lanes: Vec<LaneDrawn>) -> Vec<LaneDrawn> {
    let Some(set) = desk.set_in_force(on) else { return lanes };
    let own = |lane: LaneDrawn| {
        let version = set.lanes.iter().find(|kept| kept.lane == lane.lane.number());
        match version.map(send_offs).filter(|own| !own.is_empty()) {
            Some(send_offs) => LaneDrawn { send_offs, ..lane },
            None => lane,
        }
    };
    lanes.into_iter().map(own).collect()
}

/// Of the main part, what is more than easy.
fn send_offs(kept: &LaneKept) -> Vec<LaneSendOff> {
    let main = kept.session.blocks.iter().filter(|block| block.part == Part::Main);
    let lines = main.flat_map(|block| block.repeats.iter().map(|line| (block.rounds, line)));
    lines
        .filter(|(_, line)| line.level > Level::Easy)
        .filter_map(|(rounds, line)| {
            Some(LaneSendOff {
                count: line.count.saturating_mul(rounds),
                distance: line.distance,
                slowest: line.target?,
                send_off: line.send_off?,
                stretched_s: 0,
            })
        })
        .collect()
}
