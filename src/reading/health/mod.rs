//! What a text says of bodies: danger, harm, pain, illness, and what is answered
//! with care.
//!
//! Read from the lexer's tokens before anything else is made of them: words are
//! signs (`sign`, `words`), signs near each other are a danger (`rule`,
//! `dangers`), and what stands round them says whose it is and whether it is now
//! (`context`). It knows nothing of what is answered.

mod alarms;
mod concerns;
mod context;
mod dangers;
mod harms;
mod models;
mod others;
mod rule;
mod sign;
mod signs_in_text;
mod signs_ruled_out;
mod words;

pub use alarms::{Alarm, Alarms, alarms, alarms_in, explain, names_anybody};
pub use others::illness_of_another;
pub use sign::{Sign, Signs};
pub use words::signs_of;
