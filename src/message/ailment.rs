//! What is wrong with somebody's body.

use serde::{Deserialize, Serialize};

/// A kind of illness, as far as it changes the days out of the water.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Illness {
    /// A cold, a sore throat.
    Cold,
    /// Fever, flu, a chest infection.
    Fever,
    /// A sick stomach or diarrhoea.
    Stomach,
}

/// Where it hurts, and how much.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Pain {
    /// The part of the body, English singular: `shoulder`, `knee`, `back`.
    pub place: String,
    /// 0 to 10, where it was said.
    pub level: Option<u8>,
}
