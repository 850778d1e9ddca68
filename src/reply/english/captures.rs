//! Several swimmers' results in one text.

use super::English;
use crate::coaching::Change;
use crate::reply::phrases::{BesideBest, Captures, count, difference};
use crate::reply::{Outcome, Voice};

impl Captures for English {
    fn briefly(&self, best: BesideBest) -> String {
        match best {
            BesideBest::First => "first".to_owned(),
            BesideBest::Faster(by) => format!("best by {}", difference(by)),
            BesideBest::Equal => "equals best".to_owned(),
            BesideBest::Slower { by, .. } => format!("+{}", difference(by)),
        }
    }

    fn known_already(&self) -> &'static str {
        "stored already"
    }

    fn then(&self, set: &str) -> String {
        format!("next {set}")
    }

    fn instead_of_a_set(&self, change: Change) -> Option<&'static str> {
        match change {
            Change::Rest => Some("off from the start, easy next"),
            Change::Retest => Some("time for a new test"),
            Change::Same => Some("same again"),
            Change::SlowerStart => Some("too fast at first, next on the target"),
            _ => None,
        }
    }

    fn everyone(&self) -> &'static str {
        "all"
    }

    fn sessions_stored(&self, list: &str) -> String {
        format!("Stored: {list}.")
    }

    fn further_questions(&self, number: usize) -> String {
        format!("Then {}.", count(number, "more question", "more questions"))
    }

    fn ill_all_the_same(&self, names: &str, number: usize) -> String {
        let are = if number == 1 { "is" } else { "are" };
        format!("{names} {are} ill: stored, and no training until clear days are over.")
    }

    fn lines_of(&self, outcome: &Outcome) -> Vec<String> {
        self.lines(outcome)
    }
}
