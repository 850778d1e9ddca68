//! A text as tokens: what was typed, in order, each with its place.
//!
//! Opting out, danger, names, results and commands all read its tokens; only the notation
//! is cut by a lexer of its own (`message::normal`). It knows characters and nothing of
//! words.

mod token;

pub use token::{Form, Lexed, Token, lex};
