//! Who is at the pool.

use super::Spanish;
use crate::reply::phrases::Registers;

impl Registers for Spanish {
    fn here(&self, number: usize) -> String {
        match number {
            0 => "nadie presente aun".to_owned(),
            1 => "1 presente".to_owned(),
            number => format!("{number} presentes"),
        }
    }

    fn absent(&self, number: usize) -> String {
        if number == 1 { "1 ausente".to_owned() } else { format!("{number} ausentes") }
    }

    fn unmarked(&self, number: usize) -> String {
        format!("{number} sin marcar")
    }

    fn must_not_swim(&self, names: &str, number: usize) -> String {
        let should = if number == 1 { "no debe" } else { "no deben" };
        format!("{names} {should} nadar: fuera del agua hasta que lo liberes por texto.")
    }

    fn some_must_not_swim(&self, number: usize) -> String {
        let should = if number == 1 { "no debe" } else { "no deben" };
        format!(
            "{number} de los presentes {should} nadar: envia PRESENTES en privado para ver quien."
        )
    }
}
