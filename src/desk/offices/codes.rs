//! What is done only once a code has come back that one address alone got: who
//! sends in another's name does not see it.

use jiff::{Timestamp, ToSpan};

use super::{belongs, office_done, office_letter, turned_down};
use crate::desk::belonging;
use crate::desk::bench::{Desk, Stopped};
use crate::digest;
use crate::language::Language;
use crate::message::Name;
use crate::profile::{Confirmation, Event, Pending, Right, Role};
use crate::reply::{self, Belonging, Grave, OfficeDone, OfficeLetter, OfficeRefusal, Outcome};

/// How many letters a code has: guessed once, it is gone.
pub const LETTERS: usize = 6;

/// How long a code waits (ours).
const WAITS_HOURS: i64 = 24;

/// A code that nobody can guess who doesn't know the squad's id, which is
/// random and told to nobody in the squad; the same for the same text.
pub fn code(desk: &Desk<'_>, of: &str, letters: usize) -> String {
    const LETTERS: &[u8; 32] = b"ABCDEFGHJKLMNPQRSTUVWXYZ23456789";
    let cause = desk.cause.to_string();
    let bytes = digest::of([&*desk.squad.id.0, &desk.squad.code, &cause, of]);
    bytes.iter().take(letters).map(|byte| char::from(LETTERS[usize::from(byte % 32)])).collect()
}

impl Desk<'_> {
    /// Does nothing yet, and sends a code to the one address that may confirm it:
    /// the sender's, or the welfare officer's who is to go.
    pub fn wants_code(&mut self, pending: Pending, what: Grave) -> Outcome {
        let code = code(self, "confirm", LETTERS);
        let to = match (&what, &pending) {
            (Grave::OfficerGoes, Pending::Goes { address }) => address.clone(),
            _ => self.asked.from.to_owned(),
        };
        let mine = to == self.asked.from;
        let until = self.asked.wall.checked_add(WAITS_HOURS.hours()).unwrap_or(Timestamp::MAX);
        let confirmation = Confirmation {
            by: self.asked.from.to_owned(),
            pending,
            digest: digest_of(&self.squad.id.0, &code),
            until,
        };
        self.record(Event::ConfirmationAsked { confirmation });
        let squad = self.squad.name.clone();
        let letter = OfficeLetter::Code { what: what.clone(), code, squad };
        self.write_to(to, office_letter(&letter));
        office_done(OfficeDone::CodeSent { what, mine })
    }

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
        self.confirmed = true;
        let (outcome, what) = match asked.pending {
            Pending::NewCoach { address, name } => self.new_coach(address, name)?,
            Pending::HandOver { address, to } => self.handed_over(address, to),
            Pending::Goes { address } => self.goes(address)?,
        };
        let squad = self.squad.name.clone();
        let told = office_letter(&OfficeLetter::Confirmed { what, squad });
        self.tell(Right::HandOver, &told);
        Ok(outcome)
    }

    fn new_coach(
        &mut self,
        address: String,
        name: Option<Name>,
    ) -> Result<(Outcome, Grave), Stopped> {
        let who = name.as_ref().map_or_else(|| address.clone(), ToString::to_string);
        let outcome = belonging::asked_in(self, &address, Role::Coach, name)?;
        Ok((outcome, Grave::NewCoach { who }))
    }

    fn handed_over(&mut self, address: String, to: Name) -> (Outcome, Grave) {
        let mine = self.asked.from.to_owned();
        let role = Role::Coach;
        self.record(Event::RoleGiven { address: address.clone(), role, called: None });
        self.record(Event::RoleGiven { address: mine, role: Role::Assistant, called: None });
        let text = reply::voice(Language::English).now_coach(&self.squad.name);
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

/// What is kept of a code.
fn digest_of(squad: &str, code: &str) -> String {
    digest::hex(&digest::of([squad, "confirm", code]))
}

/// An invitation as a coach waits for the code.
pub fn as_coach(address: &str, name: Option<&Name>) -> (Pending, Grave) {
    let name = name.cloned();
    let who = name.as_ref().map_or_else(|| address.to_owned(), ToString::to_string);
    (Pending::NewCoach { address: address.to_owned(), name }, Grave::NewCoach { who })
}
