//! The squad's session of a night: `plan tue` by whoever runs the evening.

use super::bench::{Desk, Stopped, refused};
use super::coach_set::lane_reply;
use super::evening::Drawn;
use super::resolve::{self, Toward};
use super::sessions::refusal;
use crate::coaching::Facts;
use crate::coaching::evening::{LaneSet, Night, NightWish, for_night};
use crate::message::{Day, PlanWish, WeekKind};
use crate::profile::{Event, LaneKept, Reasons, SquadSet};
use crate::reply::{EveningReply, Outcome, RefusedWhy};
use crate::session::Session;

/// `plan tue`, `plan tonight`, `plan thu easy`
pub fn plan(desk: &mut Desk<'_>, wish: &PlanWish, day: Day) -> Result<Outcome, Stopped> {
    let on = resolve::day(day, desk.today, desk.squad.course.unit(), Toward::Future)
        .filter(|on| *on >= desk.evening())
        .ok_or_else(|| refused("day", RefusedWhy::Nothing))?;
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
    let lanes: Vec<(Drawn, Session)> = drawn.into_iter().zip(sessions).collect();
    let kept = lanes.iter().map(|(drawn, session)| LaneKept {
        lane: drawn.lane,
        swimmers: drawn.swimmers.iter().map(|(name, _)| name.clone()).collect(),
        session: session.clone(),
    });
    let set = SquadSet { on, own: false, lanes: kept.collect() };
    desk.record(Event::SquadSetPut { set });
    desk.keep_reasons(Reasons::Rules { rules });
    let lanes = lanes.into_iter().map(|(drawn, session)| {
        lane_reply(desk, &booking, drawn, LaneSet { session, tight: Vec::new() })
    });
    Ok(Outcome::Evening(EveningReply {
        on,
        minutes: booking.minutes,
        lanes: lanes.collect(),
        in_room: desk.asked.room.is_some(),
    }))
}
