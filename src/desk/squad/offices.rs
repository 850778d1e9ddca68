//! Who holds an office in the squad, how one is taken, and who is called in
//! danger.

use std::sync::Arc;

use serde_json::{Value, json};

use super::office_words::{self, Said};
use super::outcomes::office_done;
use super::{codes, leaving};
use crate::desk::decision::desk::Desk;
use crate::desk::decision::refusing::{Stopped, refused, turned_down};
use crate::desk::safety::care;
use crate::history::{Event, Member, Right, Role};
use crate::message::{Kind, Name, People, Statement};
use crate::reply::{OfficeDone, OfficeLetter, OfficeRefusal, Outcome, RefusedWhy, StaffLine};

/// Answers a text about offices; `None` for all others.
pub fn answer(desk: &mut Desk<'_>, text: &str) -> Option<(Vec<Value>, Outcome)> {
    let said = office_words::said(text)?;
    let (read, done) = match said {
        Said::SecondContact(address) => {
            (json!({ "kind": "second_contact" }), second_contact(desk, address))
        }
        Said::Alerts { wanted, who } => {
            (json!({ "kind": "alerts", "wanted": wanted }), alerts(desk, wanted, who))
        }
        Said::Staff => (json!({ "kind": "staff" }), staff(desk)),
        Said::NewCode => (json!({ "kind": "new_code" }), new_code(desk)),
        Said::Confirm(code) => (json!({ "kind": "confirm" }), desk.confirmed_by(&code)),
        Said::Remove(address) => (json!({ "kind": "remove" }), remove(desk, &address)),
        Said::Overrule(who) => (
            json!({ "kind": "release", "who": who, "on_my_word": true }),
            care::overrule(desk, &who),
        ),
    };
    Some((vec![read], done.unwrap_or_else(|stopped| *stopped)))
}

/// `second contact +15550130`, `second contact off`
fn second_contact(desk: &mut Desk<'_>, address: Option<String>) -> Result<Outcome, Stopped> {
    desk.demand(Right::Invite)?;
    let named = address.is_some();
    if let Some(address) = &address {
        let squad = desk.squad.name.clone();
        let letter = OfficeLetter::SecondContact { squad };
        desk.ask_stranger(address, desk.voice_for(address).office_letter(&letter))?;
    }
    desk.record(Event::SecondContactNamed { address });
    Ok(office_done(OfficeDone::SecondContact { named }))
}

/// `alerts on`, `alerts off`, and the coach's `alerts off teal`
fn alerts(desk: &mut Desk<'_>, wanted: bool, who: Option<Name>) -> Result<Outcome, Stopped> {
    let mine = desk.asked.from.to_owned();
    let not_here = || refused("not_a_member", RefusedWhy::NotAMember);
    let Some(who) = who else {
        let member = desk.member().ok_or_else(not_here)?.clone();
        let is_minor = member.names().any(|name| desk.is_minor(name));
        if wanted && is_minor {
            return Err(turned_down("minor", OfficeRefusal::Minor));
        }
        desk.record(Event::StandsBy { address: mine, wanted });
        if wanted {
            let who = desk.goes_by_here();
            let letter = OfficeLetter::StandsBy { who };
            desk.tell(Right::Invite, |voice| voice.office_letter(&letter));
        }
        return Ok(office_done(OfficeDone::StandsBy(wanted)));
    };
    desk.demand(Right::Invite)?;
    let address = desk.squad.address_of(&who).map(str::to_owned);
    let address = address.filter(|_| !wanted).ok_or_else(|| desk.who_is(&who))?;
    desk.record(Event::StandsBy { address, wanted });
    Ok(office_done(OfficeDone::StoodDown { who }))
}

/// `staff`: everybody who holds an office, with where they text from.
fn staff(desk: &mut Desk<'_>) -> Result<Outcome, Stopped> {
    if !desk.may(Right::HearWelfare) {
        desk.demand(Right::Remove)?;
    }
    let line = |(address, member): (&String, &Arc<Member>)| StaffLine {
        role: Some(member.role),
        called: member.goes_by().cloned(),
        address: address.clone(),
    };
    let holders = desk.squad.members.iter().filter(|(_, member)| member.role != Role::Swimmer);
    let mut all: Vec<StaffLine> = holders.map(line).collect();
    let place = |one: &StaffLine| Role::ALL.iter().position(|role| one.role == Some(*role));
    all.sort_by_key(place);
    let second = desk.squad.safe.second_contact.iter();
    all.extend(second.map(|to| StaffLine { role: None, called: None, address: to.clone() }));
    Ok(office_done(OfficeDone::Staff(all)))
}

/// `new code`
fn new_code(desk: &mut Desk<'_>) -> Result<Outcome, Stopped> {
    desk.demand(Right::Invite)?;
    let code = codes::code(desk, "join", JOIN_LETTERS);
    desk.record(Event::CodeRenewed { code: code.clone() });
    Ok(office_done(OfficeDone::CodeRenewed { code }))
}

/// As many letters as a code has that a squad is opened with.
const JOIN_LETTERS: usize = 8;

/// `remove +15550111`: whoever holds an office and texts from there.
fn remove(desk: &mut Desk<'_>, address: &str) -> Result<Outcome, Stopped> {
    if address == desk.asked.from {
        return leaving::leave(desk, &Statement { who: None, kind: Kind::People(People::Leave) });
    }
    let of_officers = desk.may(Right::HearWelfare) && desk.squad.may(address, Right::HearWelfare);
    if !of_officers {
        desk.demand(Right::Remove)?;
    }
    let second = desk.squad.safe.second_contact.as_deref() == Some(address);
    if second {
        desk.record(Event::SecondContactNamed { address: None });
    }
    match desk.squad.members.get(address) {
        Some(member) if member.role != Role::Swimmer => desk.out_of_office(address),
        _ if second => Ok(office_done(OfficeDone::OutOfOffice { who: address.to_owned() })),
        _ => Err(turned_down("no_office", OfficeRefusal::NoSuchOffice)),
    }
}
