//! The rules as data: one table, and the numbers that a coach may change.
//!
//! Knows no swimmer; the rest of coaching asks it for numbers by name.

mod book;
mod file;
mod rule;
mod table;

pub use book::{Rulebook, rule, rules};
pub use file::{BookError, BookFault};
pub use rule::{Number, Rule, Words};
pub use table::RuleId;
