//! Who swims in which lane, and on which send-offs.

use super::Spanish;
use crate::coaching::lanes::{OneMove, Shortfall};
use crate::reply::phrases::Lanes;

impl Lanes for Spanish {
    fn in_no_lane(&self, names: &str, number: usize) -> String {
        let should = if number == 1 { "no debe" } else { "no deben" };
        format!("{names} {should} nadar, sin calle: fuera del agua hasta que lo liberes por texto.")
    }

    fn guessed(&self) -> &'static str {
        "? ritmo estimado o desconocido."
    }

    fn moved(&self, moves: &str) -> String {
        format!("Cambian: {moves}.")
    }

    fn to_lane(&self, names: &str, lane: &str) -> String {
        format!("{names} a {lane}")
    }

    fn done_today(&self, names: &str, how_many: usize) -> String {
        let swim = if how_many == 1 {
            "no nada mas hoy y no tiene"
        } else {
            "no nadan mas hoy y no tienen"
        };
        format!("{names} {swim} calle.")
    }

    fn keep_easy(&self, names: &str) -> String {
        format!("Suave para {names}.")
    }

    fn stretched(&self, seconds: u32) -> String {
        format!("Salidas hasta {seconds} s mas largas, para que quepan todos.")
    }

    fn gave_way(&self, shortfall: &Shortfall) -> String {
        match shortfall {
            Shortfall::NoLane { name, lane } => {
                format!("Hoy no hay C{lane} para {name}: calle por ritmo.")
            }
            Shortfall::TooMany { capacity, .. } => {
                format!("Hasta {capacity} por calle: son muchos.")
            }
            Shortfall::LaneFull { lane, pinned } => {
                format!("Has puesto {pinned} en la C{lane}: son muchos.")
            }
            Shortfall::Apart { give_up } => {
                let pairs: Vec<String> =
                    give_up.iter().map(|(one, other)| format!("{one} y {other}")).collect();
                format!("No se pudo separar: {}.", pairs.join("; "))
            }
            Shortfall::Lapped { longest, .. } => {
                format!("Nada de mas de {longest} en estas calles, o se dobla a quien va al final.")
            }
            Shortfall::Room { stretch_s } => self.stretched(*stretch_s),
        }
    }

    fn one_move(&self, one: &OneMove) -> String {
        let (name, lane) = (&one.name, one.to);
        format!("Conviene: {name} a la C{lane} ({name} calle {lane}).")
    }

    fn goes(&self, names: &str, from: Option<&str>, to: Option<&str>) -> String {
        match (from, to) {
            (Some(from), Some(to)) => format!("{names} de {from} a {to}"),
            (None, Some(to)) => format!("{names} a {to}"),
            (Some(from), None) => format!("{names} sale de {from}"),
            (None, None) => names.to_owned(),
        }
    }

    fn swims_now(&self, lane: &str, line: &str, was: Option<&str>) -> String {
        match was {
            Some(was) => format!("{lane} ahora {line} (antes {was})"),
            None => format!("{lane} ahora {line}"),
        }
    }

    fn gap_is(&self, seconds: u32) -> String {
        format!("Salir cada {seconds} s.")
    }

    fn share_no_lane(&self, names: &str) -> String {
        format!("Separados: {names}.")
    }

    fn as_it_was(&self) -> &'static str {
        "No cambia nada: ya es asi."
    }
}
