//! The squad and its swimmers.

use super::Spanish;
use crate::reply::phrases::{People, count};
use crate::reply::{Flag, Trend};

impl People for Spanish {
    fn swimmers(&self, number: usize) -> String {
        count(number, "persona", "personas")
    }

    fn flagged(&self, flag: Flag) -> &'static str {
        match flag {
            Flag::Hurt => "con molestias",
            Flag::Overdue => "con test pendiente",
            Flag::Silent => "sin noticias",
        }
    }

    fn flag(&self, flag: Flag) -> &'static str {
        match flag {
            Flag::Hurt => "MOLESTIAS",
            Flag::Overdue => "test pendiente",
            Flag::Silent => "sin noticias",
        }
    }

    fn trend(&self, trend: Trend) -> Option<&'static str> {
        match trend {
            Trend::Up => Some("mas rapido"),
            Trend::Down => Some("mas lento"),
            Trend::Flat => Some("igual"),
            Trend::Unknown => None,
        }
    }

    fn no_test_yet(&self) -> &'static str {
        "aun sin test"
    }

    fn critical_pace(&self, pace: &str) -> String {
        format!("Ritmo critico: unos {pace} por 100.")
    }

    fn bests(&self, list: &str) -> String {
        format!("Mejores: {list}.")
    }

    fn latest(&self, list: &str) -> String {
        format!("Ultimos: {list}.")
    }

    fn focus(&self, focus: &str) -> String {
        format!("Foco: {focus}")
    }
}
