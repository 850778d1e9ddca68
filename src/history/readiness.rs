//! Whether a swimmer has been asked about their health, and may swim hard.

use serde::{Deserialize, Serialize};

/// How far the questions on joining have come.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Readiness {
    /// How many are answered.
    pub answered: u8,
    /// One was not answered with a clear no.
    pub concern: bool,
    /// They may swim hard: all were, or the coach has released them.
    pub cleared: bool,
}

impl Readiness {
    /// How many questions there are.
    pub const QUESTIONS: u8 = 3;

    /// After the answer to `question`, counted from 1.
    #[must_use]
    pub fn after(self, question: u8, concern: bool) -> Self {
        let concern = self.concern || concern;
        let all = question >= Self::QUESTIONS;
        Self { answered: question, concern, cleared: self.cleared || (all && !concern) }
    }
}
