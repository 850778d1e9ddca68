//! The squad's session of a night: `plan tue` by whoever runs the evening.

use jiff::civil::Date;

use super::bench::{Desk, Stopped, refused};
use super::coach_set::put;
use super::evening::{Booking, Drawn};
use super::sessions::refusal;
use super::timetable::line;
use crate::coaching::evening::{LaneSet, Night, NightWish, for_night};
use crate::coaching::{Facts, Refusal};
use crate::message::{Day, PlanWish, WeekKind};
use crate::profile::{Reasons, SetSource};
use crate::reply::{Outcome, RefusedWhy, When};
use crate::session::Session;

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
    let wish = &PlanWish { minutes: wish.minutes.or(left), ..wish.clone() };
    let (booking, lanes) = planned(desk, on, wish).map_err(refusal)?;
    let rules = lanes.first().map(|(_, lane)| lane.session.rules.clone()).unwrap_or_default();
    let outcome = put(desk, on, SetSource::Planned(wish.clone()), &booking, lanes);
    let without = match &outcome {
        Outcome::Evening(told) => told.without.clone(),
        _ => Vec::new(),
    };
    desk.keep_reasons(Reasons::rules(rules, without));
    Ok(outcome)
}

/// The session of the night in the versions of its lanes, with what is booked.
///
/// # Errors
/// Where the minutes hold no session.
pub fn planned(
    desk: &Desk<'_>,
    on: Date,
    wish: &PlanWish,
) -> Result<(Booking, Vec<(Drawn, LaneSet)>), Refusal> {
    let mut booking = desk.booking(on);
    booking.minutes = wish.minutes.unwrap_or(booking.minutes);
    let drawn = desk.drawn(on);
    let facts: Vec<Vec<Facts>> =
        drawn.iter().map(|lane| desk.facts_of(lane, booking.course)).collect();
    let before: Vec<Session> = desk
        .squad
        .sets_before(on, desk.now())
        .into_iter()
        .filter_map(|set| set.middle().map(|lane| lane.session.clone()))
        .collect();
    let night = Night {
        on,
        minutes: booking.minutes,
        course: booking.course,
        wish: match wish.week {
            Some(WeekKind::Easy) => NightWish::Easy,
            Some(WeekKind::Hard) => NightWish::Hard,
            Some(WeekKind::Normal) | None => NightWish::Any,
        },
        before: before.iter().collect(),
        lanes: facts.iter().map(|lane| lane.iter().collect()).collect(),
    };
    let sessions = for_night(desk.asked.book, &night)?;
    let whole = |session| LaneSet { session, tight: Vec::new(), beyond: Vec::new() };
    Ok((booking, drawn.into_iter().zip(sessions.into_iter().map(whole)).collect()))
}
