//! Codes that one address alone gets: who sends in another's name does not see one.

use jiff::{Timestamp, ToSpan};

use super::outcomes::office_done;
use crate::desk::decision::desk::Desk;
use crate::desk::decision::questions_back::ask_yes;
use crate::desk::decision::refusing::Stopped;
use crate::desk::decision::view::View;
use crate::digest;
use crate::history::{Confirmation, Event, Pending};
use crate::message::{Kind, Message, Name, People, Statement};
use crate::reply::{Asks, Grave, OfficeDone, OfficeLetter, Outcome};

/// How many letters a code has: guessed once, it is gone.
pub const LETTERS: usize = 6;

/// How long a code waits (ours).
const WAITS_HOURS: i64 = 24;

impl Desk<'_> {
    /// Asked about once, then done.
    pub fn sure(&mut self, asks: Asks, who: Option<Name>, said: People) -> Result<(), Stopped> {
        if self.confirmed {
            return Ok(());
        }
        let statement = Statement { who, kind: Kind::People(said) };
        Err(ask_yes(self, asks, &Message { statements: vec![statement] }))
    }

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
        let text = self.voice_for(&to).office_letter(&letter);
        self.write_to(to, text);
        office_done(OfficeDone::CodeSent { what, mine })
    }
}

/// A code that nobody can guess who doesn't know the squad's id, which is
/// random and told to nobody in the squad; the same for the same text.
pub fn code(view: &View<'_>, of: &str, letters: usize) -> String {
    const LETTERS: &[u8; 32] = b"ABCDEFGHJKLMNPQRSTUVWXYZ23456789";
    let cause = view.cause.to_string();
    let bytes = digest::of([&*view.squad.id.0, &view.squad.code, &cause, of]);
    let letter = |byte: &u8| LETTERS.get(usize::from(byte % 32)).map(|letter| char::from(*letter));
    bytes.iter().take(letters).filter_map(letter).collect()
}

/// What is kept of a code.
pub fn digest_of(squad: &str, code: &str) -> String {
    digest::hex(&digest::of([squad, "confirm", code]))
}

/// An invitation as a coach waits for the code.
pub fn as_coach(address: &str, name: Option<&Name>) -> (Pending, Grave) {
    let name = name.cloned();
    let who = name.as_ref().map_or_else(|| address.to_owned(), ToString::to_string);
    (Pending::NewCoach { address: address.to_owned(), name }, Grave::NewCoach { who })
}
