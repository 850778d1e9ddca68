//! A text as tokens: what was typed, in order, each with its place.
//!
//! The one lexer of the program: opting out, danger, names, results and
//! commands all read its tokens. It knows characters and nothing of words.

mod token;

pub use token::{Form, Lexed, Token, lex};
