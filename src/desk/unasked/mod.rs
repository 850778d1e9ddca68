//! What is said unasked: when each kind is due, to whom, and in which words.
//!
//! Pure: it is asked at an instant what is due then. What was said is an event
//! with its person and its night or week, so that nothing is said twice, however
//! often it is asked and wherever the program was stopped between.

mod due;
mod hours;
pub mod regular;
mod squad_week;
mod swimmer_week;
mod who_comes;
mod whom;

pub use due::{Unprompted, claims, next_look, unprompted};
