//! The invented squad of the demo: seeded virtual swimmers who text twelve
//! weeks of history through the real way in, and an evening that is under way
//! whenever somebody looks.
//!
//! Invented, all of it; no number in it was written by hand. Knows the service
//! and the simulation; nothing in the product knows of it.

mod evening;
mod squad;

pub use evening::zone;
pub use squad::{COACH, SWIMMER, Text, WEEKS, history, prepare, tonight};
