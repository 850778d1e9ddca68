//! Who is asked in, and as what.

use jiff::{Timestamp, ToSpan};

use super::codes::as_coach;
use super::names::fit;
use super::outcomes::belongs;
use crate::desk::decision::desk::Desk;
use crate::desk::decision::refusing::{Stopped, refused};
use crate::history::{Event, Invitation, Right, Role};
use crate::message::{Name, Office};
use crate::reply::{Belonging, Outcome, RefusedWhy};

/// An invitation waits this long (ours).
const INVITED_DAYS: i64 = 14;

/// How many may be asked in at once and not have answered (ours: a club's autumn
/// intake).
const ASKED_IN: usize = 200;

/// One text to the address, and nothing is kept of it but the invitation.
pub fn invite(
    desk: &mut Desk<'_>,
    to: &str,
    office: Option<Office>,
    name: Option<&Name>,
) -> Result<Outcome, Stopped> {
    desk.demand(Right::Invite)?;
    if desk.squad.members.contains_key(to) {
        return Err(refused("already_in", RefusedWhy::AlreadyIn));
    }
    let open = desk.squad.invitations.values().filter(|one| one.until > desk.asked.wall);
    if open.count() >= ASKED_IN && !desk.squad.invitations.contains_key(to) {
        return Err(refused("many_asked_in", RefusedWhy::ManyAskedIn));
    }
    if let Some(name) = name {
        if desk.squad.is_taken(name) {
            return Err(refused("name_taken", RefusedWhy::NameTaken));
        }
        fit(desk, name)?;
    }
    let role = match office {
        None => Role::Swimmer,
        Some(Office::Coach) => Role::Coach,
        Some(Office::Assistant) => Role::Assistant,
        Some(Office::Guardian) => Role::Guardian,
        Some(Office::WelfareOfficer) => Role::WelfareOfficer,
    };
    if role == Role::Coach {
        let (pending, what) = as_coach(to, name);
        return Ok(desk.wants_code(pending, what));
    }
    asked_in(desk, to, role, name.cloned())
}

/// Somebody is asked in, as what the coach says.
pub fn asked_in(
    desk: &mut Desk<'_>,
    to: &str,
    role: Role,
    name: Option<Name>,
) -> Result<Outcome, Stopped> {
    let days = (INVITED_DAYS * 24).hours();
    let until = desk.asked.wall.checked_add(days).unwrap_or(Timestamp::MAX);
    let invitation = Invitation { role, name: name.clone(), until };
    let by = desk.member().and_then(|member| member.goes_by());
    let text = desk.voice().invitation(&desk.squad.name, &desk.squad.code, by, &invitation);
    desk.ask_stranger(to, text)?;
    desk.record(Event::Invited { address: to.to_owned(), invitation });
    Ok(belongs(Belonging::Invited { name, role }))
}
