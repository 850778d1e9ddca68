//! What a snapshot keeps of it, and how it is taken back.

use std::collections::HashSet;

use super::{Belonging, Directory, Keys};
use crate::history::SquadId;

impl Directory {
    /// What changed of people since the last call, by address.
    pub fn changed_people(&mut self) -> HashSet<String> {
        std::mem::take(&mut self.dirty_people)
    }

    /// What changed of squads since the last call.
    pub fn changed_squads(&mut self) -> Vec<(SquadId, Keys)> {
        let dirty = std::mem::take(&mut self.dirty_squads);
        let keys = |id: SquadId| Some((id.clone(), self.squads.get(&id)?.clone()));
        dirty.into_iter().filter_map(keys).collect()
    }

    /// Takes back what [`belonging`](Self::belonging) gave.
    pub fn restore_person(&mut self, address: &str, belonging: Belonging) {
        for id in &belonging.squads {
            self.people_of.entry(id.clone()).or_default().insert(address.to_owned());
        }
        if belonging != Belonging::default() {
            self.people.insert(address.to_owned(), belonging);
        }
    }

    /// Takes back what [`changed_squads`](Self::changed_squads) gave.
    pub fn restore_squad(&mut self, id: &SquadId, keys: Keys) {
        let joined_by = Some(&keys.joined_by).filter(|_| !keys.closed);
        for code in keys.codes.iter().chain(joined_by) {
            self.by_code.insert(code.clone(), id.clone());
        }
        for (board, _) in &keys.boards {
            self.by_board.insert(board.clone(), id.clone());
        }
        self.squads.insert(id.clone(), keys);
    }

    /// Marks all that is known as changed, for a snapshot of everything.
    pub fn touch_all(&mut self) {
        self.dirty_people.extend(self.people.keys().cloned());
        self.dirty_squads.extend(self.squads.keys().cloned());
    }
}
