//! How a swim was begun.

use serde::{Deserialize, Serialize};

/// The start of a timed swim, by the contract's word.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Start {
    /// In the water, off the wall: how repeats of a set begin.
    Push,
    /// From the block or the side.
    Dive,
    /// In the water without a wall.
    Water,
}
