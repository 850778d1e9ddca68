//! The coach's partings: who shares no lane.

use std::collections::BTreeMap;

use jiff::Timestamp;
use serde::{Deserialize, Serialize};

use super::Squad;
use crate::message::Name;

/// How many words on partings a squad keeps.
pub(super) const PARTINGS_KEPT: usize = 256;

/// A word on who shares no lane.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Parting {
    /// Any two of these.
    pub names: Vec<Name>,
    /// False where they may again.
    pub apart: bool,
}

impl Squad {
    /// The pairs that share no lane, as known at `now`: the last word on each
    /// pair holds.
    pub fn partings(&self, now: Timestamp) -> Vec<(Name, Name)> {
        let mut words: Vec<_> = self.partings.as_of(now).collect();
        words.sort_by_key(|kept| kept.cause);
        let mut pairs: BTreeMap<(&Name, &Name), bool> = BTreeMap::new();
        for Parting { names, apart } in words.into_iter().map(|kept| &kept.what) {
            for (at, one) in names.iter().enumerate() {
                for other in names.iter().skip(at + 1).filter(|other| *other != one) {
                    pairs.insert((one.min(other), one.max(other)), *apart);
                }
            }
        }
        let apart = pairs.into_iter().filter(|(_, apart)| *apart);
        apart.map(|((one, other), _)| (one.clone(), other.clone())).collect()
    }

    /// Takes a swimmer's name out of partings.
    pub(super) fn leave_partings(&mut self, who: &Name) {
        for kept in self.partings.iter_mut() {
            kept.what.names.retain(|one| one != who);
        }
    }
}
