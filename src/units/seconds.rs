//! Seconds as the maths leave them: a mean, a difference, a rest.

use serde::{Deserialize, Serialize};

/// A number of seconds that no stopwatch showed: a mean, a spread, a fade; may
/// be nought or negative where it is a difference. What a watch shows is
/// [`Centis`](super::Centis).
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Seconds(f64);

impl Seconds {
    /// A number of seconds.
    pub const fn new(seconds: f64) -> Self {
        Self(seconds)
    }

    /// The number of seconds.
    pub const fn get(self) -> f64 {
        self.0
    }
}
