//! What is said, in each language: subject by subject, in which order it is told
//! and the sentences it is told in, English and Spanish under each other.
//!
//! Spanish is written as people text it: `tú`, no word that needs the reader's
//! gender, and in the GSM alphabet, which has `é ñ ¿ ¡` but not `á í ó ú`; those
//! four are written without their accent, for one of them would halve a text's
//! room. The page is no text and has all its accents.

use super::Voice;
use crate::language::Language;

/// A sentence: English, Spanish, and what both take.
///
/// `say!(self, "{what} stored.", "Guardado: {what}.", [what])`; a name may be given its
/// value in the list, `[day = self.day(on)]`. Neither language compiles unless it uses
/// all that is listed, and nothing else: `concat!` keeps `format!` from taking a variable
/// that isn't.
macro_rules! say {
    ($voice:expr, $en:literal, $es:literal $(, [$($name:ident $(= $value:expr)?),*])?) => {
        match $voice.language {
            $crate::language::Language::English => {
                format!(concat!($en) $($(, $name = say!(@ $name $($value)?))*)?)
            }
            $crate::language::Language::Spanish => {
                format!(concat!($es) $($(, $name = say!(@ $name $($value)?))*)?)
            }
        }
    };
    (@ $name:ident) => { $name };
    (@ $name:ident $value:expr) => { $value };
}

mod absence;
mod alerts;
mod answers;
mod approval;
mod asked;
mod belonging;
mod board;
mod captures;
mod caution;
mod confided;
mod done;
mod evenings;
mod first_aid;
mod first_aid_for;
mod fitting;
mod gates;
mod glossary;
mod help;
mod known;
mod label;
mod lane_positions;
mod lanes;
mod lanes_changed;
mod limits;
mod meets;
mod offices;
mod overview;
mod own_targets;
mod people;
mod predictions;
mod readiness;
mod refused;
mod registers;
mod reported;
mod safeguards;
mod sessions;
mod set_changed;
mod sets;
mod side_by_side;
mod small;
mod statements;
mod taken_back;
mod test_nights;
mod timetables;
mod trials;
mod unread;
mod unwell;
mod weekly;
mod why;

pub use label::Label;

impl Voice {
    /// Of two, the one of this language.
    pub(super) fn pick<T>(self, english: T, spanish: T) -> T {
        match self.language {
            Language::English => english,
            Language::Spanish => spanish,
        }
    }

    /// The word for one or for many.
    fn one_or_many(
        self,
        number: usize,
        english: [&'static str; 2],
        spanish: [&'static str; 2],
    ) -> &'static str {
        let [one, many] = self.pick(english, spanish);
        if number == 1 { one } else { many }
    }

    /// `1 swimmer`, `3 swimmers`
    fn count(
        self,
        number: usize,
        english: [&'static str; 2],
        spanish: [&'static str; 2],
    ) -> String {
        format!("{number} {}", self.one_or_many(number, english, spanish))
    }
}
