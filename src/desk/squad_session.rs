//! The squad's session of a night: `plan tue` by whoever runs the evening.

use super::bench::{Desk, Stopped};
use super::coach_set::put;
use super::sessions::refusal;
use crate::coaching::Facts;
use crate::coaching::evening::{LaneSet, Night, NightWish, for_night};
use crate::message::{Day, PlanWish, WeekKind};
use crate::profile::Reasons;
use crate::reply::Outcome;
use crate::session::Session;

/// `plan tue`, `plan tonight`, `plan thu easy`
pub fn plan(desk: &mut Desk<'_>, wish: &PlanWish, day: Day) -> Result<Outcome, Stopped> {
    let on = desk.night_from_now(day)?;
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
    let sessions = for_night(desk.asked.book, &night).map_err(refusal)?;
    let rules = sessions.first().map(|session| session.rules.clone()).unwrap_or_default();
    let whole = |session| LaneSet { session, tight: Vec::new() };
    let lanes = drawn.into_iter().zip(sessions.into_iter().map(whole)).collect();
    let outcome = put(desk, on, false, &booking, lanes);
    desk.keep_reasons(Reasons::Rules { rules });
    Ok(outcome)
}
