//! What words mean: one list of spellings a language, under the same meanings.
//!
//! Knows words and nothing of what is made of them.

mod concept;
mod inflected;
mod ordinary;
mod rows;
mod sense;
mod table;
mod tongue;

pub use concept::Concept;
pub use ordinary::is_ordinary;
pub use rows::rows;
pub use sense::{Sense, UnitWord};
pub use table::{Found, Lexicon};
pub use tongue::tongue;
