//! What is shown to whoever owns the folder: how a text would be read, a letter with
//! its words, and the letters that came for somebody. Nothing of it is stored.

use jiff::Timestamp;
use serde::{Deserialize, Serialize};
use serde_json::Value;

use super::letter::Logged;
use super::record::Record;
use super::{Failure, Letter, LetterNumber, LetterState, Service, Undelivered, Via};
use crate::desk::{self, Say};
use crate::history::{Squad, SquadId, StrangersAsked};
use crate::journal::{Seq, StreamId};
use crate::message::Name;
use crate::reading::Trace;

/// A text whose reading is to be shown.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Showing {
    /// Of which squad; without it, of the one that the sender means, or the only one.
    pub squad: Option<SquadId>,
    /// Who would text it: a name, or an address.
    pub from: String,
    /// The text.
    pub text: String,
}

/// How a text would be read, and what would be answered.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Shown {
    /// How it is read, as a text of its own.
    #[serde(flatten)]
    pub trace: Trace,
    /// What would be understood, in the contract's form; an open question is heeded.
    pub understood: Vec<Value>,
    /// What its sender would be told.
    pub reply: Vec<String>,
    /// How many others would be written to.
    pub letters: usize,
}

/// A letter, as whoever owns the folder sees it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct LetterSeen {
    /// Its number.
    pub number: LetterNumber,
    /// Its `webhook-id`.
    pub id: String,
    /// To whom.
    pub to: String,
    /// To which room, if to one.
    pub room: Option<String>,
    /// When the message came that caused it.
    pub written: Timestamp,
    /// It is an alarm's.
    pub alarm: bool,
    /// Its words.
    pub text: String,
    /// How it stands; nothing once it is delivered.
    pub undelivered: Option<Undelivered>,
}

/// Whose letters are waited for.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Waiting {
    /// To this address, in private.
    pub to: String,
    /// To this room.
    pub room: Option<String>,
    /// Written behind this place in the log; without it, none that is there.
    pub after: Option<u64>,
}

/// Letters that came, and up to which place in the log that is all.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Arrived {
    /// The place.
    pub through: u64,
    /// The letters, in the order in which they were written.
    pub letters: Vec<Arrival>,
}

/// A letter that came.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Arrival {
    /// Not to be seen before, where it waits for the morning.
    pub due: Option<Timestamp>,
    /// Its words.
    pub text: String,
}

impl Service {
    /// How a member's text would be read now, and what would be answered.
    ///
    /// # Errors
    /// [`Failure::Refused`] where it can't be told which squad, and for somebody who
    /// is not in it.
    pub fn shown(&self, showing: &Showing) -> Result<Shown, Failure> {
        let refused = |why: String| Failure::Refused(why);
        let world = self.world();
        // Somebody in several texts to the one they named last.
        let in_hand = world.in_hand(&showing.from);
        let id = self.the_squad(&world, showing.squad.as_ref().or(in_hand.as_ref()))?;
        let seat = world.room(&id).map_err(|error| self.failed(&error))?;
        let seat = seat.ok_or_else(|| refused(format!("there is no squad `{}`", id.0)))?;
        let room = seat.enter();
        let from = address_of(&room.squad, &showing.from).ok_or_else(|| {
            let who = &showing.from;
            refused(format!("nobody of the squad who texts is called `{who}` or texts from there"))
        })?;
        let wall = self.now();
        let now = self.shown_as_of(room.squad.as_of, wall);
        let nobody = StrangersAsked::default();
        let asked = self.looking(&from, now, wall, &nobody);
        let asked = desk::Asked { text: &showing.text, ..asked };
        let trace = desk::traced(&room.squad, &asked);
        let decision = desk::answer(&room.squad, &asked);
        let is_mine = |say: &Say| say.to.is_none();
        let (mine, others): (Vec<Say>, Vec<Say>) = decision.said.into_iter().partition(is_mine);
        Ok(Shown {
            trace,
            understood: decision.understood,
            reply: mine.into_iter().map(|say| say.text).collect(),
            letters: others.len(),
        })
    }

    /// A letter with its words, delivered or not.
    ///
    /// # Errors
    /// [`Failure::Refused`] where there is none of that number.
    pub fn letter_seen(&self, number: LetterNumber) -> Result<LetterSeen, Failure> {
        let none = || Failure::Refused(format!("there is no letter {number}"));
        let found = self.journal.entry(Seq::new(number.place));
        let placed = found.map_err(|error| self.failed(&error))?.ok_or_else(none)?;
        let logged = Logged::read(&placed.entry.body).map_err(|error| self.failed(&error))?;
        let Logged::Message(record) = logged else { return Err(none()) };
        let Letter { id, written, spoken, .. } = Letter::of(*record, number).ok_or_else(none)?;
        let undelivered = self.undelivered()?.into_iter().find(|one| one.number == number);
        Ok(LetterSeen {
            number,
            id,
            to: spoken.to,
            room: spoken.room,
            written,
            alarm: spoken.alarm.is_some(),
            text: spoken.text,
            undelivered,
        })
    }

    /// The letters that came for somebody.
    ///
    /// # Errors
    /// [`Failure::Unavailable`] where the journal can't be read now.
    pub fn arrived(&self, waiting: &Waiting) -> Result<Arrived, Failure> {
        let last = self.journal.last().map_or(0, Seq::number);
        let Some(after) = waiting.after else {
            return Ok(Arrived { through: last, letters: vec![] });
        };
        let (mut through, mut letters) = (after, Vec::new());
        for placed in self.journal.entries_of(&StreamId::all(), after) {
            let placed = placed.map_err(|error| self.failed(&error))?;
            through = placed.place.number();
            let logged = Logged::read(&placed.entry.body).map_err(|error| self.failed(&error))?;
            if let Logged::Message(record) = logged {
                letters.extend(waiting.of(*record));
            }
        }
        Ok(Arrived { through, letters })
    }
}

impl Waiting {
    fn of(&self, record: Record) -> impl Iterator<Item = Arrival> + '_ {
        let is_it = |reply: &super::Spoken| {
            let here = match &self.room {
                Some(room) => reply.room.as_ref() == Some(room),
                None => reply.room.is_none() && reply.to == self.to,
            };
            here && reply.via == Via::Outbox && !reply.text.is_empty()
        };
        let letters = record.replies.into_iter().filter(is_it).collect::<Vec<_>>();
        letters.into_iter().map(|reply| Arrival { due: reply.due, text: reply.text })
    }
}

impl LetterSeen {
    /// How it stands, in words.
    pub fn standing(&self) -> String {
        match self.undelivered.as_ref().map(|one| one.state) {
            None => "delivered".to_owned(),
            Some(LetterState::Waiting(None)) => "waiting for its turn".to_owned(),
            Some(LetterState::Waiting(Some(next))) => format!("waiting until {next:.0}"),
            Some(LetterState::Dead(at)) => format!("dead since {at:.0}"),
        }
    }
}

/// The address that a name of the squad texts from, or the address itself.
fn address_of(squad: &Squad, word: &str) -> Option<String> {
    if squad.members.contains_key(word) {
        return Some(word.to_owned());
    }
    let name = Name::new(word).ok()?;
    squad.address_of(&name).map(str::to_owned)
}
