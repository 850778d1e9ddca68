//! Lanes: who swims where tonight, the coach's pins and partings.

use std::collections::BTreeMap;

use jiff::civil::Date;

use super::bench::{Desk, Stopped, refused};
use super::care::coached;
use super::redealt::{redealt, with_set};
use crate::coaching::lanes::{
    Entrant, Evening, Gap, LaneRepeat, OneMove, Redraw, Shortfall, Standing, move_worth_making,
    redraw, standing,
};
use crate::message::{Name, Statement};
use crate::profile::{Event, LaneOrder, LanesDrawn, Parting, Presence, Right, SquadSet, Swimmer};
use crate::reply::{LanesReply, OkReply, Outcome, RefusedWhy};
use crate::session::Part;
use crate::units::{Course, Distance, Lane, Level};

/// How many a lane has good room for: in a 50 m pool half as many again (ours).
const CAPACITY: u16 = 8;
const CAPACITY_LONG: u16 = 12;
/// How many seconds longer a send-off may be than the pace needs, so that a
/// lane has room, before it counts as giving way (ours).
const STRETCH_S: u32 = 30;
/// Where no set is in force, lanes are drawn for repeats of these at threshold.
const USUAL: [u32; 2] = [50, 100];

/// `lanes 4` for the next night; `lanes` alone draws as many as it has, else as
/// many as last time.
pub fn draw(desk: &mut Desk<'_>, count: Option<u8>) -> Result<Outcome, Stopped> {
    desk.demand(Right::RunEvening)?;
    let now = desk.now();
    let night = desk.squad.next_night(desk.evening(), now);
    let on = night.map_or_else(|| desk.evening(), |night| night.on);
    let booked = night.and_then(|night| Lane::new(night.lanes?).ok());
    let last = || desk.squad.lanes_last_drawn(on, now).and_then(|drawn| drawn.count());
    let asked = count.or_else(|| desk.squad.lanes_drawn(on, now).and_then(|drawn| drawn.asked));
    let fewer = |asked: Lane| booked.map_or(asked, |booked| asked.min(booked));
    let asked = asked.and_then(|count| Lane::new(count).ok());
    let lanes = match count {
        Some(_) => asked,
        // Of those, one may have been lost since.
        None => asked.map(fewer),
    };
    let asked = lanes.map(Lane::number);
    let lanes = lanes
        .or(booked)
        .or_else(last)
        .ok_or_else(|| refused("lane_count", RefusedWhy::LaneCount))?;
    let (out, present) = there(desk, on);
    let is_stopped =
        |name: &Name| desk.swimmer(name).is_some_and(|swimmer| swimmer.is_stopped(now));
    let (stopped, done): (Vec<Name>, Vec<Name>) = out.into_iter().partition(is_stopped);
    if present.is_empty() {
        return Err(refused("nobody_there", RefusedWhy::NobodyThere));
    }
    let before = desk.squad.lanes_drawn(on, now).as_ref().map(places).unwrap_or_default();
    let mut evening = evening(desk, on, &present, lanes);
    let (redrawn, relaxed) =
        drawn(&mut evening, &before).ok_or_else(|| refused("lanes", RefusedWhy::Nothing))?;
    let drawn = kept(on, asked, &redrawn);
    let advice = move_worth_making(&evening, &places(&drawn));
    desk.record(Event::LanesDrawn { drawn });
    redealt(desk, on);
    let focus = focus(desk, &redrawn);
    let careful = present.into_iter().filter(|name| is_careful(desk, name)).collect();
    Ok(Outcome::Lanes(LanesReply {
        on,
        lanes: with_set(desk, on, redrawn.draw.lanes),
        moved: redrawn.moved,
        relaxed,
        advice,
        stopped,
        done,
        careful,
        focus,
    }))
}

/// The coach's words to each who swims, in the order of the lanes.
fn focus(desk: &Desk<'_>, redrawn: &Redraw) -> Vec<(Name, String)> {
    let placed = redrawn.draw.lanes.iter().flat_map(|lane| &lane.swimmers);
    let known = placed.filter_map(|one| desk.swimmer(&Name::new(&one.name).ok()?));
    let told = known.filter_map(|swimmer| {
        let focus = swimmer.focus_at(desk.now())?;
        Some((swimmer.name.clone(), focus.clone()))
    });
    told.collect()
}

/// `heron lane 2`, `heron any lane`
pub fn pin(
    desk: &mut Desk<'_>,
    statement: &Statement,
    lane: Option<u8>,
) -> Result<Outcome, Stopped> {
    let who = coached(desk, Right::RunEvening, statement)?;
    let lane = lane.and_then(|lane| Lane::new(lane).ok());
    desk.record(Event::LanePinned { who: who.clone(), lane });
    Ok(Outcome::Ok(OkReply::Pinned { who, lane }))
}

/// `apart heron teal`, `together heron teal`
pub fn apart(desk: &mut Desk<'_>, names: &[Name], apart: bool) -> Result<Outcome, Stopped> {
    desk.demand(Right::RunEvening)?;
    if let Some(unknown) = names.iter().find(|name| !desk.squad.swimmers.contains_key(*name)) {
        return Err(desk.who_is(unknown));
    }
    let names = names.to_vec();
    desk.record(Event::LanesParted { parting: Parting { names: names.clone(), apart } });
    Ok(Outcome::Ok(OkReply::Parted { names, apart }))
}

/// Who is there, those who are done apart: the register's if it was begun, else
/// those to look for.
pub fn there(desk: &Desk<'_>, on: Date) -> (Vec<Name>, Vec<Name>) {
    let now = desk.now();
    let begun = desk.squad.here_on(on, now).next().is_some();
    let expected: Vec<&Name> =
        desk.squad.expected_on(on, now).map(|swimmer| &swimmer.name).collect();
    let is_there = |swimmer: &Swimmer| match (begun, swimmer.seen_on(on, now)) {
        (_, Some(seen)) => seen == Presence::Here,
        (true, None) => false,
        // Nobody looks for whoever is stopped; here she is to be told of.
        (false, None) => {
            expected.contains(&&swimmer.name)
                || (swimmer.is_stopped(now) && !swimmer.is_away(on, now))
        }
    };
    let swimmers = desk.squad.swimmers.values().map(AsRef::as_ref);
    let (stopped, present): (Vec<&Swimmer>, Vec<&Swimmer>) = swimmers
        .filter(|swimmer| is_there(swimmer))
        .partition(|swimmer| desk.squad.is_done(swimmer, on, now));
    let names = |swimmer: &Swimmer| swimmer.name.clone();
    (stopped.into_iter().map(names).collect(), present.into_iter().map(names).collect())
}

/// The lanes last drawn for `on`, the gap they leave in, and the one move worth
/// making among those who are there; none where none were drawn.
pub fn as_drawn(desk: &Desk<'_>, on: Date) -> Option<(LanesDrawn, Gap, Option<OneMove>)> {
    let drawn = desk.squad.lanes_drawn(on, desk.now())?;
    let (_, present) = there(desk, on);
    let evening = evening(desk, on, &present, drawn.count()?);
    let advice = move_worth_making(&evening, &places(&drawn));
    Some((drawn, evening.gap, advice))
}

/// Something is open that makes her swim easy.
fn is_careful(desk: &Desk<'_>, name: &Name) -> bool {
    desk.swimmer(name).is_some_and(|swimmer| swimmer.open_troubles(desk.now()).next().is_some())
}

fn evening(desk: &Desk<'_>, on: Date, present: &[Name], lanes: Lane) -> Evening {
    let now = desk.now();
    let course = desk.booking(on).course;
    let entrant =
        |name: &Name| Entrant { name: name.to_string(), standing: standing_of(desk, name, course) };
    let pinned = |name: &Name| {
        let lane = (*desk.swimmer(name)?.lane.at(now)?)?;
        Some((name.to_string(), lane))
    };
    let set = desk.set_in_force(on).as_ref().map(repeats).filter(|set| !set.is_empty());
    Evening {
        swimmers: present.iter().map(entrant).collect(),
        lanes,
        capacity: if course == Course::Long50m { CAPACITY_LONG } else { CAPACITY },
        gap: Gap::Five,
        course,
        set: set.unwrap_or_else(|| usual(course)),
        pins: present.iter().filter_map(pinned).collect(),
        apart: desk
            .squad
            .partings(now)
            .into_iter()
            .map(|(one, other)| (one.to_string(), other.to_string()))
            .collect(),
        stretch_s: STRETCH_S,
    }
}

/// Where her tests put her, else where the coach guessed a guest to be.
pub fn standing_of(desk: &Desk<'_>, name: &Name, course: Course) -> Standing {
    let tested = desk.facts(name).map_or(Standing::Unknown, |facts| standing(&facts, course));
    let guess = || desk.swimmer(name)?.guest?.guess;
    match tested {
        Standing::Unknown => guess().map_or(Standing::Unknown, Standing::Guessed),
        known => known,
    }
}

/// The main part of the set in force. A send-off that is the same in every lane
/// is the coach's own; others go with the lane.
fn repeats(set: &SquadSet) -> Vec<LaneRepeat> {
    let Some(middle) = set.middle() else { return Vec::new() };
    let lines = |session: &crate::session::Session| -> Vec<_> {
        let main = session.blocks.iter().filter(|block| block.part == Part::Main);
        main.flat_map(|block| block.repeats.iter().map(|line| (block.rounds, line.clone())))
            .collect()
    };
    let versions: Vec<_> = set.lanes.iter().map(|lane| lines(&lane.session)).collect();
    let shared = |at: usize, send_off| {
        let same = versions
            .iter()
            .all(|lines| lines.get(at).is_some_and(|(_, line)| line.send_off == send_off));
        send_off.filter(|_| same && versions.len() > 1)
    };
    lines(&middle.session)
        .into_iter()
        .enumerate()
        .filter(|(_, (_, line))| line.level > Level::Easy)
        .map(|(at, (rounds, line))| LaneRepeat {
            count: line.count.saturating_mul(rounds),
            distance: line.distance,
            level: line.level,
            send_off: shared(at, line.send_off),
        })
        .collect()
}

fn usual(course: Course) -> Vec<LaneRepeat> {
    let distances = USUAL.into_iter().filter_map(|far| Distance::new(far, course.unit()).ok());
    let repeat =
        |distance| LaneRepeat { count: 1, distance, level: Level::Threshold, send_off: None };
    distances.map(repeat).collect()
}

/// The lanes, and what had to give way for them: tonight is swum, so each limit
/// that can't be kept gives way by the least that is enough, and is told.
fn drawn(
    evening: &mut Evening,
    before: &BTreeMap<String, Lane>,
) -> Option<(Redraw, Vec<Shortfall>)> {
    let mut relaxed = Vec::new();
    // A pin each, and one of every other kind.
    for _ in 0..evening.swimmers.len() + 6 {
        match redraw(evening, before) {
            Ok(redrawn) => return Some((redrawn, relaxed)),
            Err(shortfall) => {
                relax(evening, &shortfall);
                relaxed.push(shortfall);
            }
        }
    }
    None
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

fn kept(on: Date, asked: Option<u8>, redrawn: &Redraw) -> LanesDrawn {
    let lanes = redrawn.draw.lanes.iter().map(|lane| LaneOrder {
        lane: lane.lane,
        swimmers: lane.swimmers.iter().filter_map(|one| Name::new(&one.name).ok()).collect(),
    });
    LanesDrawn { on, lanes: lanes.collect(), asked }
}

/// The lane of each swimmer.
fn places(drawn: &LanesDrawn) -> BTreeMap<String, Lane> {
    let orders = drawn.lanes.iter();
    orders
        .flat_map(|order| order.swimmers.iter().map(|name| (name.to_string(), order.lane)))
        .collect()
}
