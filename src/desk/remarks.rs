//! What is noted and told, and changes no session by itself.

use super::bench::{Desk, Stopped};
use crate::message::{Kind, Statement};
use crate::profile::{Event, Right};
use crate::reply::{OkReply, Outcome};

/// `leaving at 7:45`, `shattered`, `want to go under 3:00`: kept beside the swimmer.
pub fn of_swimmer(desk: &mut Desk<'_>, statement: &Statement) -> Result<Outcome, Stopped> {
    let who = desk.subject(statement)?;
    let text = noted(&statement.kind);
    desk.record(Event::Noted { who: who.clone(), text: text.clone() });
    let of = (desk.me() != Some(&who)).then_some(who);
    Ok(Outcome::Ok(OkReply::Remarked { of, text }))
}

/// What the coach says of the evening that no part of it is worked out from.
pub fn of_evening(desk: &mut Desk<'_>, statement: &Statement) -> Result<Outcome, Stopped> {
    desk.demand(Right::RunEvening)?;
    let text = noted(&statement.kind);
    desk.record(Event::Remarked { text: text.clone() });
    Ok(Outcome::Ok(OkReply::Remarked { of: None, text }))
}

fn noted(kind: &Kind) -> String {
    Statement { who: None, kind: kind.clone() }.to_string()
}
