//! One nom function for each rule of `grammar/message.abnf` and
//! `grammar/set.abnf`, bearing its name; the first line of its docs is the rule.
//!
//! Reads the normalised text and nothing else: what a figure can mean, and
//! whether sums and counts agree, is looked at in `meaning`.

mod approval;
mod commands;
mod evening;
mod lexical;
mod limits;
mod meets;
mod messages;
mod people;
mod profile;
mod regular;
mod reports;
mod sets;

pub use messages::message;
pub use reports::item;
pub use sets::{opening, rest};
