//! The heats of a test night, who counts, and who is owed one.

use super::Spanish;
use crate::reply::phrases::{TestNights, count};

impl TestNights for Spanish {
    fn test_night_of(&self, distance: &str, day: &str) -> String {
        format!("Test {distance}, {day}")
    }

    fn heats_take(&self, number: usize, minutes: u32) -> String {
        format!("{}, primero la mas rapida, {minutes} min", count(number, "serie", "series"))
    }

    fn heat(&self, number: usize, minutes: u32) -> String {
        format!("Serie {number}, {minutes} min")
    }

    fn in_heat(&self, heat: usize, of: usize, lane: &str) -> String {
        format!("serie {heat} de {of}, {lane}")
    }

    fn about(&self, time: &str) -> String {
        format!(", unos {time}")
    }

    fn counted_by(&self, name: &str) -> String {
        format!(", cuenta {name}")
    }

    fn counts_for(&self, heat: usize, name: &str) -> String {
        format!("; tu cuentas para {name} en la serie {heat}")
    }

    fn counting(&self, heats: usize) -> &'static str {
        match heats {
            1 => "Los largos se cuentan desde el borde.",
            _ => "Cuenta los largos la misma calle de la serie siguiente; a la ultima, la serie 1.",
        }
    }

    fn even_instead(&self, swims: usize, names: &str) -> String {
        let swims = count(swims, "entreno", "entrenos");
        format!("En su lugar un 200 comodo y parejo, a tope tras {swims} mas: {names}.")
    }

    fn even_too(&self, swims: usize, names: &str) -> String {
        format!("Tras {swims} mas: {names}.")
    }

    fn easy_instead(&self, names: &str) -> String {
        format!("En su lugar nado suave: {names}.")
    }

    fn still_owed(&self, names: &str, catch_up: Option<&str>) -> String {
        match catch_up {
            Some(day) => format!("Aun por hacer: {names}. Recuperan el {day}."),
            None => format!("Aun por hacer: {names}."),
        }
    }

    fn none_owed(&self) -> &'static str {
        "No falta nadie."
    }
}
