//! Joining by the squad's code.

use super::bench::{Desk, Stopped, refused};
use crate::message::Name;
use crate::profile::Event;
use crate::reply::{OkReply, Outcome, RefusedWhy};

/// `join CODE NAME`
pub fn join(desk: &mut Desk<'_>, code: &str, name: &Name) -> Result<Outcome, Stopped> {
    let squad = &desk.squad;
    let expired = squad.expires.is_some_and(|until| until <= desk.asked.wall);
    if !code.eq_ignore_ascii_case(&squad.code) || expired {
        return Err(refused("bad_code", RefusedWhy::BadCode));
    }
    if let Some(mine) = desk.me() {
        if mine == name {
            return Ok(welcome(desk, name));
        }
        return Err(refused("already_joined", RefusedWhy::AlreadyJoined { name: mine.clone() }));
    }
    if squad.swimmers.contains_key(name) {
        return Err(refused("name_taken", RefusedWhy::NameTaken));
    }
    let address = desk.asked.from.to_owned();
    desk.record(Event::Joined { address, name: name.clone() });
    Ok(welcome(desk, name))
}

fn welcome(desk: &Desk<'_>, name: &Name) -> Outcome {
    Outcome::Ok(OkReply::Joined {
        name: name.clone(),
        squad: desk.squad.name.clone(),
        ask_readiness: !desk.squad.ready,
        questions: !desk.squad.ready && !desk.squad.minors,
    })
}
