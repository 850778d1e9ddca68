//! The maths of swimming: what a test, a set or a week of loads says, with its
//! source and how sure it is.
//!
//! Pure functions of numbers. Knows nothing of messages, plans, stores or the
//! clock: what day it is comes in as an argument.

pub mod critical_speed;
pub mod even_pace;
pub mod least_squares;
pub mod levels;
pub mod plausible;
pub mod set;
pub mod splits;
mod trial;

pub use trial::Trial;
