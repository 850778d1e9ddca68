//! A night that was shut takes place after all.

use jiff::civil::Weekday;

use crate::desk::decision::days::dates;
use crate::desk::decision::desk::Desk;
use crate::desk::decision::refusing::{Stopped, refused};
use crate::desk::known::nights::line;
use crate::history::{Event, Right, TimetableChange};
use crate::message::Day;
use crate::reply::{OkReply, Outcome, RefusedWhy, When};

/// `thu is on again`, `pool open thu`: as it was before it was shut. A set that
/// was moved away stays where it is.
pub fn reopen(desk: &mut Desk<'_>, days: &[Weekday], on: Option<Day>) -> Result<Outcome, Stopped> {
    desk.demand(Right::SetTimetable)?;
    let dates = dates(desk, days, on)?;
    let mut lines = Vec::with_capacity(dates.len());
    for on in dates {
        if desk.squad.night(on, desk.now()).is_none() {
            desk.record(Event::TimetableChanged { on, change: TimetableChange::Reopened });
        }
        let night = desk.squad.night(on, desk.now());
        let night = night.ok_or_else(|| refused("no_night", RefusedWhy::NoNight { on }))?;
        lines.push(line(desk, When::On(on), &night));
    }
    Ok(Outcome::Ok(OkReply::Timetable(lines)))
}
