//! The evening: when it is, who comes, who swims where, how far it has come.

use jiff::civil::Date;

use super::about::{is_of_one, known};
use super::swimmer::other;
use crate::coaching::evening::Position;
use crate::desk::board::set_by_clock::{LaneClock, clock};
use crate::desk::decision::desk::Desk;
use crate::desk::decision::refusing::{Stopped, refused};
use crate::desk::decision::resolve::{self, Toward};
use crate::desk::decision::view::View;
use crate::desk::evening::{answers, register};
use crate::desk::known::nights;
use crate::desk::squad::overview;
use crate::history::{Night, Right};
use crate::message::{Day, Name, SquadFilter, Statement};
use crate::reply::{
    Known, LaneStanding, NightLine, OkReply, Outcome, RefusedWhy, StandingReply, Unknown, When,
};
use crate::session::{Block, Part, Session};

/// `which lane am i in`; from who runs the evening `who is in lane 2`. A swimmer hears
/// of their own lane, and no names.
pub fn lane(
    desk: &mut Desk<'_>,
    statement: &Statement,
    lane: Option<u8>,
) -> Result<Outcome, Stopped> {
    let on = desk.night_meant(None).unwrap_or_else(|| desk.evening());
    let not_drawn = || known(Known::Not(Unknown::Lanes { on }));
    let of_lane = lane.is_some() && statement.who.is_none();
    if of_lane || !is_of_one(desk, statement) {
        desk.demand(Right::RunEvening)?;
        let mut lanes = swimmers_by_lane(desk, on);
        if lanes.is_empty() {
            return Ok(not_drawn());
        }
        if let Some(lane) = lane {
            lanes.retain(|(number, _)| *number == lane);
            if lanes.is_empty() {
                return Err(refused("no_lane", RefusedWhy::NoLane { lane }));
            }
        }
        return Ok(known(Known::Lanes { on, lanes }));
    }
    let who = desk.subject(statement)?;
    answers::swims_on(desk, statement, &who, on)?;
    Ok(match lane_of(desk, &who, on) {
        Some(lane) => known(Known::LaneOf { who: other(desk, who), on, lane }),
        None => not_drawn(),
    })
}

/// Their lane; none where nobody was told of lanes yet, or they are in none.
fn lane_of(view: &View<'_>, who: &Name, on: Date) -> Option<u8> {
    let kept = view.tonight(on).kept;
    kept.lane_of(who).filter(|_| kept.is_told()).map(|lane| lane.lane.number())
}

/// Who swims in each lane; nothing where nobody was told of lanes yet.
fn swimmers_by_lane(view: &View<'_>, on: Date) -> Vec<(u8, Vec<Name>)> {
    let kept = view.tonight(on).kept;
    let told = kept.is_told();
    let lanes = kept.lanes.into_iter().filter(|_| told);
    lanes.map(|lane| (lane.lane.number(), lane.swimmers)).collect()
}

/// `what time is it tonight`, `is it on thursday`
pub fn when(desk: &mut Desk<'_>, on: Option<Day>) -> Result<Outcome, Stopped> {
    let now = desk.now();
    let line = |night: &Night| {
        // The pool is a part of the answer, also where it is the usual one.
        NightLine { course: Some(night.course), ..nights::line(desk, When::On(night.on), night) }
    };
    let asked = match on {
        None => desk.squad.coming_night(now).map(|night| night.on),
        Some(_) => Some(desk.night_meant(on).ok_or_else(|| refused("day", RefusedWhy::Nothing))?),
    };
    let night = asked.and_then(|day| desk.squad.night(day, now));
    if let Some(night) = night {
        let night = line(&night);
        return Ok(known(Known::Evening { night, of_day: on.is_some(), next: None }));
    }
    let next = asked.and_then(|day| desk.squad.next_night(day, now)).map(|night| line(&night));
    Ok(match asked {
        Some(day) if desk.squad.is_shut(day, now) => {
            known(Known::Evening { night: NightLine::shut(day), of_day: true, next })
        }
        None if desk.may(Right::SetTimetable) => Outcome::Ok(OkReply::Timetable(vec![])),
        day => known(Known::Not(Unknown::Night { on: day, next })),
    })
}

/// `who is coming tonight`, `who was missing on monday`: said before the night, seen on
/// it.
pub fn turnout(desk: &mut Desk<'_>, on: Option<Day>, absent: bool) -> Result<Outcome, Stopped> {
    desk.demand(Right::SeeSquad)?;
    let unit = desk.squad.course.unit();
    let day = match on {
        Some(typed) => resolve::day(typed, desk.today, unit, Toward::Future)
            .ok_or_else(|| refused("day", RefusedWhy::Nothing))?,
        None => desk.night_meant(None).unwrap_or(desk.today),
    };
    // Until somebody keeps the register, who was seen is not known.
    let evening = desk.evening();
    let seen = |day: Date| {
        let kept = |name: &Name| {
            desk.swimmer(name).is_some_and(|one| one.seen_on(day, desk.now()).is_some())
        };
        desk.squad.swimmers.keys().any(kept)
    };
    let night = match on {
        None if seen(evening) => evening,
        _ => day,
    };
    if night < desk.today || absent && night <= evening && seen(night) {
        desk.demand(Right::RunEvening)?;
        let mut register = register::register(desk, night, !absent);
        if absent {
            register.left_out = register::left_out(desk, &register);
        }
        return Ok(Outcome::Ok(OkReply::Register(register)));
    }
    overview::squad(desk, Some(SquadFilter::Expected), Some(Day::Full(night)))
}

/// `what was the set on monday`: by lanes for who runs the evening, else the swimmer's
/// own version.
pub fn set_of(
    desk: &mut Desk<'_>,
    statement: &Statement,
    on: Option<Day>,
) -> Result<Outcome, Stopped> {
    let unit = desk.squad.course.unit();
    let on = match on {
        Some(typed) => resolve::day(typed, desk.today, unit, Toward::Past)
            .ok_or_else(|| refused("day", RefusedWhy::Nothing))?,
        None => desk.evening(),
    };
    let unknown = known(Known::Not(Unknown::Set { on }));
    if statement.who.is_none() && desk.may(Right::RunEvening) {
        let tonight = desk.tonight(on);
        return Ok(match tonight.kept.has_set() {
            true => Outcome::Evening(tonight.told(desk, None)),
            false => unknown,
        });
    }
    let who = desk.subject(statement)?;
    Ok(answers::own_set(desk, &who, on)?.unwrap_or(unknown))
}

/// `how many left`, `when do we finish`: every lane for who runs the evening, else the
/// swimmer's own.
pub fn standing(
    desk: &mut Desk<'_>,
    statement: &Statement,
    lane: Option<u8>,
) -> Result<Outcome, Stopped> {
    let on = desk.evening();
    let all = statement.who.is_none() && desk.may(Right::RunEvening);
    let wanted = match all {
        true => lane,
        false => {
            let who = desk.subject(statement)?;
            answers::swims_on(desk, statement, &who, on)?;
            lane_of(desk, &who, on)
        }
    };
    let clock = clock(desk, &desk.tonight(on));
    if clock.lanes.is_empty() {
        return Err(refused("no_set", RefusedWhy::NoSetYet));
    }
    let of_lane = |one: &&LaneClock| wanted.is_none_or(|lane| lane == one.lane);
    let lanes: Vec<LaneStanding> = clock.lanes.iter().filter(of_lane).map(stands).collect();
    match (lanes.as_slice(), wanted) {
        ([], Some(lane)) => Err(refused("no_lane", RefusedWhy::NoLane { lane })),
        _ => Ok(known(Known::Standing(StandingReply {
            begins: clock.starts.filter(|_| lanes.iter().all(|lane| lane.position.is_none())),
            booked_until: clock.ends,
            left_min: clock.left_min,
            lanes,
        }))),
    }
}

fn stands(lane: &LaneClock) -> LaneStanding {
    let gone = lane.elapsed_s.map_or(0, |elapsed| begun(&lane.session, elapsed));
    let mut to_come: Vec<Part> =
        lane.session.blocks.iter().skip(gone).map(|one| one.part).collect();
    to_come.dedup();
    if lane.position == Some(Position::Over) {
        to_come.clear();
    }
    LaneStanding { lane: lane.lane, position: lane.position.clone(), to_come, ends: lane.ends }
}

/// How many blocks are swum or under way, or being changed over to, so many seconds
/// after the start.
fn begun(session: &Session, elapsed_s: u32) -> usize {
    let upto = |at: &usize| {
        let blocks: Vec<Block> = session.blocks.iter().take(at + 1).cloned().collect();
        Session { blocks: blocks.into(), ..session.clone() }
    };
    let blocks = session.blocks.len();
    (0..blocks).find(|at| upto(at).duration_s() > elapsed_s).map_or(blocks, |at| at + 1)
}
