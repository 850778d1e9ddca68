//! A set in trade notation: the coach's for the squad, a swimmer's for themselves; and
//! the squad's session that we plan.

use jiff::civil::Date;
use jiff::{Timestamp, ToSpan};

use super::write::{named_in, said_for_lanes, said_in, sessions, written};
use crate::coaching::evening::{Swims, for_lane, for_swimmer};
use crate::coaching::lanes::Gap;
use crate::desk::decision::desk::Desk;
use crate::desk::decision::refusing::{Stopped, refusal, refused};
use crate::desk::decision::view::View;
use crate::desk::known::booking::Booking;
use crate::desk::known::facts::facts;
use crate::desk::known::nights::line;
use crate::desk::plans::sessions::told;
use crate::history::{EveningBy, Reasons, Right, SetSource};
use crate::message::{Day, PlanWish, Statement, TypedSet};
use crate::reply::{Outcome, RefusedWhy, When};

/// `set tue 4x50 easy, 8x50 on 1:15 hold 200 pace, 4x25 swim down`
pub fn set(desk: &mut Desk<'_>, statement: &Statement, set: &TypedSet) -> Result<Outcome, Stopped> {
    match statement.who.is_none() && desk.may(Right::RunEvening) {
        true => for_squad(desk, set),
        false => for_one(desk, statement, set),
    }
}

/// The coach's own set becomes the set of the night.
fn for_squad(desk: &mut Desk<'_>, set: &TypedSet) -> Result<Outcome, Stopped> {
    if let Some(name) = named_in(desk, set) {
        return Err(refused("set_names", RefusedWhy::SetNames { name }));
    }
    let on = night_of(desk, set)?;
    let booked = desk.booking(on).lanes.unwrap_or(u8::MAX);
    if let Some(lane) = set.lanes.iter().flat_map(|own| &own.lanes).find(|one| **one > booked) {
        return Err(refused("no_lane", RefusedWhy::NoLane { lane: *lane }));
    }
    put(desk, on, SetSource::Written(set.clone())).map(|(outcome, _)| outcome)
}

/// `plan tue`, `plan tonight`, `plan thu easy`
pub fn plan(desk: &mut Desk<'_>, wish: &PlanWish, day: Day) -> Result<Outcome, Stopped> {
    let on = desk.night_from_now(day)?;
    if desk.squad.is_shut(on, desk.now()) {
        let next = desk.squad.next_night(on, desk.now());
        let next = next.map(|night| line(desk, When::On(night.on), &night));
        return Err(refused("night_shut", RefusedWhy::NightShut { on, next }));
    }
    // What is planned when the night has begun is for the minutes that are left.
    let left = desk.booking(on).minutes_left(desk.now());
    let wish = PlanWish { minutes: wish.minutes.or(left), ..wish.clone() };
    let (outcome, rules) = put(desk, on, SetSource::Planned(wish))?;
    let without = match &outcome {
        Outcome::Evening(told) => told.without.clone(),
        _ => Vec::new(),
    };
    desk.keep_reasons(Reasons::rules(rules, without));
    Ok(outcome)
}

/// Puts a set in force for the night, and tells it by lanes; with the rules that
/// decided it.
fn put(
    desk: &mut Desk<'_>,
    on: Date,
    source: SetSource,
) -> Result<(Outcome, Vec<String>), Stopped> {
    let mut tonight = desk.tonight(on);
    if tonight.kept.lanes.is_empty() {
        tonight.with_nobody();
    }
    let begun = begins_late(desk, on, &tonight.booking);
    tonight.kept.said = match &source {
        SetSource::Written(set) => said_in(set, tonight.booking.course),
        SetSource::Planned(_) => Vec::new(),
    };
    let written = sessions(desk, &tonight, &source)?;
    let rules = written.values().next().map(|session| session.rules.clone());
    tonight.swim(written);
    if let SetSource::Written(set) = &source {
        let said = said_for_lanes(&tonight, set);
        tonight.kept.said.extend(said);
    }
    tonight.kept.source = Some(source);
    (tonight.kept.edited, tonight.kept.begun) = (false, begun);
    // Whoever swims it has swum nothing of it.
    tonight.kept.otherwise.clear();
    tonight.kept.gone.clear();
    desk.keep(tonight, EveningBy::Set);
    let tonight = desk.as_kept(on);
    Ok((Outcome::Evening(tonight.told(desk, None)), rules.unwrap_or_default()))
}

/// A set sent this soon after another corrects it, and is no new one (ours).
const PUT_RIGHT_MIN: i64 = 5;

/// When a set begins that is put after the night has begun: now, or when the set began
/// that it corrects.
fn begins_late(view: &View<'_>, on: Date, booking: &Booking) -> Option<Timestamp> {
    let now = view.now();
    let before = view.squad.evenings.latest_on(on, now).filter(|before| before.what.has_set());
    let put_right = before
        .filter(|before| before.at >= now.saturating_sub(PUT_RIGHT_MIN.minutes()).unwrap_or(now));
    match put_right {
        Some(before) => before.what.begun,
        None => Some(now).filter(|_| booking.minutes_left(now).is_some()),
    }
}

/// A swimmer's own set: their times to hold and their send-offs, stored nowhere.
fn for_one(view: &View<'_>, statement: &Statement, set: &TypedSet) -> Result<Outcome, Stopped> {
    let who = view.subject(statement)?;
    let facts = facts(view, &who)?;
    let on = night_of(view, set)?;
    let alone = [&facts];
    let swims = Swims { swimmers: &alone, course: facts.course, gap: Gap::default() };
    let session = for_lane(&written(set, facts.course)?, &swims, on);
    let session = session.ok_or_else(|| refused("nothing", RefusedWhy::Nothing))?;
    let session = for_swimmer(view.asked.book, &session, &facts, facts.course);
    Ok(Outcome::Session(told(session.map_err(refusal)?)))
}

/// The night a set is for: as said, else tonight or the next.
fn night_of(view: &View<'_>, set: &TypedSet) -> Result<Date, Stopped> {
    match set.on {
        Some(day) => view.night_from_now(day),
        None => Ok(view.night_meant(None).unwrap_or(view.evening())),
    }
}
