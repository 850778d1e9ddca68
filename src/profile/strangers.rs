//! What is known of an address apart from any squad: whether it wants texts at
//! all, on which days it was told something unasked, and what it said where it
//! was not clear to which squad.

use std::collections::{BTreeMap, BTreeSet};

use jiff::Timestamp;
use serde::{Deserialize, Serialize};

use super::{DaysSpoken, Event, SaidAt, Stamped};

/// What is known of addresses apart from any squad.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Strangers {
    /// Those that asked for no texts, in a squad or in none.
    pub opted_out: BTreeSet<String>,
    /// Texts that wait for the name of the squad they are for, by address.
    #[serde(default)]
    pub waiting: BTreeMap<String, Waiting>,
    /// When something was said unasked, by address.
    #[serde(default)]
    pub spoken: BTreeMap<String, DaysSpoken>,
}

/// A text that waits for the name of the squad it is for.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Waiting {
    /// What it says.
    pub text: String,
    /// The answer is no use after this.
    pub until: Timestamp,
}

/// What is known of one address apart from any squad.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Stranger {
    /// She asked for no texts.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub opted_out: bool,
    /// Her text that waits for the name of the squad it is for.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub waiting: Option<Waiting>,
    /// When something was said to her unasked.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub spoken: Option<DaysSpoken>,
}

impl Strangers {
    /// What is known of one address.
    pub fn of(&self, address: &str) -> Stranger {
        Stranger {
            opted_out: self.opted_out.contains(address),
            waiting: self.waiting.get(address).cloned(),
            spoken: self.spoken.get(address).cloned(),
        }
    }

    /// Takes back what [`of`](Self::of) gave.
    pub fn take(&mut self, address: &str, known: Stranger) {
        if known.opted_out {
            self.opted_out.insert(address.to_owned());
        }
        self.waiting.extend(known.waiting.map(|waiting| (address.to_owned(), waiting)));
        self.spoken.extend(known.spoken.map(|spoken| (address.to_owned(), spoken)));
    }

    /// The address of which an event tells something that is kept here.
    pub fn concerned(event: &Event) -> Option<&String> {
        match event {
            Event::OptedOut { address }
            | Event::OptedIn { address }
            | Event::Joined { address, .. }
            | Event::Claimed { address, .. }
            | Event::RoleGiven { address, .. }
            | Event::SquadAsked { address, .. }
            | Event::SaidUnasked { address, .. }
            | Event::SquadTaken { address } => Some(address),
            _ => None,
        }
    }

    /// True if this address may be told something unasked: it wants texts, and
    /// had none on that day.
    pub fn may_hear(&self, address: &str, said: &SaidAt) -> bool {
        !self.opted_out.contains(address)
            && self.spoken.get(address).is_none_or(|days| days.allow(said))
    }

    /// Forgets an address that is in no squad any more.
    pub fn let_go(&mut self, address: &str) {
        self.opted_out.remove(address);
        self.spoken.remove(address);
    }

    /// Forgets all that is known of an address.
    pub fn forget(&mut self, address: &str) {
        self.let_go(address);
        self.waiting.remove(address);
    }

    /// Takes in one event.
    pub fn apply(&mut self, stamped: &Stamped) {
        self.hear(&stamped.by, &stamped.event);
    }

    /// Takes in what `by` caused. Whoever joins asks for texts; nobody can ask
    /// for another's.
    pub fn hear(&mut self, by: &str, event: &Event) {
        match event {
            Event::OptedOut { address } => {
                self.opted_out.insert(address.clone());
            }
            Event::OptedIn { address } => {
                self.opted_out.remove(address);
            }
            Event::Joined { address, .. }
            | Event::Claimed { address, .. }
            | Event::RoleGiven { address, .. }
                if address == by =>
            {
                self.opted_out.remove(address);
            }
            Event::SquadAsked { address, text, until } => {
                let waiting = Waiting { text: text.clone(), until: *until };
                self.waiting.insert(address.clone(), waiting);
            }
            Event::SaidUnasked { address, said: Some(said), .. } => {
                self.spoken.entry(address.clone()).or_default().keep(*said);
            }
            Event::SquadTaken { address } => {
                self.waiting.remove(address);
            }
            _ => {}
        }
    }
}
