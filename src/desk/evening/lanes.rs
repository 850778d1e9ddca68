//! Who swims where tonight, by the coach's word: drawn, moved, leading, apart.
//!
//! Each is a change of the evening's one value, and answers with what it changed.

use jiff::civil::Date;

use super::draw::DrawnAnew;
use super::tonight::Tonight;
use super::who_swims::Part;
use crate::coaching::lanes::{Gap, Shortfall};
use crate::desk::decision::desk::Desk;
use crate::desk::decision::refusing::{Stopped, refused};
use crate::desk::decision::view::View;
use crate::desk::decision::who::coached;
use crate::desk::known::nights::line;
use crate::history::{EveningBy, Event, LaneKept, Parting, Right, SlotSaid, TimetableChange};
use crate::message::{Name, Statement};
use crate::reply::{LanesReply, NightLine, OkReply, Outcome, RefusedWhy, When};
use crate::units::Lane;

/// `lanes 4` draws four lanes for the next night. `lanes` alone draws as many as the
/// night has, or as last time; once somebody was told their lane, it only shows them.
pub fn draw(desk: &mut Desk<'_>, count: Option<u8>) -> Result<Outcome, Stopped> {
    desk.demand(Right::RunEvening)?;
    let now = desk.now();
    let on = desk.squad.next_night(desk.evening(), now).map_or(desk.evening(), |night| night.on);
    let mut tonight = desk.tonight(on);
    // Whoever was told of a lane stays in it: asking draws none anew.
    if tonight.kept.is_told() && count.is_none() && tonight.kept.swimmers().next().is_some() {
        let by = if tonight.kept.drawn { EveningBy::People } else { EveningBy::Lanes };
        tonight.kept.drawn = true;
        let tonight = desk.keep(tonight, by);
        return Ok(Outcome::Lanes(tonight.lanes_told(desk, Vec::new())));
    }
    let asked = count.and_then(|count| Lane::new(count).ok());
    let lanes = asked.or_else(|| desk.lanes_known(&tonight));
    let lanes = lanes.ok_or_else(|| refused("lane_count", RefusedWhy::LaneCount))?;
    let (tonight, DrawnAnew { redraw, relaxed }) = drawn(desk, tonight, lanes, count)?;
    let told = LanesReply { relaxed, ..tonight.lanes_told(desk, redraw.moved) };
    Ok(Outcome::Lanes(told))
}

/// `lost a lane`: tonight has one lane fewer than it had.
pub fn lane_gone(desk: &mut Desk<'_>) -> Result<Outcome, Stopped> {
    desk.demand(Right::RunEvening)?;
    let on = desk.evening();
    if desk.squad.night(on, desk.now()).is_none() {
        return Err(refused("no_night", RefusedWhy::NoNight { on }));
    }
    let tonight = desk.tonight(on);
    let there = tonight.kept.lanes.last().map(|lane| lane.lane);
    let there = there.or_else(|| desk.lanes_known(&tonight));
    let fewer = there.and_then(|lanes| lanes.number().checked_sub(1));
    let fewer = fewer.and_then(|lanes| Lane::new(lanes).ok());
    let lanes = fewer.ok_or_else(|| refused("nothing", RefusedWhy::Nothing))?;
    let slot = SlotSaid { lanes: Some(lanes.number()), ..SlotSaid::default() };
    desk.record(Event::TimetableChanged { on, change: TimetableChange::Once { slot } });
    let night = desk.squad.night(on, desk.now());
    let night = night.ok_or_else(|| refused("no_night", RefusedWhy::NoNight { on }))?;
    // The hours are as they were.
    let night = NightLine { starts: None, ends: None, ..line(desk, When::On(on), &night) };
    let changed = drawn_otherwise(desk, tonight, lanes, night.clone());
    Ok(changed.unwrap_or_else(|| Outcome::Ok(OkReply::Timetable(vec![night]))))
}

/// Tonight's lanes after the timetable changed their number; none where nothing was
/// drawn or set yet.
pub fn as_many_as_booked(
    desk: &mut Desk<'_>,
    on: Date,
    lanes: u8,
    night: NightLine,
) -> Option<Outcome> {
    let tonight = desk.tonight(on);
    let count = Lane::new(lanes).ok()?;
    let told = tonight.kept.is_told();
    let same = tonight.kept.lanes.len() == usize::from(lanes);
    if !told || same {
        return None;
    }
    drawn_otherwise(desk, tonight, count, night)
}

/// Another number of lanes, and what became of those who swim in them; none where
/// nobody does.
fn drawn_otherwise(
    desk: &mut Desk<'_>,
    tonight: Tonight,
    lanes: Lane,
    night: NightLine,
) -> Option<Outcome> {
    let before = tonight.clone();
    let (tonight, drawn) = drawn(desk, tonight, lanes, Some(lanes.number())).ok()?;
    let mut told = tonight.changes_told(desk, &before);
    (told.night, told.relaxed) = (Some(night), drawn.relaxed);
    Some(Outcome::Ok(OkReply::LanesChanged(told)))
}

/// The lanes drawn anew with the fewest moved, and the set dealt out to them.
fn drawn(
    desk: &mut Desk<'_>,
    mut tonight: Tonight,
    lanes: Lane,
    asked: Option<u8>,
) -> Result<(Tonight, DrawnAnew), Stopped> {
    let on = tonight.on;
    let present = desk.swimming(on, &tonight.booking);
    if present.is_empty() {
        return Err(refused("nobody_there", RefusedWhy::NobodyThere));
    }
    let before = tonight.kept.lanes.clone();
    tonight.kept.asked = asked.or(tonight.kept.asked);
    tonight.kept.drawn = true;
    // Nobody stays in a lane that is gone.
    tonight.kept.placed.retain(|_, lane| *lane <= lanes);
    let drawn = tonight.draw(desk, &present, lanes);
    let drawn = drawn.ok_or_else(|| refused("lanes", RefusedWhy::Nothing))?;
    tonight.deal(desk, &before);
    Ok((desk.keep(tonight, EveningBy::Lanes), drawn))
}

/// `heron lane 2`, `heron any lane`: from now on, every night.
pub fn pin(
    desk: &mut Desk<'_>,
    statement: &Statement,
    lane: Option<u8>,
) -> Result<Outcome, Stopped> {
    let who = coached(desk, Right::RunEvening, statement)?;
    let lane = lane.and_then(|lane| Lane::new(lane).ok());
    desk.record(Event::LanePinned { who: who.clone(), lane });
    let mut tonight = desk.tonight(desk.evening());
    let told = tonight.kept.is_told();
    if !told || desk.is_over(tonight.on, &tonight.booking) {
        return Ok(Outcome::Ok(OkReply::Pinned { who, lane }));
    }
    if let Some(to) = lane.filter(|to| tonight.kept.lanes.iter().any(|one| one.lane == *to))
        && tonight.kept.lane_of(&who).is_some_and(|lane| lane.lane != to)
    {
        let names = [(who, to)];
        return placed(desk, tonight, &names);
    }
    if lane.is_none() && tonight.kept.lane_of(&who).is_some() {
        let before = tonight.clone();
        tonight.place_by_pace(desk, &who);
        tonight.deal(desk, &before.kept.lanes);
        let tonight = desk.keep(tonight, EveningBy::Lanes);
        return Ok(changed(desk, &tonight, &before, Vec::new()));
    }
    Ok(Outcome::Ok(OkReply::Pinned { who, lane }))
}

/// `wren up to 2`, `plover n robin down one`: tonight.
pub fn moved(
    desk: &mut Desk<'_>,
    names: &[Name],
    lane: Option<u8>,
    by: i8,
) -> Result<Outcome, Stopped> {
    let tonight = running(desk, names)?;
    let to = |name: &Name| {
        let from = tonight.kept.lane_of(name).map(|lane| lane.lane.number());
        let to = match lane {
            Some(lane) => lane,
            None => from.ok_or_else(|| not_laned(name))?.saturating_add_signed(by),
        };
        lane_there(&tonight, to)
    };
    let places = names.iter().map(|name| Ok((name.clone(), to(name)?)));
    let places: Vec<(Name, Lane)> = places.collect::<Result<_, Stopped>>()?;
    placed(desk, tonight, &places)
}

/// `swap heron and rook`: each in the other's lane.
pub fn swapped(desk: &mut Desk<'_>, names: &[Name; 2]) -> Result<Outcome, Stopped> {
    let tonight = running(desk, names)?;
    let lane = |name: &Name| {
        let lane = tonight.kept.lane_of(name).map(|lane| lane.lane);
        lane.ok_or_else(|| not_laned(name))
    };
    let places = [(names[0].clone(), lane(&names[1])?), (names[1].clone(), lane(&names[0])?)];
    placed(desk, tonight, &places)
}

/// `lane 1 go teal swift finch`: who leads off, and who follows.
pub fn ordered(desk: &mut Desk<'_>, lane: Option<u8>, names: &[Name]) -> Result<Outcome, Stopped> {
    let tonight = running(desk, names)?;
    let first = names.first().ok_or_else(|| refused("nothing", RefusedWhy::Nothing))?;
    let of_first = || tonight.kept.lane_of(first).map(|lane| lane.lane);
    let lane = match lane {
        Some(lane) => lane_there(&tonight, lane)?,
        None => of_first().ok_or_else(|| not_laned(first))?,
    };
    let orders = [(lane, names.to_vec())];
    in_order(desk, tonight, &orders)
}

/// `lane one swift finch kite lane two teal heron rook …`: as the coach says.
pub fn drawn_as(desk: &mut Desk<'_>, lanes: &[(u8, Vec<Name>)]) -> Result<Outcome, Stopped> {
    let all: Vec<Name> = lanes.iter().flat_map(|(_, names)| names.clone()).collect();
    let mut tonight = running(desk, &all)?;
    let last = lanes.iter().map(|(lane, _)| *lane).max().and_then(|last| Lane::new(last).ok());
    let last = last.ok_or_else(|| refused("nothing", RefusedWhy::Nothing))?;
    for lane in last.up_to() {
        if !tonight.kept.lanes.iter().any(|one| one.lane == lane) {
            tonight.kept.lanes.push(empty(lane));
        }
    }
    tonight.kept.lanes.sort_by_key(|lane| lane.lane);
    let orders =
        lanes.iter().filter_map(|(lane, names)| Some((Lane::new(*lane).ok()?, names.clone())));
    let orders: Vec<(Lane, Vec<Name>)> = orders.collect();
    in_order(desk, tonight, &orders)
}

/// `leave 10 apart`
pub fn gap(desk: &mut Desk<'_>, seconds: u8) -> Result<Outcome, Stopped> {
    desk.demand(Right::RunEvening)?;
    let on = desk.night_shown();
    let mut tonight = desk.tonight(on);
    let before = tonight.clone();
    tonight.kept.gap = if seconds >= 10 { Gap::Ten } else { Gap::Five };
    let lanes = tonight.kept.lanes.clone();
    tonight.deal_all(desk, &lanes);
    let tonight = desk.keep(tonight, EveningBy::Lanes);
    let mut told = tonight.changes_told(desk, &before);
    told.gap = Some(tonight.kept.gap);
    Ok(Outcome::Ok(OkReply::LanesChanged(told)))
}

/// `apart heron teal`, `together heron teal`
pub fn apart(desk: &mut Desk<'_>, names: &[Name], apart: bool) -> Result<Outcome, Stopped> {
    desk.demand(Right::RunEvening)?;
    if let Some(unknown) = names.iter().find(|name| !desk.squad.swimmers.contains_key(*name)) {
        return Err(desk.who_is(unknown));
    }
    let names = names.to_vec();
    let parting = Parting { names: names.clone(), apart };
    desk.record(Event::LanesParted { parting });
    let told = Outcome::Ok(OkReply::Parted { names: names.clone(), apart });
    let mut tonight = desk.tonight(desk.evening());
    let places = tonight.kept.places();
    let share = names.iter().enumerate().any(|(at, one)| {
        let later = names.iter().skip(at + 1);
        later
            .into_iter()
            .any(|other| places.get(one).is_some_and(|lane| places.get(other) == Some(lane)))
    });
    if !apart || !share || desk.is_over(tonight.on, &tonight.booking) {
        return Ok(told);
    }
    let before = tonight.clone();
    let present: Vec<Name> = tonight.kept.swimmers().cloned().collect();
    let last = tonight.kept.lanes.last().map_or(Lane::FIRST, |lane| lane.lane);
    let Some(drawn) = tonight.draw(desk, &present, last) else { return Ok(told) };
    tonight.deal(desk, &before.kept.lanes);
    let tonight = desk.keep(tonight, EveningBy::Lanes);
    let mut told = tonight.changes_told(desk, &before);
    (told.relaxed, told.parted) = (drawn.relaxed, names);
    Ok(Outcome::Ok(OkReply::LanesChanged(told)))
}

/// The evening, for a change of those named: all of them swim here, and tonight.
/// Whom the coach puts into a lane is there, seen before or not.
fn running(desk: &mut Desk<'_>, names: &[Name]) -> Result<Tonight, Stopped> {
    desk.demand(Right::RunEvening)?;
    let on = desk.night_shown();
    let booking = desk.booking(on);
    let mut unseen = Vec::new();
    for name in names {
        let swimmer = desk.swimmer(name).ok_or_else(|| desk.who_is(name))?;
        match desk.part_in(swimmer, on, &booking) {
            Part::Swims => {}
            Part::Unseen => unseen.push(name.clone()),
            Part::Out | Part::Done | Part::Stopped => return Err(not_laned(name)),
        }
    }
    for who in unseen {
        desk.record(Event::MarkedHere { who, on });
    }
    let tonight = desk.tonight(on);
    match tonight.kept.lanes.is_empty() {
        true => Err(refused("nobody_there", RefusedWhy::NobodyThere)),
        false => Ok(tonight),
    }
}

/// Each of them into a lane, where they stay however lanes are drawn tonight.
fn placed(
    desk: &mut Desk<'_>,
    mut tonight: Tonight,
    places: &[(Name, Lane)],
) -> Result<Outcome, Stopped> {
    let before = tonight.clone();
    let present: Vec<Name> = tonight.kept.swimmers().cloned().collect();
    let last = tonight.kept.lanes.last().map_or(Lane::FIRST, |lane| lane.lane);
    let evening = tonight.for_lanes(desk, &present, last);
    for (name, to) in places {
        tonight.put(&evening, name, *to);
        tonight.kept.placed.insert(name.clone(), *to);
    }
    tonight.kept.drawn = true;
    tonight.deal(desk, &before.kept.lanes);
    let tonight = desk.keep(tonight, EveningBy::Lanes);
    Ok(changed(desk, &tonight, &before, Vec::new()))
}

/// Those named first in their lanes, in that order, the others behind them.
fn in_order(
    desk: &mut Desk<'_>,
    mut tonight: Tonight,
    orders: &[(Lane, Vec<Name>)],
) -> Result<Outcome, Stopped> {
    let before = tonight.clone();
    let named: Vec<&Name> = orders.iter().flat_map(|(_, names)| names).collect();
    for lane in &mut tonight.kept.lanes {
        lane.swimmers.retain(|one| !named.contains(&one));
        if let Some((_, names)) = orders.iter().find(|(number, _)| *number == lane.lane) {
            let others = std::mem::replace(&mut lane.swimmers, names.clone());
            lane.swimmers.extend(others);
        }
        let swimmers = lane.swimmers.clone();
        lane.own.retain(|name, _| swimmers.contains(name));
    }
    for (lane, names) in orders {
        for name in names {
            let was = before.kept.lane_of(name).map(|was| was.lane);
            if was != Some(*lane) {
                tonight.kept.placed.insert(name.clone(), *lane);
            }
        }
    }
    tonight.kept.drawn = true;
    tonight.deal(desk, &before.kept.lanes);
    let tonight = desk.keep(tonight, EveningBy::Lanes);
    Ok(changed(desk, &tonight, &before, Vec::new()))
}

fn changed(
    view: &View<'_>,
    tonight: &Tonight,
    before: &Tonight,
    relaxed: Vec<Shortfall>,
) -> Outcome {
    let mut told = tonight.changes_told(view, before);
    told.relaxed = relaxed;
    Outcome::Ok(OkReply::LanesChanged(told))
}

fn lane_there(tonight: &Tonight, lane: u8) -> Result<Lane, Stopped> {
    let there = tonight.kept.lane(lane).map(|kept| kept.lane);
    there.ok_or_else(|| refused("no_lane", RefusedWhy::NoLane { lane }))
}

fn not_laned(name: &Name) -> Stopped {
    refused("not_laned", RefusedWhy::NotLaned { name: name.clone() })
}

fn empty(lane: Lane) -> LaneKept {
    LaneKept { lane, swimmers: Vec::new(), session: None, own: Default::default() }
}
