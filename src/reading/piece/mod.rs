//! Pieces of a text: figures, distances, repeats, days, people, and words with
//! their senses; each a nom function over tokens.
//!
//! Knows which shapes there are, and nothing of what a statement needs.

mod border;
mod calendar;
mod feast;
mod figure;
mod into_pieces;
mod item;
mod length;
mod number;
mod people;
mod row;
mod sensed_token;
mod shape;
mod share;

pub use border::borders;
pub use calendar::{Named, Which};
pub use feast::Feast;
pub use figure::{Clock, Figure};
pub use into_pieces::pieces;
pub use item::{Item, Piece, concepts_of};
pub use length::{Far, is_raced};
pub use row::{Pieces, Used};
pub use sensed_token::{Cell, Words};
