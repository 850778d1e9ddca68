//! Words of harm or fear: answered, told to the welfare officer, and kept out
//! of everything else.
//!
//! The officer is told who wrote and when, not what. The words are kept nowhere, and
//! nobody else is told.

use super::SOON;
use crate::desk::decision::decided::Say;
use crate::desk::decision::desk::Desk;
use crate::desk::decision::view::View;
use crate::desk::minors::who_hears::Hears;
use crate::history::{Called, CareKind, Event};
use crate::message::{self, Matter};
use crate::reply::{CareLetter, CautionKind, CautionReply, Outcome};

/// Answers words of harm or fear.
pub fn welfare(desk: &mut Desk<'_>) -> Outcome {
    let told = tell(desk);
    answered(desk, told, desk.harm_of_another)
}

/// The answer, whether an officer is told or not.
fn answered(view: &View<'_>, officer: bool, of_another: bool) -> Outcome {
    let kind = CautionKind::Welfare {
        officer,
        of_another,
        call: view.squad.emergency_number(),
        helpline: view.squad.safe.helpline.clone(),
    };
    Outcome::Caution(CautionReply { kind, about: None })
}

/// The same answer again where the sender wrote of harm just before and what they write now
/// can't be read: `lol no sorry`, `ignore me`. Nobody is told twice.
pub fn again(desk: &mut Desk<'_>) -> Option<Outcome> {
    let now = desk.now();
    let records = desk.squad.safe.records.iter().rev();
    let mut late = records.take_while(|record| now.duration_since(record.at) <= SOON);
    let is_theirs =
        |what: &CareKind| matches!(what, CareKind::Disclosure { from } if *from == desk.asked.from);
    if !late.any(|record| is_theirs(&record.what)) {
        return None;
    }
    desk.private = true;
    desk.matter = Some(Matter::Harm);
    Some(answered(desk, true, false))
}

/// Tells the officer that a minor wrote, where the table of [`who_hears`] says so of
/// such words.
///
/// [`who_hears`]: crate::desk::minors::who_hears
pub fn tell_of_minor(desk: &mut Desk<'_>, matter: Matter) {
    if desk.minor_sender().is_some() && matter.row().officer == Hears::That {
        tell(desk);
    }
}

/// True where there is an officer to be told.
fn tell(desk: &mut Desk<'_>) -> bool {
    let officer = officer(desk);
    let from = desk.asked.from.to_owned();
    let who = desk.member().and_then(|member| member.name.clone());
    let told = officer.is_some();
    if let Some(officer) = officer {
        let by = who.as_ref().map_or_else(|| from.clone(), |who| format!("{who} ({from})"));
        let letter = CareLetter::Disclosure { by, squad: desk.squad.name.clone() };
        let text = desk.voice_for(&officer).care_letter(&letter);
        desk.to_others.push(Say::calling(Called::Officer, officer, text));
        desk.record(Event::CareRecorded { who, what: CareKind::Disclosure { from } });
    }
    told
}

/// Who is to hear of it: the first officer who wants texts, and neither wrote it
/// nor is named in it, by name or by office.
fn officer(view: &View<'_>) -> Option<String> {
    let named = message::names_officer(view.asked.text);
    let goes_by = |address: &str| {
        let member = view.squad.members.get(address);
        member
            .and_then(|member| member.name.as_ref())
            .is_some_and(|name| message::names_in(view.asked.text).any(|word| word == *name))
    };
    let officers = view.squad.safe.officers.iter().enumerate();
    officers
        .filter(|(at, _)| *at > 0 || !named)
        .map(|(_, address)| address)
        .find(|address| **address != view.asked.from && !goes_by(address) && view.reads(address))
        .cloned()
}
