//! The invented squad of the demo: seeded virtual swimmers who text twelve
//! weeks of history through the real way in.
//!
//! Invented, all of it; no number in it was written by hand. Knows the service
//! and the simulation; nothing in the product knows of it.

mod squad;

pub use squad::{COACH, SWIMMER, WEEKS, history, prepare};
