//! Pieces of a text: figures, distances, repeats, days, people, and words with
//! their senses; each a nom function over tokens.
//!
//! Knows which shapes there are, and nothing of what a statement needs.

mod border;
mod calendar;
mod cell;
mod chart;
mod feast;
mod figure;
mod length;
mod number;
mod people;
mod row;
mod share;

pub use border::borders;
pub use calendar::{Named, Which};
pub use cell::{Cell, Words};
pub use chart::{Item, Piece, concepts_of, pieces};
pub use feast::Feast;
pub use figure::{Clock, Figure};
pub use length::{Far, is_raced};
pub use row::{Pieces, Used};
