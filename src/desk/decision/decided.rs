//! What the desk decides: what happened, what is said to whom, and what waits.

use jiff::Timestamp;
use serde_json::Value;

use crate::history::{Called, Event, Squad, Touched};
use crate::reply::{Asks, Outcome};

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
    /// What is held back until the morning.
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
    /// Of an alarm's words: as what this address is called, coach or contact.
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

/// What is held back, and until when.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Held {
    /// When it may go out; nothing waits without it.
    pub until: Option<Timestamp>,
    /// The answer to the sender waits too.
    pub answer: bool,
    /// Addresses that are not written to before.
    pub to: Vec<String>,
}

/// What only the sender may hear of an answer to a text in a room.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Aside {
    /// The words.
    pub text: String,
    /// What the room hears where the sender gets them, if anything.
    pub told: Option<String>,
    /// What the room hears where there is no way to them alone.
    pub untold: String,
}

/// The outcomes in the order of their statements.
pub fn in_order(mut outcomes: Vec<(usize, Outcome)>, is_capture: bool) -> Outcome {
    outcomes.sort_by_key(|(at, _)| *at);
    let outcomes: Vec<Outcome> = outcomes.into_iter().map(|(_, outcome)| outcome).collect();
    match is_capture && outcomes.len() != 1 {
        true => Outcome::Captured(outcomes),
        false => Outcome::of_all(outcomes),
    }
}

/// True for an outcome that stops all statements about one swimmer. The offer to pass a
/// question on is none: nothing depends on it.
pub fn stops_all(outcome: &Outcome) -> bool {
    let offered = matches!(outcome, Outcome::Question(asked) if asked.asks == Asks::PassOn);
    !offered
        && matches!(outcome, Outcome::Question(_) | Outcome::Refused(_) | Outcome::NotUnderstood(_))
}
