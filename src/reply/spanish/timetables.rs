//! The squad's evenings.

use super::Spanish;
use crate::reply::phrases::{Timetables, Words, count};
use jiff::civil::Date;

impl Timetables for Spanish {
    fn every(&self, weekday: &str) -> String {
        format!("cada {weekday}")
    }

    fn lanes_there(&self, number: u8) -> String {
        count(usize::from(number), "calle", "calles")
    }

    fn shut_then(&self) -> &'static str {
        "piscina cerrada"
    }

    fn no_nights(&self) -> &'static str {
        "Aun no hay turnos. Para poner uno: turno martes 2000-2100 4 calles"
    }

    fn set_moves(&self, hard: bool, to: Date) -> String {
        format!("Su serie{} pasa al {}.", if hard { " dura" } else { "" }, self.day(to))
    }

    fn set_left_out(&self, hard: bool) -> &'static str {
        if hard {
            "Su serie dura se deja: los dias duros van separados, sin recuperarla."
        } else {
            "Su serie se deja: sin recuperarla."
        }
    }

    fn plans_leave_it_out(&self, number: usize, hard: usize) -> String {
        let leave = if number == 1 { "1 plan deja" } else { &format!("{number} planes dejan") };
        let hard = if hard > 0 { format!(" ({hard} duros)") } else { String::new() };
        format!("{leave} ese dia{hard}; SIGUIENTE lo calcula de nuevo.")
    }

    fn next_night(&self, night: &str) -> String {
        format!("Proximo turno: {night}.")
    }
}
