//! What a text's words say of its kind: the third source of evidence beside pieces
//! and situation.
//!
//! A small linear model, one table of weights for each language in
//! `grammar/weights/`, trained from the corpora alone (`tests/reading/train.rs`). It
//! says which kinds of statement are likely; every value comes from the pieces, and
//! nothing is stored by it.

mod doubt;
mod feature;
mod model;

pub use doubt::{doubt, features as features_of};
pub use feature::features;
pub use model::{Likely, Weights};

pub use crate::message::Class;
