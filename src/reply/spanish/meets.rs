//! Entries for meets.

use super::Spanish;
use crate::reply::EntryTime;
use crate::reply::phrases::Meets;

impl Meets for Spanish {
    fn no_day_yet(&self) -> &'static str {
        "aun sin fecha"
    }

    fn leg_stored(&self, what: &str, leg: u8) -> String {
        format!("{what}, posta {leg} de relevo: aparte, ni marca ni test.")
    }

    fn legs(&self, list: &str) -> String {
        format!("Relevos: {list}.")
    }

    fn scratched(&self, what: &str) -> String {
        format!("Fuera: {what}.")
    }

    fn entry_time(
        &self,
        time: &EntryTime,
        shown: &str,
        from: &str,
        day: &str,
        pool: &str,
    ) -> String {
        match time {
            EntryTime::Given(_) => format!("Tiempo de inscripcion {shown}, el dado."),
            EntryTime::Swum(_) => format!("Tiempo de inscripcion {shown}, nadado el {day}."),
            EntryTime::Converted { .. } => format!(
                "Tiempo de inscripcion unos {shown}, estimado: {from} el {day} en {pool}, por la regla de virajes."
            ),
            EntryTime::Predicted(_) => {
                format!("Tiempo de inscripcion unos {shown}, estimado con otras distancias.")
            }
            EntryTime::None => {
                "Aun sin tiempo de inscripcion: manda un test de esa prueba, o el tiempo con ella."
                    .to_owned()
            }
        }
    }

    fn estimated(&self) -> &'static str {
        "est"
    }

    fn no_time(&self) -> &'static str {
        "sin tiempo"
    }

    fn nobody_entered(&self) -> &'static str {
        "sin inscripciones."
    }

    fn no_meets(&self) -> &'static str {
        "Aun no hay competicion. Escribe, por ejemplo, INSCRIBE 100 LIBRE"
    }
}
