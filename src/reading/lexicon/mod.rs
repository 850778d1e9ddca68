//! What words mean: one list of spellings a language, under the same meanings.
//!
//! Knows words and nothing of what is made of them.

mod concept;
mod fixed;
mod hint;
mod inflected;
mod ordinary;
mod rows;
mod sense;
mod table;
mod which_language;

pub use concept::{Concept, Concepts};
pub use fixed::{Fixed, FixedSet};
pub use hint::Hint;
pub use ordinary::{Ordinary, is_ordinary, knows, ordinary};
pub use rows::rows;
pub use sense::{Sense, UnitWord};
pub use table::{Alone, Found, Lexicon};
pub use which_language::which_language;
