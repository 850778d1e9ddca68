//! Words of harm or fear: answered, told to the welfare officer, and kept out
//! of everything else.
//!
//! The officer is told who wrote and when, not what: the words are kept
//! nowhere, and nobody else is told by machine.

use super::bench::Desk;
use super::safeguards::care_letter;
use crate::message;
use crate::profile::{CareKind, Event};
use crate::reply::{CareLetter, CautionKind, CautionReply, Outcome};

/// Answers words of harm or fear.
pub fn welfare(desk: &mut Desk<'_>) -> Outcome {
    let officer = officer(desk);
    let from = desk.asked.from.to_owned();
    let who = desk.member().and_then(|member| member.name.clone());
    if let Some(officer) = officer.clone() {
        let by = who.as_ref().map_or_else(|| from.clone(), |who| format!("{who} ({from})"));
        let letter = CareLetter::Disclosure { by, squad: desk.squad.name.clone() };
        desk.write_to(officer, care_letter(&letter));
        desk.record(Event::CareRecorded { who, what: CareKind::Disclosure { from } });
    }
    let kind = CautionKind::Welfare {
        officer: officer.is_some(),
        helpline: desk.squad.safe.helpline.clone(),
    };
    Outcome::Caution(CautionReply { kind, about: None })
}

/// Who is to hear of it: the first officer who neither wrote it nor is named in
/// it, by name or by office.
fn officer(desk: &Desk<'_>) -> Option<String> {
    let named = message::names_officer(desk.asked.text);
    let goes_by = |address: &str| {
        let member = desk.squad.members.get(address);
        member
            .and_then(|member| member.name.as_ref())
            .is_some_and(|name| message::names_in(desk.asked.text).any(|word| word == *name))
    };
    let officers = desk.squad.safe.officers.iter().enumerate();
    officers
        .filter(|(at, _)| *at > 0 || !named)
        .map(|(_, address)| address)
        .find(|address| **address != desk.asked.from && !goes_by(address))
        .cloned()
}
