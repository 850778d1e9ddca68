//! What a text's words say of its kind: the third source of evidence beside pieces
//! and situation.
//!
//! Small linear models, a table of weights for each language in `grammar/weights/`, trained
//! from the corpora alone (`tests/reading/train.rs`). They say which kinds of statement are
//! likely; every value comes from the pieces, and nothing is stored by them.

mod doubt;
mod feature;
mod linear;
mod may_be;
mod model;
mod softmax;
mod stands;
mod telling;

pub use doubt::{doubt, features as features_of};
pub use feature::features;
pub use may_be::{MayBe, may_be};
pub use model::{Likely, Weights};
pub use stands::{Row, Stands, carries, stands};
pub use telling::{Telling, Tellings, telling_features};

pub use crate::message::Class;
