//! The coach's own targets.

use super::Spanish;
use crate::reply::phrases::OwnTargets;

impl OwnTargets for Spanish {
    fn held_until_test(&self, who: &str, targets: &str) -> String {
        format!(
            "{who} mantiene {targets} hasta el test siguiente. Deshacer: {who} ritmos del test."
        )
    }

    fn tested_again(&self, who: &str, targets: &str) -> String {
        format!("{who}: los ritmos vuelven a salir del test: {targets}.")
    }
}
