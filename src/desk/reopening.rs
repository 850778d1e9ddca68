//! The way back from a night that was shut, and a lane fewer tonight.

use jiff::civil::Weekday;

use super::bench::{Desk, Stopped, refused};
use super::timetable::{dates, line};
use crate::message::Day;
use crate::profile::{Event, Right, SlotSaid, TimetableChange};
use crate::reply::{OkReply, Outcome, RefusedWhy, When};
use crate::units::Lane;

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

/// `lost a lane`: tonight has one lane fewer than it had.
pub fn lane_gone(desk: &mut Desk<'_>) -> Result<Outcome, Stopped> {
    desk.demand(Right::RunEvening)?;
    let on = desk.evening();
    let no_night = || refused("no_night", RefusedWhy::NoNight { on });
    let night = desk.squad.night(on, desk.now()).ok_or_else(no_night)?;
    let drawn = desk.squad.lanes_drawn(on, desk.now()).and_then(|drawn| drawn.count());
    let lanes = night.lanes.or(drawn.map(Lane::number));
    let fewer = lanes.and_then(|lanes| lanes.checked_sub(1)).filter(|lanes| *lanes > 0);
    let lanes = Some(fewer.ok_or_else(|| refused("nothing", RefusedWhy::Nothing))?);
    let slot = SlotSaid { lanes, ..SlotSaid::default() };
    desk.record(Event::TimetableChanged { on, change: TimetableChange::Once { slot } });
    let night = desk.squad.night(on, desk.now()).ok_or_else(no_night)?;
    Ok(Outcome::Ok(OkReply::Timetable(vec![line(desk, When::On(on), &night)])))
}
