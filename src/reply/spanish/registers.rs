//! Who is at the pool, and who comes.

use super::Spanish;
use crate::reply::phrases::{Registers, Words};
use jiff::civil::Date;

impl Registers for Spanish {
    fn comes(&self, coming: bool, on: Date) -> String {
        format!("{} el {}.", if coming { "si" } else { "no" }, self.day(on))
    }

    fn comes_late(&self, minutes: u16, on: Date) -> String {
        format!("si el {}, {minutes} min tarde.", self.day(on))
    }

    fn comes_perhaps(&self, on: Date) -> String {
        format!("quiza el {}.", self.day(on))
    }

    fn goes_early(&self, at: &str, on: Date) -> String {
        format!("si el {}, hasta las {at}.", self.day(on))
    }

    fn perhaps(&self, number: usize) -> String {
        format!("{number} quiza")
    }

    fn coming(&self, number: usize) -> String {
        match number {
            0 => "nadie ha dicho que viene".to_owned(),
            1 => "1 viene".to_owned(),
            number => format!("{number} vienen"),
        }
    }

    fn late(&self, number: usize) -> String {
        format!("{number} tarde")
    }

    fn out(&self, number: usize) -> String {
        format!("{number} no")
    }

    fn unsaid(&self, number: usize) -> String {
        format!("{number} sin respuesta")
    }

    fn turnout_heads(&self) -> [&'static str; 3] {
        ["Vienen", "No vienen", "Sin respuesta"]
    }

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

    fn not_counted(&self, names: &str) -> String {
        format!("Sin contar: {names}. Si esta: ESTA y el nombre.")
    }

    fn must_not_swim(&self, names: &str, number: usize) -> String {
        let should = if number == 1 { "no debe" } else { "no deben" };
        format!("{names} {should} nadar: fuera del agua hasta que lo liberes por texto.")
    }
}
