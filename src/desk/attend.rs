//! Who comes: `in`, `out`, `late 10`, and the count of it.

use jiff::Timestamp;
use jiff::civil::Date;

use super::bench::{Desk, Stopped, refused};
use super::resolve::{self, Toward};
use crate::message::{Day, Statement};
use crate::profile::{Attendance, Event, Squad, Turnout};
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
    let now = desk.now();
    let stopped = desk.swimmer(&who).is_some_and(|swimmer| swimmer.is_stopped(now));
    if stopped && attendance.coming {
        let about = statement.who.clone();
        return Err(Box::new(Outcome::Caution(CautionReply { kind: CautionKind::Stopped, about })));
    }
    desk.record(Event::AttendanceSaid { who: who.clone(), on, attendance });
    let named = desk.me() != Some(&who);
    let Attendance { coming, late_min } = attendance;
    let who = named.then_some(who);
    Ok(Outcome::Ok(OkReply::Attend(AttendReply { who, on, coming, late_min })))
}

impl Desk<'_> {
    /// The night a typed day means; the next one where none is typed. `None`
    /// for one that is over or no day at all.
    pub fn night_meant(&self, typed: Option<Day>) -> Option<Date> {
        let Some(typed) = typed else {
            let night = self.squad.coming_night(self.now());
            return Some(night.map_or(self.today, |night| night.on));
        };
        resolve::day(typed, self.today, self.squad.course.unit(), Toward::Future)
            .filter(|on| *on >= self.today)
    }
}

/// Who comes on `on`, by what was known at `now`, as it is told.
pub fn night(squad: &Squad, on: Date, now: Timestamp) -> NightReply {
    let Turnout { coming, out, unsaid } = squad.turnout(on, now);
    NightReply { on, coming, out, unsaid }
}
