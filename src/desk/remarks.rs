//! What is noted and told, and changes no session by itself.

use super::bench::{Desk, Stopped};
use crate::message::{Kind, Statement};
use crate::profile::Event;
use crate::reply::{OkReply, Outcome};

/// `back from monday`, `shattered`, `want to go under 3:00`: kept beside the swimmer.
pub fn of_swimmer(desk: &mut Desk<'_>, statement: &Statement) -> Result<Outcome, Stopped> {
    let who = desk.subject(statement)?;
    let text = noted(&statement.kind);
    desk.record(Event::Noted { who: who.clone(), text: text.clone() });
    let of = desk.not_me(&who);
    Ok(Outcome::Ok(OkReply::Remarked { of, text }))
}

fn noted(kind: &Kind) -> String {
    Statement { who: None, kind: kind.clone() }.to_string()
}
