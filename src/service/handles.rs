//! What channels call people at present, where that is not their address: a
//! chat knows a person for good by an id and delivers to a name that changes.
//!
//! A fold over the journal, like the letters that need it.

use std::collections::{HashMap, HashSet};

use serde::{Deserialize, Serialize};

use super::mailbag::part_name;
use super::record::Record;

/// What a handle's part of a snapshot is called before its address's digest.
pub(super) const HANDLE: &str = "handle/";

/// The latest handle of each address that has one.
#[derive(Debug, Default)]
pub(super) struct Handles {
    by_address: HashMap<String, String>,
    /// Addresses whose handle no snapshot holds as it is.
    dirty: HashSet<String>,
}

/// A handle, as a snapshot keeps it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct Handle {
    address: String,
    handle: String,
}

impl Handles {
    /// Takes in what a message tells of its sender.
    pub fn note(&mut self, record: &Record) {
        let Some(handle) = &record.handle else { return };
        if self.by_address.get(&record.from) != Some(handle) {
            self.by_address.insert(record.from.clone(), handle.clone());
            self.dirty.insert(record.from.clone());
        }
    }

    /// What the channel calls this person.
    pub fn of(&self, address: &str) -> Option<String> {
        self.by_address.get(address).cloned()
    }

    /// Takes over a handle from a snapshot.
    pub fn restore(&mut self, kept: Handle) {
        self.by_address.insert(kept.address, kept.handle);
    }

    /// Forgets what a channel calls this person.
    pub fn forget(&mut self, address: &str) {
        if self.by_address.remove(address).is_some() {
            self.dirty.insert(address.to_owned());
        }
    }

    /// Marks every handle as changed.
    pub fn touch_all(&mut self) {
        self.dirty.extend(self.by_address.keys().cloned());
    }

    /// The handles that changed since the last call, under the names of their
    /// parts; none where one is forgotten.
    pub fn changed(&mut self) -> Vec<(String, Option<Handle>)> {
        let dirty = std::mem::take(&mut self.dirty);
        let kept = dirty.into_iter().map(|address| {
            let name = part_name(HANDLE, &address);
            (name, self.of(&address).map(|handle| Handle { address, handle }))
        });
        kept.collect()
    }
}
