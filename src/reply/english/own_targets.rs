//! The coach's own targets.

use super::English;
use crate::reply::phrases::OwnTargets;

impl OwnTargets for English {
    fn held_until_test(&self, who: &str, targets: &str) -> String {
        format!("{who} holds {targets} until the next test. Undo: {who} targets from test.")
    }

    fn tested_again(&self, who: &str, targets: &str) -> String {
        format!("{who}: targets from the test again: {targets}.")
    }
}
