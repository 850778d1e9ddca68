//! Lapwing in English: short, warm, exact, and in the GSM alphabet.

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

/// Speaks English.
pub struct English;

impl Voice for English {
    fn more_hint(&self) -> &'static str {
        "Text MORE for the rest."
    }

    fn answered_privately(&self) -> &'static str {
        "Answered privately."
    }
}
