//! What a language must be able to say, subject by subject, and in which order
//! it is told, which is the same in all of them.
//!
//! Knows no language: every word is asked of whoever implements these traits.

mod answers;
mod approval;
mod belonging;
mod boards;
mod captures;
mod care;
mod evenings;
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
mod side_by_side;
mod statements;
mod test_nights;
mod timetables;
mod weekly;
mod words;

pub use answers::{Answers, quoted};
pub use approval::Approvals;
pub use belonging::Belongings;
pub use boards::{Boards, Label};
pub use captures::Captures;
pub use care::{Care, Illness, Soreness, Spare};
pub use evenings::Evenings;
pub use gates::Gates;
pub use glances::{Glances, Group};
pub use lanes::Lanes;
pub use limits::Limited;
pub use meets::Meets;
pub use offices::Offices;
pub use own_targets::OwnTargets;
pub use people::People;
pub use questions::Questions;
pub use registers::Registers;
pub use results::{BesideBest, Results, ShownBand};
pub use safeguards::Safeguards;
pub use sessions::Sessions;
pub use statements::{Statements, canonical, length, time};
pub use test_nights::TestNights;
pub use timetables::Timetables;
pub use weekly::Weeklies;
pub use words::{Words, count, difference, first_upper, shown_pace};
