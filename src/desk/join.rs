//! Joining by the squad's code.

use super::bench::{Desk, Stopped, refused};
use super::results::ask_yes;
use crate::message::{Kind, Message, Name, Statement};
use crate::profile::{Event, Role};
use crate::reply::{Asks, OkReply, Outcome, RefusedWhy};

/// How many people a squad holds (ours: ten times the largest club evening).
const MOST_PEOPLE: usize = 5_000;

/// `join CODE NAME`
pub fn join(desk: &mut Desk<'_>, code: &str, name: &Name) -> Result<Outcome, Stopped> {
    let squad = &desk.squad;
    let expired = squad.expires.is_some_and(|until| until <= desk.asked.wall);
    if !code.eq_ignore_ascii_case(&squad.code) || expired {
        return Err(refused("bad_code", RefusedWhy::BadCode));
    }
    if desk.member().is_some_and(|member| member.names().any(|mine| mine == name)) {
        return Ok(welcome(desk, name));
    }
    if let Some(invitation) = desk.invitation().filter(|asked| asked.role != Role::Swimmer) {
        return desk.takes_office(invitation.role, Some(name.clone()));
    }
    swims(desk, name)
}

/// She swims here from now on; where somebody does who texts from the same
/// telephone, only once it is clear that they are two.
pub fn swims(desk: &mut Desk<'_>, name: &Name) -> Result<Outcome, Stopped> {
    let address = desk.asked.from.to_owned();
    let own = desk.member().is_some_and(|member| member.answers_to(name));
    let hers =
        desk.squad.former.get(name).is_none_or(|left| left.address.as_ref() == Some(&address));
    if !hers || (!own && desk.squad.is_taken(name)) {
        return Err(refused("name_taken", RefusedWhy::NameTaken));
    }
    if desk.squad.swimmers.len().max(desk.squad.members.len()) >= MOST_PEOPLE {
        return Err(refused("squad_full", RefusedWhy::SquadFull));
    }
    if desk.member().is_some_and(|member| member.name.is_some()) && !desk.confirmed {
        let kind = Kind::Join { code: desk.squad.code.clone(), name: name.clone() };
        let message = Message { statements: vec![Statement { who: None, kind }] };
        return Err(ask_yes(desk, Asks::AnotherPerson { name: name.clone() }, &message));
    }
    desk.record(Event::Joined { address, name: name.clone() });
    Ok(welcome(desk, name))
}

/// What she is told who is in.
pub fn welcome(desk: &Desk<'_>, name: &Name) -> Outcome {
    Outcome::Ok(OkReply::Joined {
        name: name.clone(),
        squad: desk.squad.name.clone(),
        ask_readiness: !desk.squad.ready,
        questions: !desk.squad.ready && !desk.squad.minors,
        minors: desk.squad.minors,
        closed: desk.squad.is_closed(),
    })
}
