//! Who is in which squad, who is asked into one, what a code opens, and which of
//! several squads an address means.

use std::collections::{BTreeMap, HashMap};

use crate::profile::{Event, Squad, SquadId};

/// Squads by address and by code.
#[derive(Default)]
pub(super) struct Directory {
    squads_of: HashMap<String, Vec<SquadId>>,
    by_code: HashMap<String, SquadId>,
    joined_by: HashMap<SquadId, String>,
    by_board: HashMap<String, SquadId>,
    inviting: HashMap<String, Vec<SquadId>>,
    in_hand: BTreeMap<String, SquadId>,
}

impl Directory {
    /// The squads that an address is in.
    pub fn squads_of(&self, address: &str) -> &[SquadId] {
        self.squads_of.get(address).map(Vec::as_slice).unwrap_or_default()
    }

    /// The squad that an address means where it names none: its only one, else
    /// the one that it named or joined last.
    pub fn in_hand(&self, address: &str) -> Option<&SquadId> {
        match self.squads_of(address) {
            [only] => Some(only),
            _ => self.in_hand.get(address),
        }
    }

    /// The squad that asked an address in last.
    pub fn inviting(&self, address: &str) -> Option<&SquadId> {
        self.inviting.get(address)?.last()
    }

    /// The squad that a code opens.
    pub fn by_code(&self, code: &str) -> Option<&SquadId> {
        self.by_code.get(&code.to_uppercase())
    }

    /// The squad of which a page with this digest was opened.
    pub fn by_board(&self, digest: &str) -> Option<&SquadId> {
        self.by_board.get(digest)
    }

    /// Which of several squads addresses mean, for a snapshot.
    pub fn hands(&self) -> &BTreeMap<String, SquadId> {
        &self.in_hand
    }

    /// Takes back what [`hands`](Self::hands) gave.
    pub fn take_hands(&mut self, hands: BTreeMap<String, SquadId>) {
        self.in_hand = hands;
    }

    /// Takes in what happened in a squad.
    pub fn note(&mut self, id: &SquadId, event: &Event) {
        match event {
            Event::SquadOpened { coach, code, .. } => {
                self.join_by(code, id);
                self.enter(coach, id);
            }
            Event::Joined { address, .. } | Event::Claimed { address, .. } => {
                self.enter(address, id);
                self.answered(address, id);
                self.take(address, id);
            }
            Event::RoleGiven { address, .. } | Event::GuardianAsked { address, .. } => {
                let new = self.enter(address, id);
                self.answered(address, id);
                if new {
                    self.take(address, id);
                }
            }
            Event::Invited { address, .. } => {
                self.answered(address, id);
                self.inviting.entry(address.clone()).or_default().push(id.clone());
            }
            Event::InvitationClosed { address } => self.answered(address, id),
            Event::GuestAdded { code, .. } => {
                self.by_code.insert(code.clone(), id.clone());
            }
            Event::CodeRenewed { code } => self.join_by(code, id),
            Event::SquadTaken { address } => self.take(address, id),
            Event::BoardOpened { token, .. } => {
                self.by_board.insert(token.clone(), id.clone());
            }
            _ => {}
        }
    }

    /// Takes in a squad as a snapshot kept it.
    pub fn restore(&mut self, id: &SquadId, squad: &Squad) {
        self.join_by(&squad.code, id);
        for code in squad.claims.keys() {
            self.by_code.insert(code.to_uppercase(), id.clone());
        }
        for open in &squad.boards {
            self.by_board.insert(open.token.clone(), id.clone());
        }
        for address in squad.members.keys() {
            let squads = self.squads_of.entry(address.clone()).or_default();
            squads.push(id.clone());
        }
        for address in squad.invitations.keys() {
            self.inviting.entry(address.clone()).or_default().push(id.clone());
        }
    }

    /// Drops an address from a squad that it is no longer in; true if it is in
    /// none now.
    pub fn leave(&mut self, address: &str, id: &SquadId) -> bool {
        let Some(squads) = self.squads_of.get_mut(address) else { return true };
        squads.retain(|squad| squad != id);
        let none = squads.is_empty();
        if squads.len() < 2 || self.in_hand.get(address) == Some(id) {
            self.in_hand.remove(address);
        }
        if none {
            self.squads_of.remove(address);
        }
        none
    }

    /// A squad is joined by this code, and by no other.
    fn join_by(&mut self, code: &str, id: &SquadId) {
        let code = code.to_uppercase();
        if let Some(before) = self.joined_by.insert(id.clone(), code.clone()) {
            self.by_code.remove(&before);
        }
        self.by_code.insert(code, id.clone());
    }

    /// True if the address was not in that squad.
    fn enter(&mut self, address: &str, id: &SquadId) -> bool {
        let squads = self.squads_of.entry(address.to_owned()).or_default();
        let new = !squads.contains(id);
        if new {
            squads.push(id.clone());
        }
        new
    }

    fn take(&mut self, address: &str, id: &SquadId) {
        if self.squads_of(address).len() > 1 {
            self.in_hand.insert(address.to_owned(), id.clone());
        }
    }

    fn answered(&mut self, address: &str, id: &SquadId) {
        if let Some(squads) = self.inviting.get_mut(address) {
            squads.retain(|squad| squad != id);
        }
    }
}
