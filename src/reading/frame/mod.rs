//! Frames: what kinds of statement there are, and which pieces each is made of.
//!
//! A frame looks at a stretch of the text and says what it would be, which pieces
//! that explains, and what speaks against it.

mod ask;
mod attend;
mod candidate;
mod clause;
mod coach;
mod correct;
mod health;
mod indirect;
pub mod mood;
mod own;
mod results;
mod sets;
mod table;
pub mod unchanged;

pub use ask::{best_over, of_one, of_words, question_in, speaks_of_health};
pub use attend::minutes_late;
pub use candidate::{Candidate, Question};
pub use clause::{Clause, fits, stroke_of, typed};
pub use health::{body, complaints, is_of_something_else, is_theirs};
pub use indirect::asks_otherwise;
pub use results::narrative::Spec;
pub use results::puzzle::solve;
pub use table::{FRAMES, Frame};
