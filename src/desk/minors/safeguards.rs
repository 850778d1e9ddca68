//! Texts about who looks after whom: the welfare officer, the helpline,
//! guardians, and who read of anyone's health.

use serde_json::{Value, json};

use crate::desk::decision::desk::Desk;
use crate::desk::decision::refusing::{Stopped, refused};
use crate::history::{CareKind, Event, ReadWhat, Right, Role, Safeguards, Swimmer};
use crate::message::{self, Kind, Message, Name, Reading, Safeguard};
use crate::reply::{
    CareDone, CareLetter, CareRefusal, OkReply, Outcome, RecordLine, RefusedWhy, SeenLine,
};

/// How many of the latest are told.
const TOLD: usize = 5;

/// Answers a text about who looks after whom; `None` for all others.
pub fn answer(desk: &mut Desk<'_>, text: &str) -> Option<(Vec<Value>, Outcome)> {
    if let Some(answered) = guardians_word(desk, text) {
        return Some(answered);
    }
    let said = message::safeguard(text)?;
    let (read, done) = match said {
        Safeguard::Officer { address } => ("welfare_officer", officer(desk, address)),
        Safeguard::Emergency { number } => ("emergency_number", emergency(desk, number)),
        Safeguard::Helpline { text } => ("helpline", helpline(desk, text)),
        Safeguard::Guardian { who, address } => ("guardian", guardian(desk, who, address)),
        Safeguard::WhoRead { who } => ("who_read", who_read(desk, who)),
        Safeguard::Records => ("records", records(desk)),
    };
    Some((vec![json!({ "kind": read })], done.unwrap_or_else(|stopped| *stopped)))
}

fn done(what: CareDone) -> Outcome {
    Outcome::Ok(OkReply::Care(what))
}

/// The coach names the first officer, and only an officer the next: so nobody can make
/// a friend the one who reads complaints about them.
fn officer(desk: &mut Desk<'_>, address: String) -> Result<Outcome, Stopped> {
    let first = desk.squad.safe.officers.is_empty();
    let may = desk.may(Right::HearWelfare) || (first && desk.may(Right::Invite));
    if !may {
        return Err(refused("officer_only", RefusedWhy::Care(CareRefusal::OfficerOnly)));
    }
    if desk.squad.members.get(&address).is_some_and(|member| member.role == Role::Coach) {
        return Err(refused("officer_apart", RefusedWhy::Care(CareRefusal::OfficerApart)));
    }
    desk.demand_number(&address)?;
    let squad = desk.squad.name.clone();
    // Somebody must hear of harm, so no limit on texts to strangers holds here; but an officer
    // is told only once that they are one.
    if !desk.squad.safe.officers.contains(&address) {
        let text = desk.voice_for(&address).care_letter(&CareLetter::NowOfficer { squad });
        desk.tell_stranger(&address, text);
    }
    desk.record(Event::RoleGiven { address, role: Role::WelfareOfficer, called: None });
    Ok(done(CareDone::OfficerNamed { opens: first && desk.squad.minors }))
}

fn helpline(desk: &mut Desk<'_>, text: String) -> Result<Outcome, Stopped> {
    if !desk.may(Right::HearWelfare) {
        desk.demand(Right::Invite)?;
    }
    desk.record(Event::HelplineSet { text });
    Ok(done(CareDone::HelplineKept))
}

fn emergency(desk: &mut Desk<'_>, number: String) -> Result<Outcome, Stopped> {
    desk.demand(Right::Invite)?;
    desk.record(Event::EmergencyNumberSet { number: number.clone() });
    Ok(done(CareDone::EmergencyNumberKept { number }))
}

/// The child or the coach gives the guardian's address; the guardian is asked.
fn guardian(desk: &mut Desk<'_>, who: Option<Name>, address: String) -> Result<Outcome, Stopped> {
    let who = match who {
        None => desk.me().cloned(),
        Some(who) if desk.member().and_then(|member| member.name.as_ref()) == Some(&who) => {
            Some(who)
        }
        Some(who) => {
            desk.demand(Right::Invite)?;
            Some(who)
        }
    };
    let who = who.ok_or_else(|| refused("not_a_swimmer", RefusedWhy::NotASwimmer))?;
    if desk.swimmer(&who).is_none() {
        return Err(desk.who_is(&who));
    }
    // They can't answer for themselves; and who has a guardian keeps that one until
    // the coach says otherwise.
    let coach = desk.may(Right::Invite);
    let agreed = desk.swimmer(&who).and_then(|swimmer| swimmer.guard.as_ref());
    let agreed = agreed.is_some_and(|guard| guard.agreed.is_some());
    if !coach && (address == desk.asked.from || agreed) {
        return Err(refused("guardian", RefusedWhy::Care(CareRefusal::CoachNamesGuardian)));
    }
    let squad = desk.squad.name.clone();
    let letter = CareLetter::AskGuardian { who: who.clone(), squad };
    let text = desk.voice_for(&address).care_letter(&letter);
    let answers_for = |ward: &Swimmer| ward.guard.as_ref().is_some_and(|one| one.agreed.is_some());
    let knows_us = desk.squad.wards(&address).any(answers_for);
    match knows_us {
        // By another child.
        true => desk.write_to(address.as_str(), text),
        false => desk.ask_stranger(&address, text)?,
    }
    desk.record(Event::GuardianAsked { who: who.clone(), address });
    Ok(done(CareDone::GuardianAsked { who }))
}

/// A guardian's yes, no, or word that a stop may be lifted.
fn guardians_word(desk: &mut Desk<'_>, text: &str) -> Option<(Vec<Value>, Outcome)> {
    let wards = || desk.squad.wards(desk.asked.from);
    // Every text comes by here, few are a guardian's.
    wards().next()?;
    let asked =
        wards().find(|swimmer| swimmer.guard.as_ref().is_some_and(|guard| guard.agreed.is_none()));
    let asked = asked.map(|swimmer| swimmer.name.clone());
    let Reading::Understood(Message { statements }) = message::parse(text.trim(), desk.language())
    else {
        return None;
    };
    let [one] = statements.as_slice() else { return None };
    let waits = desk.open_question().is_some();
    match (&one.kind, asked) {
        (Kind::Yes, Some(who)) if !waits => {
            desk.record(Event::GuardianAgreed { who: who.clone() });
            let agreed = CareLetter::GuardianAgreed { who: who.clone() };
            desk.tell(Right::Invite, |voice| voice.care_letter(&agreed));
            Some((vec![json!({ "kind": "yes" })], done(CareDone::GuardianAgreed { who })))
        }
        (Kind::No, Some(who)) if !waits => {
            desk.record(Event::GuardianEnded { who: who.clone() });
            Some((vec![json!({ "kind": "no" })], done(CareDone::GuardianEnded { who })))
        }
        (Kind::Release, _) if !desk.may(Right::Release) => {
            let who = one.who.clone().or_else(|| desk.ward().cloned())?;
            if !desk.is_ward(&who) {
                return None;
            }
            desk.record(Event::GuardianReleased { who: who.clone() });
            let releases = CareLetter::GuardianReleases { who: who.clone() };
            desk.tell(Right::Release, |voice| voice.care_letter(&releases));
            Some((
                vec![json!({ "kind": "release", "who": who })],
                done(CareDone::GuardianReleases { who }),
            ))
        }
        _ => None,
    }
}

/// Who saw of their health, for themselves, their guardian and the officer.
fn who_read(desk: &mut Desk<'_>, who: Option<Name>) -> Result<Outcome, Stopped> {
    let who = match who {
        None => desk.me().cloned(),
        Some(who) if desk.me() == Some(&who) || desk.is_ward(&who) => Some(who),
        Some(who) if desk.may(Right::HearWelfare) => Some(who),
        Some(_) => {
            return Err(refused("officer_only", RefusedWhy::Care(CareRefusal::OfficerOnly)));
        }
    };
    let who = who.ok_or_else(|| refused("not_a_swimmer", RefusedWhy::NotASwimmer))?;
    let now = desk.now();
    let reads = desk.squad.safe.reads.iter().filter(|read| read.at <= now);
    let theirs: Vec<_> = reads.filter(|read| read.who.contains(&who)).collect();
    let latest = theirs.iter().rev().take(TOLD).map(|read| SeenLine {
        on: desk.squad.local_day(read.at),
        role: desk.squad.members.get(&read.by).map(|member| member.role),
        what: read.what,
    });
    Ok(done(CareDone::Seen { who, times: theirs.len(), latest: latest.collect() }))
}

/// What is kept apart, for the officer alone.
fn records(desk: &mut Desk<'_>) -> Result<Outcome, Stopped> {
    if !desk.may(Right::HearWelfare) {
        return Err(refused("officer_only", RefusedWhy::Care(CareRefusal::OfficerOnly)));
    }
    let safe = &desk.squad.safe;
    let line = |record: &crate::history::CareRecord| RecordLine {
        on: desk.squad.local_day(record.at),
        who: record.who.clone(),
        what: record.what.clone(),
    };
    let apart = |of: fn(&CareKind) -> bool| safe.records.iter().filter(|one| of(&one.what)).count();
    let told = safe.records.iter().rev();
    let told = told.filter(|one| !matches!(one.what, CareKind::ToMinor { .. }));
    Ok(done(CareDone::Records {
        accidents: apart(|what| matches!(what, CareKind::Accident { .. })),
        disclosures: apart(|what| matches!(what, CareKind::Disclosure { .. })),
        to_minors: apart(|what| matches!(what, CareKind::ToMinor { .. })),
        years: safe.keep_years.unwrap_or(Safeguards::KEEP_YEARS),
        latest: told.take(TOLD).map(line).collect(),
    }))
}

impl Desk<'_> {
    /// Keeps that the sender read of these swimmers' health.
    pub fn has_seen(&mut self, who: Vec<Name>, what: ReadWhat) {
        let me = self.me().cloned();
        let who: Vec<Name> = who.into_iter().filter(|who| me.as_ref() != Some(who)).collect();
        if !who.is_empty() {
            let by = self.asked.from.to_owned();
            self.record(Event::HealthSeen { who, by, what });
        }
    }
}
