//! The lanes of a night as coaching draws them: who is there, the pool, the set,
//! the coach's pins and partings.

use std::collections::BTreeMap;

use super::tonight::Tonight;
use crate::coaching::lanes::{
    Entrant, Evening, KnownPace, LaneRepeat, Redraw, Shortfall, in_order_of_pace, known_pace,
    redraw,
};
use crate::desk::decision::view::View;
use crate::history::{EveningKept, LaneKept};
use crate::message::Name;
use crate::session::{Part, Repeat};
use crate::units::{Course, Distance, Lane, Level};

/// How many a lane has good room for: in a 50 m pool half as many again (ours).
const CAPACITY: u16 = 8;

const CAPACITY_LONG: u16 = 12;

/// How many seconds longer a send-off may be than the pace needs, so that all get
/// away, before it counts as giving way (ours).
const STRETCH_S: u32 = 30;

/// Where no set is in force, lanes are drawn for repeats of these at threshold.
const USUAL: [u32; 2] = [50, 100];

/// Swimmers a lane that are still few, where nobody said how many lanes there are
/// (ours), and lanes at most then.
const FEW: usize = 4;

const MOST_UNBOOKED: usize = 3;

/// Lanes drawn anew.
pub struct DrawnAnew {
    /// Who moved, and what all costs.
    pub redraw: Redraw,
    /// What had to give way.
    pub relaxed: Vec<Shortfall>,
}

impl Tonight {
    /// The evening as far as lanes need it, with so many of them.
    pub fn for_lanes(&self, view: &View<'_>, present: &[Name], lanes: Lane) -> Evening {
        let now = view.now();
        let course = self.booking.course;
        let entrant = |name: &Name| Entrant {
            name: name.to_string(),
            known_pace: view.known_pace_of(name, course),
        };
        let pinned = |name: &Name| {
            let placed = self.kept.placed.get(name).copied();
            let pinned = || view.swimmer(name).and_then(|one| *one.lane.at(now)?);
            Some((name.to_string(), placed.or_else(pinned)?))
        };
        let set = repeats(&self.kept);
        Evening {
            swimmers: present.iter().map(entrant).collect(),
            lanes,
            capacity: if course == Course::Long50m { CAPACITY_LONG } else { CAPACITY },
            gap: self.kept.gap,
            course,
            set: if set.is_empty() { usual(course) } else { set },
            pins: present.iter().filter_map(pinned).collect(),
            apart: view
                .squad
                .partings(now)
                .into_iter()
                .map(|(one, other)| (one.to_string(), other.to_string()))
                .collect(),
            stretch_s: STRETCH_S,
        }
    }

    /// Deals `present` out to so many lanes so that few leave the lane they are in. The
    /// evening takes place anyway: a limit that can't be kept is relaxed by as little
    /// as possible, and the coach is told. `None` where even that does not help.
    pub fn draw(&mut self, view: &View<'_>, present: &[Name], lanes: Lane) -> Option<DrawnAnew> {
        let before: BTreeMap<String, Lane> =
            self.kept.places().into_iter().map(|(name, lane)| (name.to_string(), lane)).collect();
        let mut evening = self.for_lanes(view, present, lanes);
        in_order_of_pace(&mut evening);
        let mut relaxed = Vec::new();
        // A pin each, and one of every other kind.
        for _ in 0..evening.swimmers.len() + 6 {
            match redraw(&evening, &before) {
                Ok(redraw) => {
                    self.take(&redraw);
                    return Some(DrawnAnew { redraw, relaxed });
                }
                Err(shortfall) => {
                    relax(&mut evening, &shortfall);
                    relaxed.push(shortfall);
                }
            }
        }
        None
    }

    /// The lanes as drawn; each keeps what it swims.
    fn take(&mut self, redraw: &Redraw) {
        let mut before = std::mem::take(&mut self.kept.lanes);
        for drawn in &redraw.draw.lanes {
            let swimmers: Vec<Name> =
                drawn.swimmers.iter().filter_map(|one| Name::new(&one.name).ok()).collect();
            let was = before.iter().position(|lane| lane.lane == drawn.lane);
            let was = was.map(|at| before.swap_remove(at));
            let (session, mut own) =
                was.map_or_else(Default::default, |was| (was.session, was.own));
            own.retain(|name, _| swimmers.contains(name));
            self.kept.lanes.push(LaneKept { lane: drawn.lane, swimmers, session, own });
        }
    }
}

impl View<'_> {
    /// How many lanes a night has: as asked for, as booked, as last time, else as
    /// many as it takes for few in each.
    pub fn lanes_there(&self, tonight: &Tonight, present: usize) -> Lane {
        let known = self.lanes_known(tonight);
        let few = present.div_ceil(FEW).clamp(2, MOST_UNBOOKED).min(present.max(1));
        let few = || u8::try_from(few).ok().and_then(|few| Lane::new(few).ok());
        known.or_else(few).unwrap_or(Lane::FIRST)
    }

    /// How many lanes a night has, where anything tells it.
    pub fn lanes_known(&self, tonight: &Tonight) -> Option<Lane> {
        let asked = tonight.kept.asked.and_then(|count| Lane::new(count).ok());
        let booked = tonight.booking.lanes.and_then(|count| Lane::new(count).ok());
        asked.or(booked).or_else(|| self.squad.lanes_last_drawn(tonight.on, self.now()))
    }

    /// Where their tests put them, else where the coach guessed a guest to be.
    pub fn known_pace_of(&self, name: &Name, course: Course) -> KnownPace {
        let tested = self.swimmer(name).map(|swimmer| self.facts_of_pace(swimmer));
        let tested = tested.map_or(KnownPace::Unknown, |facts| known_pace(&facts, course));
        let guess = || self.swimmer(name)?.guest?.guess;
        match tested {
            KnownPace::Unknown => guess().map_or(KnownPace::Unknown, KnownPace::Guessed),
            known => known,
        }
    }
}

/// What of the set asks for more than easy swimming: in the main part. A send-off
/// that the coach said for all lanes is theirs; others go with the lane.
fn repeats(kept: &EveningKept) -> Vec<LaneRepeat> {
    let Some(middle) = kept.middle() else { return Vec::new() };
    let main = middle.blocks.iter().filter(|block| block.part == Part::Main);
    let lines = main.flat_map(|block| block.repeats.iter().map(|line| (block.rounds, line)));
    let said = |line: &Repeat| {
        kept.said.iter().any(|said| {
            said.lane.is_none() && said.distance == line.distance && Some(said.on) == line.send_off
        })
    };
    lines
        .filter(|(_, line)| line.level > Level::Easy)
        .map(|(rounds, line)| LaneRepeat {
            count: line.count.saturating_mul(rounds),
            distance: line.distance,
            level: line.level,
            send_off: line.send_off.filter(|_| said(line)),
        })
        .collect()
}

fn usual(course: Course) -> Vec<LaneRepeat> {
    let distances = USUAL.into_iter().filter_map(|far| Distance::new(far, course.unit()).ok());
    let repeat =
        |distance| LaneRepeat { count: 1, distance, level: Level::Threshold, send_off: None };
    distances.map(repeat).collect()
}

fn relax(evening: &mut Evening, shortfall: &Shortfall) {
    match shortfall {
        Shortfall::NoLane { name, .. } => drop(evening.pins.remove(name)),
        Shortfall::TooMany { capacity, .. } => {
            evening.capacity = u16::try_from(*capacity).unwrap_or(u16::MAX);
        }
        Shortfall::LaneFull { pinned, .. } => {
            evening.capacity = u16::try_from(*pinned).unwrap_or(u16::MAX);
        }
        Shortfall::Apart { give_up } => evening.apart.retain(|pair| !give_up.contains(pair)),
        Shortfall::Room { stretch_s } => evening.stretch_s = *stretch_s,
        Shortfall::Lapped { longest, stretch_s } => {
            evening.stretch_s = *stretch_s;
            let longest = *longest;
            for repeat in &mut evening.set {
                if repeat.distance.amount() > longest.amount() {
                    repeat.distance = longest;
                }
            }
        }
    }
}
