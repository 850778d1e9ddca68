//! A word that nobody may see: wraps what the environment gives, and knows
//! nothing of what it opens.

use std::fmt;

/// A password or token from the environment. It shows nothing of itself in a
/// log or a message of ours.
#[derive(Clone, PartialEq, Eq)]
pub struct Hidden(String);

impl Hidden {
    /// Hides a word.
    pub fn new(word: impl Into<String>) -> Hidden {
        Hidden(word.into())
    }

    /// The word, for the one place that sends or compares it.
    pub fn reveal(&self) -> &str {
        &self.0
    }
}

impl fmt::Debug for Hidden {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str("Hidden")
    }
}
