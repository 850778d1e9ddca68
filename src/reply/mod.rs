//! How we speak: what a message came to, as data, and its words.
//!
//! A reply is data first ([`Outcome`]), words last ([`Voice`]), JSON beside
//! them. One room owns the wording of each language; nothing here decides.

mod json;
mod outcome;
mod shorthand;
mod sms;
mod voice;
mod words;

pub use json::{result, session_json};
pub use outcome::*;
pub use shorthand::{block_shorthand, line_shorthand, repeat_shorthand, shown};
pub use sms::{Alphabet, Fitted, alphabet, carried, fit, segments};
pub use voice::{Voice, voice};
pub use words::Label;
