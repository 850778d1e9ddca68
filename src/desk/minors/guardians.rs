//! A minor's guardian and a second grown-up: told of danger, asked before a stop is
//! lifted, looked for before anybody writes to a minor.

use jiff::Timestamp;

use crate::desk::decision::decided::Say;
use crate::desk::decision::desk::Desk;
use crate::desk::decision::refusing::{Stopped, refused};
use crate::desk::decision::view::View;
use crate::history::{AgeGroup, Called, Right};
use crate::message::Name;
use crate::reply::{CareLetter, CareRefusal, CautionKind, CautionReply, RefusedWhy, Voice};

/// Tells a minor's guardian of danger, pain or illness at once.
pub fn tell_guardian(desk: &mut Desk<'_>, who: &Name, kind: &CautionKind) {
    if !desk.is_minor(who) {
        return;
    }
    let Some(address) = desk.guardian_of(who).map(|guard| guard.address.clone()) else { return };
    if address == desk.asked.from {
        return;
    }
    let voice = desk.voice_for(&address);
    let caution = CautionReply { kind: kind.clone(), about: None };
    let first = voice.caution(&caution).into_iter().next().unwrap_or_default();
    let letter = CareLetter::ToGuardian { who: who.clone(), what: first };
    let text = voice.care_letter(&letter);
    match kind.is_danger() {
        true => desk.to_others.push(Say::calling(Called::Guardian, address, text)),
        false => desk.write_to(address, text),
    }
}

/// What a minor's stop still needs before it is lifted.
pub fn may_release(view: &View<'_>, who: &Name, stopped: Option<Timestamp>) -> Result<(), Stopped> {
    let (Some(since), Some(swimmer)) = (stopped, view.swimmer(who)) else { return Ok(()) };
    if view.age_group(swimmer) == AgeGroup::Adult {
        return Ok(());
    }
    let clinician = swimmer.clearance.is_some_and(|said| said >= since);
    let agreed = swimmer.guard.as_ref().and_then(|guard| guard.released);
    let guardian = agreed.is_some_and(|said| said >= since);
    if clinician && guardian {
        return Ok(());
    }
    let why =
        CareRefusal::StopNeeds { who: who.clone(), clinician: !clinician, guardian: !guardian };
    Err(refused("minor_stop", RefusedWhy::Care(why)))
}

impl View<'_> {
    /// True if what the sender writes to this swimmer goes out: to a minor only
    /// if a guardian reads it, and a second grown-up.
    pub fn may_write_to(&self, name: &Name) -> bool {
        let guardian = self.guardian_who_reads(name);
        let minor = self.squad.address_of(name).unwrap_or_default();
        !self.is_minor(name)
            || guardian.is_some_and(|guardian| self.second_adult(&[minor, &guardian]).is_some())
    }

    /// The guardian's address, unless they want no texts: who does not read
    /// protects nobody.
    pub fn guardian_who_reads(&self, name: &Name) -> Option<String> {
        let address = &self.guardian_of(name)?.address;
        self.reads(address).then(|| address.clone())
    }

    /// A grown-up on deck or the welfare officer, other than the sender and these.
    pub fn second_adult(&self, others: &[&str]) -> Option<String> {
        let other = |address: &&str| {
            *address != self.asked.from && !others.contains(address) && self.reads(address)
        };
        let on_deck = self.squad.holders(Right::RunEvening).find(other);
        on_deck.or_else(|| self.squad.holders(Right::HearWelfare).find(other)).map(str::to_owned)
    }
}

/// For whoever reads along.
pub fn copy_of(voice: Voice, who: &Name, words: &str) -> String {
    voice.care_letter(&CareLetter::CopyOf { who: who.clone(), words: words.to_owned() })
}
