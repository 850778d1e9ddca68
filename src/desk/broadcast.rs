//! What the coach has passed on: to one swimmer, or to all.

use super::bench::{Desk, Stopped, refused};
use super::results::ask_yes;
use crate::language::Language;
use crate::message::{Message, Statement};
use crate::profile::{Right, Swimmer};
use crate::reply::{self, Asks, OkReply, Outcome, RefusedWhy};

/// `tell heron: cap on`, `tell all: pool shut`. To all it is asked about first,
/// as it can't be taken back.
pub fn tell(desk: &mut Desk<'_>, statement: &Statement, text: &str) -> Result<Outcome, Stopped> {
    desk.demand(Right::Broadcast)?;
    if desk.squad.minors {
        // Nothing goes to a minor without a second grown-up in it.
        return Err(refused("not_yet", RefusedWhy::NotYet));
    }
    if statement.who.is_some() {
        let who = desk.subject(statement)?;
        let to: Vec<_> =
            desk.swimmer(&who).into_iter().filter_map(|one| way_to(desk, one)).collect();
        if to.is_empty() {
            return Err(refused("nothing", RefusedWhy::Nothing));
        }
        pass_on(desk, &to, text);
        return Ok(Outcome::Ok(OkReply::Told { who: Some(who), number: 1 }));
    }
    let mut to: Vec<_> =
        desk.squad.swimmers.values().filter_map(|swimmer| way_to(desk, swimmer)).collect();
    to.sort();
    to.dedup();
    if to.is_empty() {
        return Err(refused("nothing", RefusedWhy::Nothing));
    }
    if !desk.confirmed {
        let asks = Asks::TellAll { text: text.to_owned(), number: to.len() };
        return Err(ask_yes(desk, asks, &Message { statements: vec![statement.clone()] }));
    }
    pass_on(desk, &to, text);
    Ok(Outcome::Ok(OkReply::Told { who: None, number: to.len() }))
}

/// Her address and language, unless she wants no texts or sent this one.
fn way_to(desk: &Desk<'_>, swimmer: &Swimmer) -> Option<(String, Language)> {
    let address = desk.squad.address_of(&swimmer.name)?;
    let member = desk.squad.members.get(address)?;
    let reached = !member.opted_out && address != desk.asked.from;
    let language = swimmer.language.at(desk.now()).copied().unwrap_or_default();
    reached.then(|| (address.to_owned(), language))
}

fn pass_on(desk: &mut Desk<'_>, to: &[(String, Language)], text: &str) {
    for (address, language) in to {
        let text = reply::voice(*language).passed_on(&reply::carried(text));
        desk.write_to(address, text);
    }
}
