//! The maths of swimming: what a test, a set or a week of loads says, with its
//! source and how sure it is.
//!
//! Pure functions of numbers. Knows nothing of messages, plans, stores or the
//! clock: what day it is comes in as an argument.

mod category;
pub mod conversion;
pub mod critical_speed;
pub mod curve;
pub mod even_pace;
pub mod least_squares;
pub mod levels;
pub mod linear;
pub mod load;
pub mod next_test;
pub mod plausible;
pub mod points;
pub mod prediction;
pub mod real_change;
pub mod set;
pub mod splits;
pub mod stroke_efficiency;
pub mod strokes;
mod trial;
pub mod why;

pub use category::Category;
pub use trial::Trial;
