//! The squad and its swimmers.

use super::Spanish;
use super::words::pain_in;
use crate::coaching::{After, Trouble};
use crate::message::Name;
use crate::reply::phrases::{People, Words, count};
use crate::reply::{Flag, Trend};

impl People for Spanish {
    fn own_page(&self, url: &str, hours: i64) -> String {
        format!("Dibujado y para llevar: {url} - tuyo y de nadie mas, {hours} horas.")
    }

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

    fn across(&self, at_meet: bool) -> &'static str {
        if at_meet { "competicion frente a entreno" } else { "entreno frente a competicion" }
    }

    fn at_meet(&self) -> &'static str {
        ", competicion"
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

    fn over(&self, trouble: &str, day: &str) -> String {
        format!("Terminado el {day}: {trouble}.")
    }

    fn open(&self, trouble: &Trouble) -> String {
        match trouble {
            Trouble::Pain { since, place, level } => {
                let level = level.map(|level| format!(" {level}")).unwrap_or_default();
                format!("{}{level} desde el {}", pain_in(place), self.short_day(*since))
            }
            Trouble::Ill { since, fever: false } => {
                format!("con malestar desde el {}", self.short_day(*since))
            }
            Trouble::Ill { since, .. } => format!("fiebre desde el {}", self.short_day(*since)),
            Trouble::Mending { since, after: After::Away } => {
                format!("de vuelta desde el {}", self.short_day(*since))
            }
            Trouble::Mending { since, .. } => {
                format!("en recuperacion desde el {}", self.short_day(*since))
            }
            Trouble::Faint { since } => format!("NO NADA desde el {}", self.short_day(*since)),
            Trouble::Held { since } => {
                format!("suave por ahora desde el {}", self.short_day(*since))
            }
        }
    }

    fn may_release(&self) -> &'static str {
        "Lo levanta el entrenador, con LIBERA y el nombre."
    }

    fn next_race(&self, race: &str, day: &str) -> String {
        format!("Prueba: {race}, {day}.")
    }

    fn noted_on(&self, day: &str, text: &str) -> String {
        format!("Nota del {day}: {text}")
    }

    fn put_right(&self, trial: &str, was: &str, by: Option<&Name>, day: &str) -> String {
        let by = by.map_or("el entrenador", Name::as_str);
        format!("{trial}: antes {was}, lo corrige {by} el {day}.")
    }

    fn passed_on(&self, text: &str) -> String {
        format!("De tu entrenador: {text}")
    }
}
