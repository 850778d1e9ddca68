//! What a text says: the tree of a message, and the grammar that reads it.
//!
//! Knows text and nothing of swimmers: names, courses, dates and doubtful times
//! stay as typed, to be settled against a profile and a clock elsewhere.

mod addressed;
mod approval;
mod combinators;
mod concern;
mod contact;
mod courtesy;
mod examples;
mod grammar;
mod health;
mod limit;
mod meaning;
mod normal;
mod opting;
mod people;
mod phrases;
mod print;
mod reading;
mod regular;
mod safeguard;
mod safety;
mod set;
mod statement;
mod syntax;
mod tree;

pub use addressed::{Addressed, addressed, is_bare_answer, without_name};
pub use approval::Approval;
pub use concern::{Concern, concerns};
pub use contact::{contact, is_unclear};
pub use courtesy::{Courtesy, courtesy};
pub use examples::EXAMPLES;
pub use health::{health, health_of_another};
pub use limit::Limits;
pub use meaning::count_in_doubt;
pub use normal::{Ailing, is_pronoun};
pub use opting::{Pause, is_help, is_opt_in, is_opt_out, is_worried, is_yes, pause};
pub use people::{Guess, Office, People};
pub use reading::{LONGEST_TEXT, normal_form, parse, parse_knowing, parses};
pub use regular::Regular;
pub use safeguard::{Safeguard, names_officer, safeguard};
pub use safety::{Danger, Whom, danger, danger_to, welfare};
pub use set::{Effort, Rounds, SetItem, SetLine, SetPiece, TypedSet};
pub use statement::*;
pub use tree::*;

pub use crate::units::Start;
