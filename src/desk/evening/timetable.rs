//! The squad's evenings: set, changed for once, shut, shown.

use jiff::ToSpan;
use jiff::civil::{Date, Weekday};

use super::lanes;
use crate::coaching;
use crate::desk::decision::days::dates;
use crate::desk::decision::desk::Desk;
use crate::desk::decision::refusing::{Stopped, refused};
use crate::desk::decision::view::View;
use crate::desk::known::nights::{is_hard, line};
use crate::history::{EveningBy, EveningKept, Event, Night, Right, SlotSaid, TimetableChange};
use crate::message::{Day, Slot};
use crate::reply::{NightLine, OkReply, Outcome, RefusedWhy, SetFate, ShutReply, When};
use crate::units::Weekdays;

/// `slot tue 2000-2100 4 lanes` for every week; without a start, or for a date,
/// for once: `only 3 lanes tonight`, `thu at 50m`. `slot` alone shows them.
pub fn slot(desk: &mut Desk<'_>, slot: &Slot) -> Result<Outcome, Stopped> {
    let Slot { starts, minutes, lanes, course, .. } = *slot;
    let said = SlotSaid { starts, minutes, lanes, course };
    if said.is_empty() {
        return Ok(Outcome::Ok(OkReply::Timetable(shown(desk))));
    }
    let weekly = starts.is_some() && slot.on.is_none();
    desk.demand(if weekly { Right::SetTimetable } else { Right::RunEvening })?;
    if weekly {
        let days: Weekdays = slot.days.iter().copied().collect();
        let change = TimetableChange::Weekly { days: days.clone(), slot: said };
        desk.record(Event::TimetableChanged { on: desk.today, change });
        let lines = days.iter().filter_map(|day| every(desk, day)).collect();
        return Ok(Outcome::Ok(OkReply::Timetable(lines)));
    }
    let dates = dates(desk, &slot.days, slot.on)?;
    for on in &dates {
        if starts.is_none() && desk.squad.night(*on, desk.now()).is_none() {
            return Err(refused("no_night", RefusedWhy::NoNight { on: *on }));
        }
    }
    for on in &dates {
        let change = TimetableChange::Once { slot: said };
        desk.record(Event::TimetableChanged { on: *on, change });
    }
    let now = desk.now();
    let nights = dates.iter().filter_map(|on| desk.squad.night(*on, now));
    let lines: Vec<NightLine> =
        nights.map(|night| line(desk, When::On(night.on), &night)).collect();
    // Another number of lanes for a night that lanes are drawn for deals them anew.
    if let ([on], [night], Some(lanes)) = (dates.as_slice(), lines.as_slice(), said.lanes)
        && let Some(drawn) = lanes::as_many_as_booked(desk, *on, lanes, night.clone())
    {
        return Ok(drawn);
    }
    Ok(Outcome::Ok(OkReply::Timetable(lines)))
}

/// `pool shut thu`, `shut 24 dec`
pub fn shut(desk: &mut Desk<'_>, days: &[Weekday], on: Option<Day>) -> Result<Outcome, Stopped> {
    desk.demand(Right::SetTimetable)?;
    let dates = dates(desk, days, on)?;
    for on in &dates {
        desk.record(Event::TimetableChanged { on: *on, change: TimetableChange::Shut });
    }
    let told = dates.into_iter().map(|on| shut_day(desk, on)).collect();
    Ok(Outcome::Ok(OkReply::Shut(told)))
}

/// What becomes of a night's set and of the plans that count on it.
fn shut_day(desk: &mut Desk<'_>, on: Date) -> ShutReply {
    let now = desk.now();
    let set = desk.squad.set_in_force(on, now).filter(|_| on >= desk.today).cloned();
    let next = desk.squad.next_night(on, now);
    let fate = set.map(|set| moved(desk, set, next.as_ref()));
    let planned: Vec<bool> = desk
        .squad
        .swimmers
        .values()
        .filter_map(|swimmer| {
            let week = swimmer.weeks.as_of(now).max_by_key(|kept| kept.cause)?;
            week.what.days.iter().find(|(day, _)| *day == on).map(|(_, hard)| *hard)
        })
        .collect();
    ShutReply {
        on,
        set: fate,
        plans: planned.len(),
        hard_plans: planned.iter().filter(|hard| **hard).count(),
        next: next.map(|night| line(desk, When::On(night.on), &night)),
    }
}

/// Moves the set to the next night if that has none of its own and, where it
/// is hard, lies far enough from what is hard beside it.
fn moved(desk: &mut Desk<'_>, set: EveningKept, next: Option<&Night>) -> SetFate {
    let now = desk.now();
    let hard = is_hard(&set);
    let gap = coaching::hard_days_apart(desk.asked.book);
    let fits = |to: Date| {
        desk.squad.set_in_force(to, now).is_none()
            && (!hard
                || (1 - gap..gap).filter(|away| *away != 0).all(|away| {
                    let beside = desk.squad.set_in_force(to.saturating_add(away.days()), now);
                    beside.filter(|beside| beside.on != set.on).is_none_or(|one| !is_hard(one))
                }))
    };
    match next.map(|night| night.on).filter(|to| fits(*to)) {
        None => SetFate::LeftOut { hard },
        Some(to) => {
            let mut evening = EveningKept {
                by: EveningBy::Set,
                source: set.source.clone(),
                edited: set.edited,
                gap: set.gap,
                said: set.said.clone(),
                lanes: set.lanes.clone(),
                ..EveningKept::new(to)
            };
            for lane in &mut evening.lanes {
                lane.session.iter_mut().for_each(|session| session.on = to);
                lane.own.clear();
            }
            desk.record(Event::EveningPut { evening });
            SetFate::Moved { to, hard }
        }
    }
}

/// The evenings of every week, then what is different in the weeks ahead.
fn shown(view: &View<'_>) -> Vec<NightLine> {
    let now = view.now();
    let weekly = view.squad.weekly_days(view.today, now);
    let mut lines: Vec<NightLine> = weekly.iter().filter_map(|day| every(view, *day)).collect();
    for ahead in 0..=28i64 {
        let on = view.today.saturating_add(ahead.days());
        let usual = every(view, on.weekday());
        let that = view.squad.night(on, now).map(|night| line(view, When::On(on), &night));
        match that {
            None if usual.is_some() => lines.push(NightLine::shut(on)),
            Some(that) if usual.is_none_or(|usual| usual.at(on) != that) => lines.push(that),
            _ => {}
        }
    }
    lines
}

fn every(view: &View<'_>, day: Weekday) -> Option<NightLine> {
    let night = view.squad.weekly_night(day, view.today, view.now())?;
    Some(line(view, When::Every(day), &night))
}
