//! Lapwing in Spanish, as people text it: `tú`, no word that needs the reader's
//! gender, and in the GSM alphabet, which has `é ñ ¿ ¡` but not `á í ó ú`; those
//! four are written without their accent, for one of them would halve a text's
//! room.

mod answers;
mod approval;
mod belonging;
mod boards;
mod captures;
mod care;
mod evenings;
mod first_aid;
mod gates;
mod glances;
mod lanes;
mod limits;
mod meets;
mod offices;
mod own_targets;
mod people;
mod questions;
mod registers;
mod results;
mod safeguards;
mod sessions;
mod statements;
mod test_nights;
mod timetables;
mod weekly;
mod words;

use super::voice::Voice;

/// Speaks Spanish.
pub struct Spanish;

impl Voice for Spanish {
    fn more_hint(&self) -> &'static str {
        "Escribe SIGUE para el resto."
    }

    fn answered_privately(&self) -> &'static str {
        "Contestado en privado."
    }
}
