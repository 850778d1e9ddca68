//! Who comes, and for how long: `in`, `out`, `late 10`, `leaving at 8`, `might come`;
//! and the count of it.

use jiff::Timestamp;
use jiff::civil::{Date, Time};

use super::outcomes::became_of_lanes;
use crate::desk::decision::desk::Desk;
use crate::desk::decision::refusing::{Stopped, refused};
use crate::desk::decision::view::View;
use crate::history::{Attendance, Event, Squad, Turnout};
use crate::message::{Day, Name, Statement};
use crate::reply::{
    AttendReply, CautionKind, CautionReply, NightReply, OkReply, Outcome, RefusedWhy,
};

/// `in`, `out thu`, `10 late`, `heron out`
pub fn attend(
    desk: &mut Desk<'_>,
    statement: &Statement,
    attendance: Attendance,
    on: Option<Day>,
) -> Result<Outcome, Stopped> {
    let who = desk.subject(statement)?;
    let on = desk.night_meant(on).ok_or_else(|| refused("day", RefusedWhy::Nothing))?;
    if attendance.coming && is_stopped(desk, &who) {
        return Err(stopped(statement));
    }
    Ok(said(desk, who, on, attendance))
}

/// `leaving at 7:45`; without a time, now, where the night has begun.
pub fn leaves(
    desk: &mut Desk<'_>,
    statement: &Statement,
    at: Option<Time>,
    on: Option<Day>,
) -> Result<Outcome, Stopped> {
    let who = desk.subject(statement)?;
    let on = desk.night_meant(on).ok_or_else(|| refused("day", RefusedWhy::Nothing))?;
    let booking = desk.booking(on);
    let now = desk.now().to_zoned_datetime(desk.squad.zone()).time();
    let begun = booking.starts.is_some_and(|starts| starts <= desk.now());
    let leaves = at.map(|at| in_the_evening(at, booking.starts.is_some(), desk, on));
    let leaves = leaves.or(begun.then_some(now));
    let before = desk.swimmer(&who).and_then(|swimmer| swimmer.says_of(on, desk.now()));
    let before = before.filter(|said| said.coming).unwrap_or(Attendance::whole(true));
    Ok(said(desk, who, on, Attendance { leaves, ..before }))
}

/// `might come tonight`
pub fn perhaps(
    desk: &mut Desk<'_>,
    statement: &Statement,
    on: Option<Day>,
) -> Result<Outcome, Stopped> {
    let who = desk.subject(statement)?;
    let on = desk.night_meant(on).ok_or_else(|| refused("day", RefusedWhy::Nothing))?;
    if is_stopped(desk, &who) {
        return Err(stopped(statement));
    }
    Ok(said(desk, who, on, Attendance { perhaps: true, ..Attendance::whole(true) }))
}

/// Keeps what somebody said, and answers with it; whoever runs the evening hears
/// what became of the lanes too.
fn said(desk: &mut Desk<'_>, who: Name, on: Date, attendance: Attendance) -> Outcome {
    let before = desk.tonight(on);
    desk.record(Event::AttendanceSaid { who: who.clone(), on, attendance });
    let lanes = became_of_lanes(desk, &before);
    let named = desk.me() != Some(&who);
    let Attendance { coming, late_min, perhaps, leaves } = attendance;
    let who = named.then_some(who);
    Outcome::Ok(OkReply::Attend(AttendReply {
        who,
        on,
        coming,
        late_min,
        perhaps,
        leaves,
        lanes: lanes.map(Box::new),
    }))
}

/// A time of the clock as it is meant in the evening: `7:45` of a night at 19:00.
fn in_the_evening(at: Time, known: bool, view: &View<'_>, on: Date) -> Time {
    let starts = view.squad.night(on, view.now()).and_then(|night| night.starts);
    match starts.filter(|starts| known && at < *starts && at.hour() < 12) {
        Some(_) => Time::constant(at.hour() + 12, at.minute(), 0, 0),
        None => at,
    }
}

fn is_stopped(view: &View<'_>, who: &Name) -> bool {
    view.swimmer(who).is_some_and(|swimmer| swimmer.is_stopped(view.now()))
}

fn stopped(statement: &Statement) -> Stopped {
    let about = statement.who.clone();
    Box::new(Outcome::Caution(CautionReply { kind: CautionKind::Stopped, about }))
}

/// Who comes on `on`, by what was known at `now`, as it is told.
pub fn night(squad: &Squad, on: Date, now: Timestamp) -> NightReply {
    let Turnout { coming, perhaps, out, unsaid } = squad.turnout(on, now);
    NightReply { on, coming, perhaps, out, unsaid }
}
