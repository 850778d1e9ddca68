//! Which of several machines answers for a squad, so that its squads are loaded on one of
//! them and its neighbours' texts are not decided at once on two.
//!
//! A hint and no more: each may answer for all, and does where another is not reached.

use sha2::{Digest, Sha256};

use super::routing::Route;
use super::{Body, Incoming, Service};
use crate::desk;
use crate::journal::Machine;

impl Service {
    /// Tells the other machines over the same journal how to reach this one.
    pub fn announce(&self, own: Machine) {
        self.journal.announce(own);
    }

    /// The machine that answers for the squad that a message goes to; none where there is
    /// only this one, or where it goes to no squad. What can't wait, and what would not be
    /// known for the same if it came twice, is answered wherever it came.
    pub fn preferred_machine(&self, incoming: &Incoming) -> Option<Machine> {
        let machines = self.journal.machines();
        let Body::Text(text) = &incoming.body else { return None };
        if machines.len() < 2 || incoming.id.is_none() || desk::is_urgent(text) {
            return None;
        }
        let route = self.world().route(&incoming.from, Some(text), self.now()).ok()?;
        let Route::Squad { id, .. } = route else { return None };
        highest(&machines, &id.0).cloned()
    }
}

/// The machine that all who know the same machines choose for a squad; where one is gone, only
/// its squads go elsewhere (rendezvous hashing; Thaler and Ravishankar, 1998).
fn highest<'a>(machines: &'a [Machine], squad: &str) -> Option<&'a Machine> {
    let weight = |machine: &&Machine| {
        Sha256::new().chain_update(&machine.name).chain_update([0]).chain_update(squad).finalize()
    };
    machines.iter().max_by_key(weight)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn machines(names: &[&str]) -> Vec<Machine> {
        let machine = |name: &&str| Machine {
            name: (*name).to_owned(),
            address: String::new(),
            key: String::new(),
        };
        names.iter().map(machine).collect()
    }

    #[test]
    fn who_goes_takes_no_other_ones_squads_along() {
        let (all, fewer) = (machines(&["a", "b", "c"]), machines(&["c", "a"]));
        let squads: Vec<String> = (0..300).map(|n| format!("squad {n}")).collect();
        let mut of_b = 0;
        for squad in &squads {
            let (before, after) = (highest(&all, squad).unwrap(), highest(&fewer, squad).unwrap());
            if before.name == "b" {
                of_b += 1;
            } else {
                assert_eq!(before, after);
            }
        }
        assert!((70..130).contains(&of_b), "each has about a third, b {of_b}");
    }
}
