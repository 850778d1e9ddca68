//! What is known of an address apart from any squad: whether it wants texts at
//! all, on which days it was told something unasked, and what it said where it
//! was not clear to which squad.

use std::collections::{BTreeMap, BTreeSet};

use jiff::Timestamp;
use serde::{Deserialize, Serialize};

use super::{DaysSpoken, Event, SaidAt, Stamped, StrangersAsked, Unnamed};

/// What is known of addresses apart from any squad.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Strangers {
    /// Those that asked for no texts, in a squad or in none.
    pub opted_out: BTreeSet<String>,
    /// Those who asked for no texts and were forgotten since.
    #[serde(default, skip_serializing_if = "BTreeSet::is_empty")]
    pub silent: BTreeSet<Unnamed>,
    /// Who was written to that had asked for nothing, by whichever squad.
    #[serde(rename = "asked_in", default, skip_serializing_if = "StrangersAsked::is_empty")]
    pub asked: StrangersAsked,
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
    /// They asked for no texts.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub opted_out: bool,
    /// When they were written to, having asked for nothing.
    #[serde(rename = "asked_in", default, skip_serializing_if = "Vec::is_empty")]
    pub asked: Vec<Timestamp>,
    /// Their text that waits for the name of the squad it is for.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub waiting: Option<Waiting>,
    /// When something was said to their unasked.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub spoken: Option<DaysSpoken>,
}

impl Strangers {
    /// What is known of one address.
    pub fn of(&self, address: &str) -> Stranger {
        Stranger {
            opted_out: self.opted_out.contains(address),
            asked: self.asked.of(address),
            waiting: self.waiting.get(address).cloned(),
            spoken: self.spoken.get(address).cloned(),
        }
    }

    /// Every address of which something is known.
    pub fn addresses(&self) -> impl Iterator<Item = &String> {
        let those = self.opted_out.iter().chain(self.asked.addresses());
        those.chain(self.waiting.keys()).chain(self.spoken.keys())
    }

    /// Takes back what [`of`](Self::of) gave.
    pub fn take(&mut self, address: &str, known: Stranger) {
        if known.opted_out {
            self.opted_out.insert(address.to_owned());
        }
        self.asked.take(address, known.asked);
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
            | Event::StrangerAsked { address }
            | Event::SquadTaken { address } => Some(address),
            _ => None,
        }
    }

    /// True if this address may be told something unasked: it wants texts, and
    /// had none on that day.
    pub fn may_hear(&self, address: &str, said: &SaidAt) -> bool {
        !self.is_opted_out(address) && self.spoken.get(address).is_none_or(|days| days.allow(said))
    }

    /// True if this address asked for no texts, in a squad or in none, and has not
    /// asked for them again: neither leaving nor being forgotten changes that.
    pub fn is_opted_out(&self, address: &str) -> bool {
        self.opted_out.contains(address) || self.silent.iter().any(|one| one.is(address))
    }

    /// Forgets an address that is in no squad any more, but for its wish to have
    /// no texts.
    pub fn let_go(&mut self, address: &str) {
        self.spoken.remove(address);
    }

    /// Forgets all that is known of an address. That it wants no texts outlives it
    /// without a name, where that was said.
    pub fn forget(&mut self, address: &str) {
        self.let_go(address);
        self.opted_out.remove(address);
        self.waiting.remove(address);
        self.asked.forget(address);
    }

    fn opt_in(&mut self, address: &str) {
        self.opted_out.remove(address);
        self.silent.retain(|one| !one.is(address));
    }

    /// Takes in one event.
    pub fn apply(&mut self, stamped: &Stamped) {
        self.hear(&stamped.by, stamped.at, &stamped.event);
    }

    /// Takes in what `by` caused, at an instant of the wall clock. Whoever joins
    /// asks for texts; nobody can ask for another's.
    pub fn hear(&mut self, by: &str, at: Timestamp, event: &Event) {
        match event {
            Event::OptedOut { address } => {
                self.opted_out.insert(address.clone());
            }
            Event::OptedIn { address } => self.opt_in(address),
            Event::SilenceOutlives { of } => {
                self.silent.insert(of.clone());
            }
            Event::Joined { address, .. }
            | Event::Claimed { address, .. }
            | Event::RoleGiven { address, .. }
                if address == by =>
            {
                self.opt_in(address);
            }
            Event::SquadAsked { address, text, until } => {
                let waiting = Waiting { text: text.clone(), until: *until };
                self.waiting.insert(address.clone(), waiting);
            }
            Event::SaidUnasked { address, said: Some(said), .. } => {
                self.spoken.entry(address.clone()).or_default().keep(*said);
            }
            Event::StrangerAsked { address } => self.asked.note(address, at),
            Event::SquadTaken { address } => {
                self.waiting.remove(address);
            }
            _ => {}
        }
    }
}
