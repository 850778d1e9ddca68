//! The linear normaliser: a text as typed made into the tokens that the grammar
//! is written in.
//!
//! Knows spellings and nothing of what may follow what; a word it doesn't know
//! becomes a possible name.

mod ailing;
mod characters;
mod commas;
mod context;
mod everyday;
mod figures;
mod kinds;
mod lexer;
mod limits;
mod listed;
mod own_targets;
mod small_words;
mod tokens;
mod words;

pub use ailing::{Ailing, is_pronoun};
pub use characters::{folded, plain};
pub use lexer::free_text;
pub use listed::listed;
pub use tokens::{BODY, Normal, Token, normalise};
pub use words::Words;
