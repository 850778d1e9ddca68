//! Who is in which squad, who is asked into one, what a code opens, which of
//! several squads an address means, and what is to be looked after in which
//! squad: all that must be known of squads that are not in memory.

mod changes;
mod kept;

use std::collections::{BTreeSet, HashMap, HashSet};

use jiff::Timestamp;
use serde::{Deserialize, Serialize};

use crate::history::SquadId;

/// Where an address belongs. Squads stand in the order of arrival.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub(super) struct Belonging {
    /// The squads that it is in.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    squads: Vec<SquadId>,
    /// The squads that asked it in.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    inviting: Vec<SquadId>,
    /// The squads that it left.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    left: Vec<SquadId>,
    /// The one of several that it means where it names none.
    #[serde(skip_serializing_if = "Option::is_none")]
    in_hand: Option<SquadId>,
}

/// What opens a squad, and what is to be looked after in it.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub(super) struct Keys {
    /// Its name.
    name: String,
    /// The code to join it by.
    joined_by: String,
    /// Codes to claim a guest's history by.
    codes: BTreeSet<String>,
    /// The addresses of its welfare officers.
    #[serde(skip_serializing_if = "BTreeSet::is_empty")]
    officers: BTreeSet<String>,
    /// Digests of its pages' and calendars' addresses, and until when they are open.
    boards: Vec<(String, Timestamp)>,
    /// Not before this instant is anything to be said in it unasked.
    look: Option<Timestamp>,
    /// Someone in it wished to be forgotten, and is still in the log.
    to_erase: bool,
    /// It was closed for good.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    closed: bool,
}

/// Squads by address and by code.
#[derive(Default)]
pub(super) struct Directory {
    people: HashMap<String, Belonging>,
    squads: HashMap<SquadId, Keys>,
    people_of: HashMap<SquadId, BTreeSet<String>>,
    by_code: HashMap<String, SquadId>,
    by_board: HashMap<String, SquadId>,
    /// People whom no snapshot holds as they are.
    dirty_people: HashSet<String>,
    dirty_squads: HashSet<SquadId>,
}

impl Directory {
    /// True if there is such a squad.
    pub fn holds(&self, id: &SquadId) -> bool {
        self.squads.contains_key(id)
    }

    /// All squads there are, but for those that were closed, in the order of their
    /// ids.
    pub fn ids(&self) -> Vec<SquadId> {
        let open = self.squads.iter().filter(|(_, keys)| !keys.closed);
        let mut ids: Vec<SquadId> = open.map(|(id, _)| id.clone()).collect();
        ids.sort();
        ids
    }

    /// Those among these squads that are called so, in whatever case.
    pub fn named<'a>(&self, name: &str, among: &'a [SquadId]) -> Vec<&'a SquadId> {
        let name = name.to_lowercase();
        let is_it = |id: &&SquadId| self.name(id).is_some_and(|one| one.to_lowercase() == name);
        among.iter().filter(is_it).collect()
    }

    /// A squad's name.
    pub fn name(&self, id: &SquadId) -> Option<&str> {
        self.squads.get(id).map(|keys| keys.name.as_str())
    }

    /// The squads that an address is in, in the order of its joining.
    pub fn squads_of(&self, address: &str) -> &[SquadId] {
        self.people.get(address).map(|one| one.squads.as_slice()).unwrap_or_default()
    }

    /// The addresses of a squad's people, looked at where they stand.
    pub fn people_in(&self, id: &SquadId) -> impl Iterator<Item = &String> {
        self.people_of.get(id).into_iter().flatten()
    }

    /// The addresses of a squad's people.
    pub fn people_of(&self, id: &SquadId) -> BTreeSet<String> {
        self.people_of.get(id).cloned().unwrap_or_default()
    }

    /// The squad that an address means where it names none: its only one, else
    /// the one that it named or joined last.
    pub fn in_hand(&self, address: &str) -> Option<&SquadId> {
        match self.squads_of(address) {
            [only] => Some(only),
            _ => self.people.get(address)?.in_hand.as_ref(),
        }
    }

    /// The squad that asked an address in last.
    pub fn inviting(&self, address: &str) -> Option<&SquadId> {
        self.people.get(address)?.inviting.last()
    }

    /// The squad whose welfare officer hears the worry of somebody in none: one
    /// that asked it in or that it left, else the only one that has an officer.
    pub fn hearing(&self, address: &str) -> Option<&SquadId> {
        let has_officer =
            |id: &&SquadId| self.squads.get(*id).is_some_and(|keys| !keys.officers.is_empty());
        if let Some(one) = self.people.get(address)
            && let Some(id) = one.inviting.iter().chain(&one.left).rev().find(has_officer)
        {
            return Some(id);
        }
        let mut all = self.squads.keys().filter(has_officer);
        all.next().filter(|_| all.next().is_none())
    }

    /// The squad that a code opens.
    pub fn by_code(&self, code: &str) -> Option<&SquadId> {
        self.by_code.get(&code.to_uppercase())
    }

    /// The squad of which a page with this digest was opened.
    pub fn by_board(&self, digest: &str) -> Option<&SquadId> {
        self.by_board.get(digest)
    }

    /// The squads in which something may be to be said unasked at `now`.
    pub fn to_look_at(&self, now: Timestamp) -> Vec<SquadId> {
        let due = |keys: &Keys| !keys.closed && keys.look.is_none_or(|look| look <= now);
        self.squads.iter().filter(|(_, keys)| due(keys)).map(|(id, _)| id.clone()).collect()
    }

    /// The squads in which someone wished to be forgotten.
    pub fn to_erase(&self) -> Vec<SquadId> {
        self.squads.iter().filter(|(_, keys)| keys.to_erase).map(|(id, _)| id.clone()).collect()
    }

    /// Where an address belongs.
    pub fn belonging(&self, address: &str) -> Belonging {
        self.people.get(address).cloned().unwrap_or_default()
    }
}
