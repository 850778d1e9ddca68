//! What is swum tonight: the whole set by lanes for whoever runs the evening, one
//! lane with each one's times, and a swimmer's own.

use jiff::civil::Date;

use super::tonight::Tonight;
use super::who_swims::Part;
use super::{heats, test_night};
use crate::coaching::evening::for_swimmer;
use crate::desk::decision::desk::Desk;
use crate::desk::decision::kept_for_why::main_of;
use crate::desk::decision::refusing::{Stopped, refusal, refused};
use crate::desk::decision::view::View;
use crate::desk::known::facts::facts;
use crate::desk::plans::sessions;
use crate::history::{Reasons, Right};
use crate::message::{Name, Statement};
use crate::reply::{CautionKind, CautionReply, OkReply, Outcome, RefusedWhy, SessionReply};

/// `tonight`, `my lane`: to a coach the whole set by lanes; to a swimmer, alone, their
/// lane's version with their own times to hold, or the gentle one. On a test night the
/// heats.
pub fn tonight(desk: &mut Desk<'_>, statement: &Statement) -> Result<Outcome, Stopped> {
    if statement.who.is_none() && desk.me().is_none() && desk.may(Right::RunEvening) {
        return whole(desk);
    }
    let who = desk.subject(statement)?;
    of_one(desk, statement, &who)
}

/// `L2`, `tonight L2`: one lane whole, with each swimmer's time for each part.
pub fn lane(desk: &mut Desk<'_>, lane: u8) -> Result<Outcome, Stopped> {
    desk.demand(Right::RunEvening)?;
    let on = desk.night_shown();
    let tonight = desk.settled(on);
    let kept = tonight.kept.lane(lane);
    kept.ok_or_else(|| refused("no_lane", RefusedWhy::NoLane { lane }))?;
    let told = tonight.told(desk, Some(lane));
    match told.lanes.is_empty() {
        true => Ok(Outcome::Lanes(tonight.lanes_told(desk, Vec::new()))),
        false => Ok(Outcome::Evening(told)),
    }
}

/// The set of the night as it stands, by lanes, and its heats where it is a test
/// night.
pub fn whole(desk: &mut Desk<'_>) -> Result<Outcome, Stopped> {
    let on = desk.night_shown();
    let tonight = desk.settled(on);
    let heats = heats::called_for(desk, on)
        .map(|distance| Outcome::Ok(OkReply::TestNight(test_night::told(desk, on, distance))));
    let set = tonight.kept.has_set().then(|| Outcome::Evening(tonight.told(desk, None)));
    match (heats, set) {
        (Some(heats), Some(set)) => Ok(Outcome::Mixed(vec![heats, set])),
        (Some(heats), None) => Ok(heats),
        (None, Some(set)) => Ok(set),
        (None, None) => Err(refused("no_set", RefusedWhy::NoSetYet)),
    }
}

fn of_one(desk: &mut Desk<'_>, statement: &Statement, who: &Name) -> Result<Outcome, Stopped> {
    let on = desk.night_shown();
    let tonight = desk.settled(on);
    let part = desk.swimmer(who).map(|one| desk.part_in(one, on, &tonight.booking));
    let part = part.unwrap_or(Part::Out);
    swims_on(desk, statement, who, on)?;
    let place = test_night::place_of(desk, on, who).map(OkReply::HeatOf).map(Outcome::Ok);
    if !tonight.kept.has_set() {
        return match place {
            Some(place) => Ok(place),
            // On a night of the squad its set comes first, and is not written yet.
            None if desk.squad.night(on, desk.now()).is_some() => {
                Err(refused("no_set", RefusedWhy::NoSetYet))
            }
            None => sessions::alone(desk, who),
        };
    }
    let session = match part {
        Part::Swims | Part::Unseen => own_session(desk, &tonight, who)?,
        Part::Out | Part::Done | Part::Stopped => {
            let who = desk.not_me(who);
            return Ok(Outcome::Ok(OkReply::NotTonight { who, on, done: part == Part::Done }));
        }
    };
    Ok(match place {
        Some(place) => Outcome::Mixed(vec![place, session]),
        None => session,
    })
}

/// Their lane's version of a night's set; none where the night has no set.
pub fn own_set(desk: &mut Desk<'_>, who: &Name, on: Date) -> Result<Option<Outcome>, Stopped> {
    let tonight = desk.tonight(on);
    match tonight.kept.has_set() {
        true => own_session(desk, &tonight, who).map(Some),
        false => Ok(None),
    }
}

/// Their lane's version. Who was not seen yet gets the middle lane's, without a lane.
fn own_session(desk: &mut Desk<'_>, tonight: &Tonight, who: &Name) -> Result<Outcome, Stopped> {
    let lane = tonight.kept.lane_of(who);
    let version = lane.and_then(|lane| lane.session_of(who)).or_else(|| tonight.kept.middle());
    let version = version.ok_or_else(|| refused("no_set", RefusedWhy::NoSetYet))?;
    let lane = lane.map(|lane| lane.lane.number());
    let facts = facts(desk, who)?;
    let course = tonight.booking.course;
    let session = for_swimmer(desk.asked.book, version, &facts, course).map_err(refusal)?;
    desk.keep_reasons(Reasons::of(&session).with_main(main_of(who, [&session])));
    let unseen = lane.is_none();
    Ok(Outcome::Session(SessionReply { lane, unseen, ..sessions::told(session) }))
}

/// Cautions somebody who swims no more on that night: they have no place in any lane.
pub fn swims_on(
    view: &View<'_>,
    statement: &Statement,
    who: &Name,
    on: Date,
) -> Result<(), Stopped> {
    if !view.squad.is_done_by_name(who, on, view.now()) {
        return Ok(());
    }
    let stopped = view.swimmer(who).is_some_and(|swimmer| swimmer.is_stopped(view.now()));
    let kind = if stopped { CautionKind::Stopped } else { CautionKind::DoneToday };
    let about = statement.who.clone();
    Err(Box::new(Outcome::Caution(CautionReply { kind, about })))
}
