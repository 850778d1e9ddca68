//! Where each number in a reply comes from: the formula, the swimmer's own
//! numbers put in, the source, how sure it is.
//!
//! Facts only; the reply room chooses how much of them to say, and in which
//! language.

mod explanation;
mod of_pace;
mod of_race;
mod of_set;

pub use explanation::{Explanation, Source, Sureness};
pub use of_pace::{critical_speed, even_pace};
pub use of_race::prediction;
pub use of_set::set;
