//! What is asked of the desk, and what it decides.

use jiff::Timestamp;
use serde_json::Value;

use super::Held;
use super::board::BoardDoor;
use super::rooms::Aside;
use crate::coaching::Rulebook;
use crate::profile::{AskedIn, Called, Event, Squad, Touched};
use crate::reply::Outcome;

/// A text, who sent it, and the instants that count.
#[derive(Debug, Clone, Copy)]
pub struct Asked<'a> {
    /// The sender's address.
    pub from: &'a str,
    /// The group chat it was said in, if any.
    pub room: Option<&'a str>,
    /// What was said.
    pub text: &'a str,
    /// What counts as now for all that it causes.
    pub now: Timestamp,
    /// The rules of coaching with the numbers in force.
    pub book: &'a Rulebook,
    /// The wall clock: what an open question expires by.
    pub wall: Timestamp,
    /// Where the squad's page can be seen, where there is a server for it.
    pub board: Option<&'a BoardDoor>,
    /// The squads that the sender is in, by name.
    pub squads: &'a [String],
    /// The text began with this squad's name, which is cut off.
    pub takes: bool,
    /// The sender wants no texts, whichever squad that was said to.
    pub opted_out: bool,
    /// Who was written to that had asked for nothing.
    pub asked_in: &'a AskedIn,
    /// An alarm that the sender raised has reached nobody yet, and she was not told
    /// in an answer: the place in the log of the message that raised it.
    pub unheard: Option<u64>,
    /// Letters go out: without that nobody can be called.
    pub calls: bool,
}

impl<'a> Asked<'a> {
    /// A text said in private, as it comes, by somebody who is in no other squad and
    /// waits for nothing: what is otherwise is set beside it.
    pub const fn alone(
        from: &'a str,
        text: &'a str,
        now: Timestamp,
        book: &'a Rulebook,
        asked_in: &'a AskedIn,
    ) -> Asked<'a> {
        Asked {
            from,
            room: None,
            text,
            now,
            book,
            wall: now,
            board: None,
            squads: &[],
            takes: false,
            opted_out: false,
            asked_in,
            unheard: None,
            calls: true,
        }
    }
}

/// What the desk decided.
#[derive(Debug)]
pub struct Decision {
    /// What happened, to be stored before anything is said.
    pub events: Vec<Event>,
    /// The sender's words are not to be kept.
    pub private: bool,
    /// What to say to the sender, and to others.
    pub said: Vec<Say>,
    /// What only the sender may hear, where it was said in a room.
    pub aside: Option<Aside>,
    /// What of it waits for the morning.
    pub held: Held,
    /// What was read, one entry a statement, in the contract's form.
    pub understood: Vec<Value>,
    /// What it came to.
    pub outcome: Outcome,
    /// The outcome in the contract's form.
    pub result: Value,
    /// The squad with the events folded in.
    pub squad: Squad,
    /// What of it they changed.
    pub touched: Vec<Touched>,
}

/// Words for one address.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Say {
    /// To whom; `None` is the sender.
    pub to: Option<String>,
    /// The words.
    pub text: String,
    /// They are an alarm's, and call this one as what.
    pub alarm: Option<Called>,
}

impl Say {
    /// Words for the sender.
    pub fn back(text: String) -> Self {
        Self { to: None, text, alarm: None }
    }

    /// A letter.
    pub fn to(address: impl Into<String>, text: impl Into<String>) -> Self {
        Self { to: Some(address.into()), text: text.into(), alarm: None }
    }

    /// A letter of an alarm.
    pub fn calling(called: Called, address: impl Into<String>, text: impl Into<String>) -> Self {
        Self { alarm: Some(called), ..Self::to(address, text) }
    }
}
