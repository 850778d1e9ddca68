//! What is known of an address apart from any squad: whether it wants texts at
//! all.

use std::collections::BTreeSet;

use serde::{Deserialize, Serialize};

use super::{Event, Stamped};

/// What is known of addresses apart from any squad.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Strangers {
    /// Those that asked for no texts, in a squad or in none.
    pub opted_out: BTreeSet<String>,
}

impl Strangers {
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
            Event::Joined { address, .. } if address == by => {
                self.opted_out.remove(address);
            }
            _ => {}
        }
    }
}
