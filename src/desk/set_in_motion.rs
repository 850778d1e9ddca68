//! Tonight's set changed while it is swum: one reply with all lanes.

use jiff::civil::Time;

use super::bench::{Desk, Stopped, refused};
use super::evening::Booking;
use crate::coaching::Facts;
use crate::coaching::evening::{
    GivenUp, before_main_s, least_send_off, line_in_question, shortened, with_count, with_send_off,
    without_last_round,
};
use crate::message::Cut;
use crate::profile::{Event, LaneKept, Right};
use crate::reply::{ChangedReply, Ends, LaneChange, OkReply, Outcome, RefusedWhy};
use crate::session::{Repeat, Session};

/// A night is over this long after its start (ours).
const NIGHT_S: i64 = 4 * 3600;

/// `12 left`, `L1 make it 6`, `L2 on 1:15`, `skip last round`
pub fn cut(desk: &mut Desk<'_>, cut: &Cut) -> Result<Outcome, Stopped> {
    desk.demand(Right::RunEvening)?;
    let on = desk.evening();
    let in_force = desk.set_in_force(on);
    let mut set = in_force.ok_or_else(|| refused("no_set", RefusedWhy::NoSet))?;
    if let Some(lane) = cut.lane.filter(|lane| set.lanes.iter().all(|one| one.lane != *lane)) {
        return Err(refused("no_lane", RefusedWhy::NoLane { lane }));
    }
    let cut = &until_the_end(desk, cut)?;
    let booking = desk.booking(on);
    let mut lanes = Vec::with_capacity(set.lanes.len());
    for lane in &mut set.lanes {
        let change = match cut.lane.is_none_or(|wanted| wanted == lane.lane) {
            true => changed(desk, cut, lane, &booking)?,
            false => unchanged(desk, lane, &booking),
        };
        lane.session = change.session.clone();
        lanes.push(change);
    }
    if cut.skip_round && lanes.iter().all(|lane| lane.instead.is_empty()) {
        return Err(refused("no_rounds", RefusedWhy::NoRounds));
    }
    let from_main = elapsed_s(desk, &booking).is_none();
    set.source = None;
    desk.record(Event::SquadSetPut { set });
    Ok(Outcome::Ok(OkReply::SetChanged(ChangedReply { on, lanes, from_main })))
}

/// `finish at 8.50` as minutes left: the next time that any clock shows it.
fn until_the_end(desk: &Desk<'_>, cut: &Cut) -> Result<Cut, Stopped> {
    let Some(ends) = cut.ends else { return Ok(cut.clone()) };
    let now = desk.now().to_zoned_datetime(desk.squad.zone()).time();
    let minute = |time: Time| i32::from(time.hour()) * 60 + i32::from(time.minute());
    let turn = if ends.hour() < 12 { 12 * 60 } else { 24 * 60 };
    let left = (minute(ends) - minute(now)).rem_euclid(turn);
    let left = u16::try_from(left).ok().filter(|left| i64::from(*left) * 60 <= NIGHT_S);
    let left = left.filter(|left| *left > 0 && cut.minutes_left.is_none());
    let left = left.ok_or_else(|| refused("nothing", RefusedWhy::Nothing))?;
    Ok(Cut { minutes_left: Some(left), ..cut.clone() })
}

/// One lane's set with all that the text changes.
fn changed(
    desk: &Desk<'_>,
    cut: &Cut,
    lane: &LaneKept,
    booking: &Booking,
) -> Result<LaneChange, Stopped> {
    let before = &lane.session;
    let elapsed = elapsed_s(desk, booking).unwrap_or_else(|| before_main_s(before));
    let nothing = || refused("nothing", RefusedWhy::NoMainSet);
    let mut session = before.clone();
    let mut instead: Vec<Repeat> = Vec::new();
    let mut given_up: Vec<GivenUp> = Vec::new();
    if cut.skip_round {
        match without_last_round(&session, elapsed) {
            Some(shorter) => {
                session = shorter;
                instead.extend(line_in_question(&session, elapsed));
            }
            // Another lane may still have one.
            None if cut.lane.is_none() => return Ok(unchanged(desk, lane, booking)),
            None => return Err(refused("no_rounds", RefusedWhy::NoRounds)),
        }
    }
    if let Some(count) = cut.count {
        let (changed, line) = with_count(&session, elapsed, count).ok_or_else(nothing)?;
        session = changed;
        instead = vec![line];
    }
    if let Some(on) = cut.send_off {
        let line = line_in_question(&session, elapsed).ok_or_else(nothing)?;
        let facts = swimmers(desk, lane, booking);
        let known: Vec<&Facts> = facts.iter().collect();
        let least = least_send_off(&known, booking.course, &line).filter(|least| *least > on);
        if let Some(least) = least {
            return Err(refused("send_off", RefusedWhy::SendOff { lane: lane.lane, least }));
        }
        let (changed, line) = with_send_off(&session, elapsed, on).ok_or_else(nothing)?;
        session = changed;
        instead = vec![line];
    }
    let (mut fits, mut keeps_purpose) = (true, true);
    if let Some(left) = cut.minutes_left {
        let shorter = shortened(&session, elapsed, elapsed + u32::from(left) * 60);
        (fits, keeps_purpose) = (shorter.fits, shorter.keeps_purpose);
        (session, given_up) = (shorter.session, shorter.given_up);
    }
    Ok(LaneChange {
        lane: lane.lane,
        was: ends(desk, booking, before, elapsed),
        now: ends(desk, booking, &session, elapsed),
        session,
        given_up,
        instead,
        fits,
        keeps_purpose,
    })
}

fn unchanged(desk: &Desk<'_>, lane: &LaneKept, booking: &Booking) -> LaneChange {
    let elapsed = elapsed_s(desk, booking).unwrap_or_else(|| before_main_s(&lane.session));
    let ends = ends(desk, booking, &lane.session, elapsed);
    LaneChange {
        lane: lane.lane,
        session: lane.session.clone(),
        was: ends,
        now: ends,
        given_up: Vec::new(),
        instead: Vec::new(),
        fits: true,
        keeps_purpose: true,
    }
}

fn ends(desk: &Desk<'_>, booking: &Booking, session: &Session, elapsed_s: u32) -> Ends {
    match desk.ends(booking, session) {
        Some(time) => Ends::At(time),
        None => Ends::In(session.duration_s().saturating_sub(elapsed_s)),
    }
}

/// Seconds since the night began; `None` where nobody said when it does.
pub fn elapsed_s(desk: &Desk<'_>, booking: &Booking) -> Option<u32> {
    let since = desk.now().duration_since(booking.starts?).as_secs();
    u32::try_from(since.max(0)).ok().filter(|since| i64::from(*since) <= NIGHT_S)
}

fn swimmers(desk: &Desk<'_>, lane: &LaneKept, booking: &Booking) -> Vec<Facts> {
    let known: Vec<Facts> = lane.swimmers.iter().filter_map(|name| desk.facts(name)).collect();
    match known.is_empty() {
        true => vec![Facts::of_nobody(desk.today, booking.course, booking.minutes)],
        false => known,
    }
}
