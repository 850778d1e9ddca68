//! Several swimmers' results in one text.

use super::Spanish;
use crate::coaching::Change;
use crate::reply::phrases::{BesideBest, Captures, difference};
use crate::reply::{Outcome, Voice};

impl Captures for Spanish {
    fn briefly(&self, best: BesideBest) -> String {
        match best {
            BesideBest::First => "primero".to_owned(),
            BesideBest::Faster(by) => format!("mejor por {}", difference(by)),
            BesideBest::Equal => "igual que su mejor".to_owned(),
            BesideBest::Slower { by, .. } => format!("+{}", difference(by)),
        }
    }

    fn known_already(&self) -> &'static str {
        "ya guardado"
    }

    fn then(&self, set: &str) -> String {
        format!("luego {set}")
    }

    fn instead_of_a_set(&self, change: Change) -> Option<&'static str> {
        match change {
            Change::Rest => Some("mal desde el principio, toca suave"),
            Change::Retest => Some("toca un test nuevo"),
            Change::Same => Some("lo mismo otra vez"),
            Change::SlowerStart => Some("demasiado rapido al principio, luego a su ritmo"),
            _ => None,
        }
    }

    fn everyone(&self) -> &'static str {
        "todos"
    }

    fn sessions_stored(&self, list: &str) -> String {
        format!("Guardado: {list}.")
    }

    fn further_questions(&self, number: usize) -> String {
        match number {
            1 => "Luego, una pregunta mas.".to_owned(),
            number => format!("Luego, {number} preguntas mas."),
        }
    }

    fn ill_all_the_same(&self, names: &str, number: usize) -> String {
        let have = if number == 1 { "tiene" } else { "tienen" };
        format!("{names} {have} una enfermedad: guardado, y sin entrenar hasta pasar el descanso.")
    }

    fn lines_of(&self, outcome: &Outcome) -> Vec<String> {
        self.lines(outcome)
    }
}
