//! What is done once a code has come back.

use super::codes::digest_of;
use super::inviting;
use super::outcomes::{belongs, office_done};
use crate::desk::decision::desk::Desk;
use crate::desk::decision::refusing::{Stopped, turned_down};
use crate::history::{Event, Pending, Right, Role};
use crate::message::Name;
use crate::reply::{Belonging, Grave, OfficeDone, OfficeLetter, OfficeRefusal, Outcome};

impl Desk<'_> {
    /// `confirm AB3K9Q`
    pub fn confirmed_by(&mut self, code: &str) -> Result<Outcome, Stopped> {
        let wrong = || turned_down("wrong_code", OfficeRefusal::WrongCode);
        let asked = self.squad.confirmation.clone();
        let asked =
            asked.filter(|asked| asked.by == self.asked.from && asked.until > self.asked.wall);
        let asked = asked.ok_or_else(wrong)?;
        // Whoever asked may have lost the right since.
        self.demand(Right::HandOver)?;
        // One guess: a wrong code ends it.
        self.record(Event::ConfirmationClosed);
        if asked.digest != digest_of(&self.squad.id.0, code) {
            return Err(wrong());
        }
        self.view.confirmed = true;
        let (outcome, what) = match asked.pending {
            Pending::NewCoach { address, name } => self.new_coach(address, name)?,
            Pending::HandOver { address, to } => self.handed_over(address, to),
            Pending::Goes { address } => self.goes(address)?,
        };
        let squad = self.squad.name.clone();
        let told = OfficeLetter::Confirmed { what, squad };
        self.tell(Right::HandOver, |voice| voice.office_letter(&told));
        Ok(outcome)
    }

    fn new_coach(
        &mut self,
        address: String,
        name: Option<Name>,
    ) -> Result<(Outcome, Grave), Stopped> {
        let who = name.as_ref().map_or_else(|| address.clone(), ToString::to_string);
        let outcome = inviting::asked_in(self, &address, Role::Coach, name)?;
        Ok((outcome, Grave::NewCoach { who }))
    }

    fn handed_over(&mut self, address: String, to: Name) -> (Outcome, Grave) {
        let mine = self.asked.from.to_owned();
        let role = Role::Coach;
        self.record(Event::RoleGiven { address: address.clone(), role, called: None });
        self.record(Event::RoleGiven { address: mine, role: Role::Assistant, called: None });
        let text = self.voice_for(&address).now_coach(&self.squad.name);
        self.write_to(address, text);
        (belongs(Belonging::HandedOver { to: to.clone() }), Grave::HandOver { to })
    }

    fn goes(&mut self, address: String) -> Result<(Outcome, Grave), Stopped> {
        let gone = || turned_down("no_office", OfficeRefusal::NoSuchOffice);
        let member = self.squad.members.get(&address).cloned().ok_or_else(gone)?;
        let who = member.goes_by().map_or_else(|| address.clone(), ToString::to_string);
        let what = match member.role {
            Role::WelfareOfficer => Grave::OfficerGoes,
            _ => Grave::CoachGoes { who: who.clone() },
        };
        self.parts(&address);
        Ok((office_done(OfficeDone::OutOfOffice { who }), what))
    }
}
