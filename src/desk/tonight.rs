//! One's own lane of tonight's set: `tonight`, `my lane`.

use jiff::civil::Date;

use super::bench::{Desk, Stopped, refused};
use super::coach_set;
use super::results::facts;
use super::sessions::{self, refusal};
use crate::coaching::evening::for_swimmer;
use crate::coaching::is_hard;
use crate::message::{Name, Statement};
use crate::profile::{Reasons, Right};
use crate::reply::{CautionKind, CautionReply, Outcome, RefusedWhy, SessionReply};

/// The coach's is the whole set by lanes; a swimmer's her lane's version with her own times to hold, or the gentle one, told to her
/// alone.
pub fn tonight(desk: &mut Desk<'_>, statement: &Statement) -> Result<Outcome, Stopped> {
    if statement.who.is_none() && desk.me().is_none() && desk.may(Right::RunEvening) {
        return coach_set::in_force(desk);
    }
    let who = desk.subject(statement)?;
    let on = desk.evening();
    swims_on(desk, statement, &who, on)?;
    let set = own_set(desk, &who, on)?;
    match set {
        Some(set) => Ok(set),
        // On a night of the squad its set comes first, and is not written yet.
        None if desk.squad.night(on, desk.now()).is_some() => {
            Err(refused("no_set", RefusedWhy::NoSetYet))
        }
        None => sessions::alone(desk, &who),
    }
}

/// Her lane's version of a night's set; none where the night has no set.
pub fn own_set(desk: &mut Desk<'_>, who: &Name, on: Date) -> Result<Option<Outcome>, Stopped> {
    let Some(lane) = desk.squad.set_lane_of(who, on, desk.now()).cloned() else { return Ok(None) };
    let (facts, course) = (facts(desk, who)?, desk.booking(on).course);
    let session = for_swimmer(desk.asked.book, &lane.session, &facts, course).map_err(refusal)?;
    if !session.without.is_empty() {
        desk.keep_reasons(Reasons::of(&session));
    }
    let caution = is_hard(&session).then_some(CautionKind::Effort);
    let lane = Some(lane.lane);
    Ok(Some(Outcome::Session(SessionReply {
        session,
        caution,
        lane,
        on_squad_night: false,
        changed: None,
        waits: None,
        after_yes: false,
    })))
}

/// Cautions who swims no more on a night: in no lane is then a place of theirs.
pub fn swims_on(
    desk: &Desk<'_>,
    statement: &Statement,
    who: &Name,
    on: Date,
) -> Result<(), Stopped> {
    if !desk.squad.is_done_by_name(who, on, desk.now()) {
        return Ok(());
    }
    let stopped = desk.swimmer(who).is_some_and(|swimmer| swimmer.is_stopped(desk.now()));
    let kind = if stopped { CautionKind::Stopped } else { CautionKind::DoneToday };
    let about = statement.who.clone();
    Err(Box::new(Outcome::Caution(CautionReply { kind, about })))
}
