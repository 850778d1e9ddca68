//! What a text says: the tree of a message, and the grammar that reads it.
//!
//! Knows text and nothing of swimmers: names, courses, dates and doubtful times
//! stay as typed, to be settled elsewhere against the swimmer and the clock.

mod addressed;
mod ailment;
mod approval;
mod ask;
mod care;
mod class;
mod combinators;
mod contact;
mod courtesy;
mod danger;
mod evening;
mod examples;
mod grammar;
mod limit;
mod matter;
mod meaning;
mod named;
mod nature;
mod normal;
mod number;
mod opting;
mod parse;
mod people;
mod print;
mod question;
mod regular;
mod safeguard;
mod set;
mod statement;
mod swum;
mod syntax;
mod tree;
mod typed;
mod weekdays;
mod wish;

pub use addressed::{Addressed, addressed, is_bare_answer, without_name};
pub use ailment::{Illness, Pain};
pub use approval::Approval;
pub use ask::{About, Ask};
pub use care::Concern;
pub use class::Class;
pub(crate) use class::named_variants;
pub use contact::{contact, is_unclear};
pub use courtesy::{Courtesy, courtesy, is_alarm};
pub use danger::{Danger, Whom};
pub use evening::{Cut, Edit, EditWhat, Slot, SquadFilter};
pub use examples::EXAMPLES;
pub use limit::Limits;
pub use matter::Matter;
pub use meaning::count_in_doubt;
pub use nature::{Nature, Turn};
pub use normal::{Ailing, folded, is_pronoun, plain};
pub use number::{is_dialled, is_number};
pub use opting::{Pause, is_help, is_opt_in, is_opt_out, is_worried, is_yes, pause};
pub use parse::{LONGEST_TEXT, normal_form, parse, parse_knowing, parses};
pub use people::{Guess, Office, People};
pub use question::{Of, Pick, Question, Sought, Term};
pub use regular::Regular;
pub use safeguard::{Safeguard, names_officer, safeguard};
pub use set::{Effort, ForLanes, Rounds, SetItem, SetLine, SetPiece, TypedSet};
pub use statement::{Kind, Statement};
pub use swum::{Done, Entry, Fix, LaneResults, RelayLeg, SetResult, Sport, Test, TimedTest};
pub use tree::*;
pub use typed::Typed;
pub use wish::{NextWish, PlanWish, ProfileChange, WeekKind};

pub use crate::session::Scope;
pub use crate::units::Start;
