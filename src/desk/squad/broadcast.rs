//! What the coach has passed on: to one swimmer, or to all. A swimmer's own words go
//! another way ([`passing_on`]).

use super::passing_on;
use crate::desk::decision::desk::Desk;
use crate::desk::decision::letters::way_to;
use crate::desk::decision::questions_back::ask_yes;
use crate::desk::decision::refusing::{Stopped, refused};
use crate::desk::decision::words_for_deck;
use crate::history::{Right, Swimmer};
use crate::language::Language;
use crate::message::{Message, Name, Statement};
use crate::reply::{self, Asks, CareRefusal, OkReply, Outcome, RefusedWhy};

/// `tell heron: cap on`, `tell all: pool shut`. To all it is asked about first,
/// as it can't be taken back. A minor is written to only where a guardian and a
/// second grown-up read it; who is left out for that is named.
pub fn tell(desk: &mut Desk<'_>, statement: &Statement, text: &str) -> Result<Outcome, Stopped> {
    if words_for_deck::is_for_deck(desk, statement) {
        return passing_on::pass_on(desk, statement, text);
    }
    desk.demand(Right::Broadcast)?;
    if statement.who.is_some() {
        let who = desk.subject(statement)?;
        if !desk.may_write_to(&who) {
            let why = CareRefusal::NoSecondAdult { who };
            return Err(refused("second_adult", RefusedWhy::Care(why)));
        }
        let to: Vec<_> =
            desk.swimmer(&who).into_iter().filter_map(|one| way_to(desk, one)).collect();
        if to.is_empty() {
            return Err(refused("nothing", RefusedWhy::Nothing));
        }
        pass_on(desk, &to, text);
        return Ok(Outcome::Ok(OkReply::Told { who: Some(who), number: 1, left_out: vec![] }));
    }
    let (reached, left_out): (Vec<&Swimmer>, Vec<&Swimmer>) = desk
        .squad
        .swimmers
        .values()
        .map(AsRef::as_ref)
        .partition(|swimmer| desk.may_write_to(&swimmer.name));
    let left_out: Vec<Name> = left_out.into_iter().map(|swimmer| swimmer.name.clone()).collect();
    let mut to: Vec<_> = reached.into_iter().filter_map(|swimmer| way_to(desk, swimmer)).collect();
    to.sort();
    to.dedup();
    if to.is_empty() {
        return Err(match left_out.into_iter().next() {
            Some(who) => {
                refused("second_adult", RefusedWhy::Care(CareRefusal::NoSecondAdult { who }))
            }
            None => refused("nothing", RefusedWhy::Nothing),
        });
    }
    if !desk.confirmed {
        let asks = Asks::TellAll { text: text.to_owned(), number: to.len() };
        return Err(ask_yes(desk, asks, &Message { statements: vec![statement.clone()] }));
    }
    pass_on(desk, &to, text);
    Ok(Outcome::Ok(OkReply::Told { who: None, number: to.len(), left_out }))
}

fn pass_on(desk: &mut Desk<'_>, to: &[(String, Language)], text: &str) {
    for (address, language) in to {
        let text = reply::voice(*language).passed_on(&reply::carried(text));
        desk.write_to(address, text);
    }
}
