//! Those who are in no squad: only whether they want texts at all.

use std::collections::BTreeSet;

use serde::{Deserialize, Serialize};

use super::{Event, Stamped};

/// Addresses in no squad.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Strangers {
    /// Those that asked for no texts.
    pub opted_out: BTreeSet<String>,
}

impl Strangers {
    /// Takes in one event.
    pub fn apply(&mut self, stamped: &Stamped) {
        match &stamped.event {
            Event::OptedOut { address } => {
                self.opted_out.insert(address.clone());
            }
            Event::OptedIn { address } => {
                self.opted_out.remove(address);
            }
            _ => {}
        }
    }
}
