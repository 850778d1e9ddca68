//! What is noted and told beside results: feeling, wishes, days.

use crate::coaching::Ability;
use crate::desk::decision::desk::Desk;
use crate::desk::decision::refusing::{Stopped, refused};
use crate::desk::decision::resolve;
use crate::history::Event;
use crate::message::{Kind, Length, Statement};
use crate::reply::{OkReply, Outcome, RefusedWhy};

/// `back from monday`, `shattered`, `want to go under 3:00`: kept beside the swimmer.
pub fn of_swimmer(desk: &mut Desk<'_>, statement: &Statement) -> Result<Outcome, Stopped> {
    let who = desk.subject(statement)?;
    let text = noted(&statement.kind);
    desk.record(Event::Noted { who: who.clone(), text: text.clone() });
    let of = desk.not_me(&who);
    Ok(Outcome::Ok(OkReply::Remarked { of, text }))
}

/// `two lengths at a time`, `nothing over 1200`: it bounds what is written.
pub fn ability(
    desk: &mut Desk<'_>,
    statement: &Statement,
    unbroken: Option<Length>,
    most: Option<Length>,
) -> Result<Outcome, Stopped> {
    let who = desk.subject(statement)?;
    let course = desk.course_of(&who);
    let far = |length: Option<Length>| match length {
        None => Ok(None),
        Some(length) => resolve::distance(length, course)
            .map(Some)
            .ok_or_else(|| refused("distance", RefusedWhy::Distance)),
    };
    let ability = Ability { unbroken: far(unbroken)?, most: far(most)? };
    desk.record(Event::AbilitySaid { who: who.clone(), ability });
    Ok(Outcome::Ok(OkReply::Able { of: desk.not_me(&who), ability }))
}

/// `slept 4 hrs, shattered`: kept, and the swim right ahead is less.
pub fn tired(desk: &mut Desk<'_>, statement: &Statement) -> Result<Outcome, Stopped> {
    let who = desk.subject(statement)?;
    let noted = of_swimmer(desk, statement)?;
    desk.record(Event::FeltTired { who: who.clone() });
    // Whoever is out swims neither today nor tomorrow.
    let out = desk.swimmer(&who).and_then(|swimmer| desk.out(swimmer)).is_some();
    Ok(if out { noted } else { Outcome::Ok(OkReply::Tired { of: desk.not_me(&who) }) })
}

fn noted(kind: &Kind) -> String {
    Statement { who: None, kind: kind.clone() }.to_string()
}
