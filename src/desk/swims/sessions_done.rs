//! Sessions done or missed, and days away.

use jiff::ToSpan;

use crate::coaching::{self, Facts, OtherTraining, Swum};
use crate::desk::decision::days::swum_on;
use crate::desk::decision::desk::Desk;
use crate::desk::decision::questions_back::ask_yes;
use crate::desk::decision::refusing::{Stopped, refused};
use crate::desk::decision::resolve::{self, Toward};
use crate::desk::known::facts::facts;
use crate::history::Event;
use crate::message::{self, Day, Message, Statement};
use crate::reply::{Asks, DoneReply, Outcome, RefusedWhy};
use crate::units::{Centis, Course, Distance, Rpe};

/// `done 1500 45min rpe 6`
pub fn done(
    desk: &mut Desk<'_>,
    statement: &Statement,
    done: &message::Done,
) -> Result<Outcome, Stopped> {
    let who = desk.subject(statement)?;
    let course = desk.course_of(&who);
    let on = swum_on(desk, done.on, course)?;
    let minutes = done.duration.map(whole_minutes);
    desk.close_question_about(&who);
    if done.sport.is_some() {
        let training = OtherTraining { on, minutes, rpe: done.rpe };
        let repeat =
            desk.swimmer(&who).is_some_and(|swimmer| desk.has_sent(&swimmer.other, &training));
        if !repeat {
            desk.record(Event::OtherTrained { who: who.clone(), training });
        }
        return Ok(Outcome::Done(DoneReply {
            swimmer: who,
            distance: None,
            duration: done.duration,
            rpe: done.rpe,
            on,
            load: load(done.rpe, minutes),
            week: None,
            eased: None,
            elsewhere: true,
            repeat,
        }));
    }
    if desk.swimmer(&who).is_none() {
        return Err(refused("not_a_swimmer", RefusedWhy::NotASwimmer));
    }
    let lengths = done.lengths.and_then(|count| resolve::lengths(count, course));
    let length = done.distance.or(lengths);
    // What was suggested matters only where something isn't said.
    let suggested = match (length, done.rpe) {
        (Some(_), Some(_)) => None,
        _ => {
            let suggested = facts(desk, &who)?.suggested;
            suggested.into_iter().rev().find(|session| session.on == on)
        }
    };
    let suggested = suggested.as_ref();
    let effort_alone = done.distance.is_none()
        && done.lengths.is_none()
        && done.duration.is_none()
        && done.rpe.is_some()
        && !done.shortened;
    let distance = match length {
        Some(length) => Some(
            resolve::distance(length, course)
                .ok_or_else(|| refused("distance", RefusedWhy::Distance))?,
        ),
        None if done.shortened => None,
        // On a night on which they were seen, the night's set was theirs.
        None => desk
            .seen_swum(&who, on)
            .filter(|swum| swum.presumed || effort_alone)
            .and_then(|swum| swum.distance)
            .or_else(|| {
                suggested.and_then(|session| Distance::new(session.amount(), session.unit).ok())
            }),
    };
    if let (Some(distance), Some(time)) = (distance, done.duration)
        && !desk.confirmed
        && distance.metres().get() / time.seconds() > FASTEST_SESSION
    {
        let asks = Asks::Implausible { distance, time };
        return Err(ask_yes(desk, asks, &Message { statements: vec![statement.clone()] }));
    }
    let hard = match done.rpe {
        Some(rpe) => rpe.tenths() >= HARD_RPE_TENTHS,
        None => suggested.is_some_and(coaching::is_hard),
    };
    let swum = Swum { on, distance, minutes, rpe: done.rpe, presumed: false, effort_alone, hard };
    let repeat = desk.swimmer(&who).is_some_and(|swimmer| desk.has_sent(&swimmer.swims, &swum));
    if !repeat {
        desk.record(Event::SessionSwum { who: who.clone(), swum: swum.clone() });
    }
    let facts = facts(desk, &who)?;
    let eased = coaching::eases(desk.asked.book, &facts, &swum).filter(|_| !repeat);
    let week = week_distance(&facts, course);
    Ok(Outcome::Done(DoneReply {
        swimmer: who,
        distance,
        duration: done.duration,
        rpe: done.rpe,
        on,
        load: load(done.rpe, minutes),
        week,
        eased,
        elsewhere: false,
        repeat,
    }))
}

/// Metres a second over a whole session that are asked about: faster than the
/// fastest swim long distances (ours).
const FASTEST_SESSION: f64 = 1.8;

/// A session felt as hard as this counts as a hard day: 6, between hard and
/// very hard on the scale of Foster et al. 2001 (the choice is ours).
const HARD_RPE_TENTHS: u8 = 60;

/// RPE × minutes (Foster et al. 2001, J Strength Cond Res 15(1):109-115).
fn load(rpe: Option<Rpe>, minutes: Option<u16>) -> Option<u32> {
    let (rpe, minutes) = (rpe?, minutes?);
    Some((u32::from(rpe.tenths()) * u32::from(minutes) + 5) / 10)
}

fn whole_minutes(time: Centis) -> u16 {
    u16::try_from((time.hundredths() + 3000) / 6000).unwrap_or(u16::MAX)
}

/// What they swam in the seven days that end today, in their pool's unit.
fn week_distance(facts: &Facts, course: Course) -> Option<Distance> {
    let since = facts.today.checked_sub(6.days()).ok()?;
    let metres: f64 = facts
        .swims
        .iter()
        .filter(|swum| swum.on >= since)
        .filter_map(|swum| swum.distance)
        .map(|distance| distance.metres().get())
        .sum();
    let amount = (metres / course.unit().in_metres()).round();
    Distance::new(amount as u32, course.unit()).ok()
}

/// `missed tue`
pub fn missed(
    desk: &mut Desk<'_>,
    statement: &Statement,
    on: Option<Day>,
) -> Result<Outcome, Stopped> {
    let who = desk.subject(statement)?;
    let on = swum_on(desk, on, desk.course_of(&who))?;
    desk.record(Event::SessionMissed { who, on });
    Ok(Outcome::Ok(crate::reply::OkReply::Missed { on }))
}

/// `away until 20/11`
pub fn away(
    desk: &mut Desk<'_>,
    statement: &Statement,
    from: Option<Day>,
    until: Day,
) -> Result<Outcome, Stopped> {
    let who = desk.subject(statement)?;
    let unit = desk.course_of(&who).unit();
    let ahead = |day: Day| {
        resolve::day(day, desk.today, unit, Toward::Future)
            .ok_or_else(|| refused("day", RefusedWhy::Nothing))
    };
    let (from, until) = (from.map(ahead).transpose()?, ahead(until)?);
    desk.record(Event::WentAway { who, from, until });
    Ok(Outcome::Ok(crate::reply::OkReply::Away { from, until }))
}
