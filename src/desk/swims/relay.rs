//! The legs of a relay: the first is a race from a flat start, the others are
//! kept apart.

use super::test_results::test;
use crate::desk::decision::days::swum_on;
use crate::desk::decision::desk::Desk;
use crate::desk::decision::questions_back::ask_yes;
use crate::desk::decision::refusing::{Stopped, refused};
use crate::desk::decision::resolve::{self, Settled, whole_lengths};
use crate::history::{Event, FlyingLeg};
use crate::message::{self, Message, Statement};
use crate::reply::{Asks, OkReply, Outcome, RefusedWhy};
use crate::units::{Start, Stroke};

/// One leg of `relay 4x50 free heron 31.2 teal 29.8`
pub fn leg(
    desk: &mut Desk<'_>,
    statement: &Statement,
    leg: &message::RelayLeg,
    message: &Message,
) -> Result<Outcome, Stopped> {
    let stroke = leg.stroke.unwrap_or(Stroke::Free);
    if leg.leg == 1 {
        let start = if stroke == Stroke::Back { Start::Water } else { Start::Dive };
        let first = message::Test {
            stroke: leg.stroke,
            on: leg.on,
            start: Some(start),
            meet: true,
            ..message::Test::new(leg.distance, leg.time.clone())
        };
        return test(desk, statement, &first, message);
    }
    let who = desk.subject(statement)?;
    let course = resolve::course(None, leg.distance, desk.course_of(&who));
    let distance = whole_lengths(leg.distance, course)?;
    let on = swum_on(desk, leg.on, course)?;
    let time = match resolve::time(&leg.time, distance, stroke) {
        Some(Settled::Sure(time) | Settled::Two(time, _)) => time,
        Some(Settled::Unlikely(time)) if desk.confirmed => time,
        Some(Settled::Unlikely(time)) => {
            return Err(ask_yes(desk, Asks::Implausible { distance, time }, message));
        }
        Some(Settled::Impossible(time)) => {
            return Err(refused("time", RefusedWhy::Unlikely { distance, time }));
        }
        None => return Err(refused("time", RefusedWhy::Nothing)),
    };
    let leg = FlyingLeg { distance, stroke, course, time, leg: leg.leg };
    desk.close_question_about(&who);
    desk.record(Event::LegSwum { who: who.clone(), on, leg });
    let who = Some(who).filter(|who| desk.me() != Some(who));
    Ok(Outcome::Ok(OkReply::Leg { who, leg }))
}
