//! The strokes, and the ways of swimming that a set names in their place.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Serialize};

use super::UnknownName;

/// Stroke, by the contract's word.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Stroke {
    /// Front crawl.
    Free,
    /// Backstroke.
    Back,
    /// Breaststroke.
    Breast,
    /// Butterfly.
    Fly,
    /// Individual medley.
    Im,
    /// Legs only.
    Kick,
    /// Arms only.
    Pull,
    /// A technique drill.
    Drill,
    /// Swimmer's choice.
    Choice,
}

impl Stroke {
    /// Every one, in the contract's order.
    pub const ALL: [Stroke; 9] = [
        Stroke::Free,
        Stroke::Back,
        Stroke::Breast,
        Stroke::Fly,
        Stroke::Im,
        Stroke::Kick,
        Stroke::Pull,
        Stroke::Drill,
        Stroke::Choice,
    ];

    /// The contract's word.
    pub const fn name(self) -> &'static str {
        match self {
            Stroke::Free => "free",
            Stroke::Back => "back",
            Stroke::Breast => "breast",
            Stroke::Fly => "fly",
            Stroke::Im => "im",
            Stroke::Kick => "kick",
            Stroke::Pull => "pull",
            Stroke::Drill => "drill",
            Stroke::Choice => "choice",
        }
    }
}

impl fmt::Display for Stroke {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(self.name())
    }
}

impl FromStr for Stroke {
    type Err = UnknownName;

    fn from_str(word: &str) -> Result<Self, UnknownName> {
        Stroke::ALL
            .into_iter()
            .find(|one| one.name() == word)
            .ok_or_else(|| UnknownName { what: "stroke", word: word.to_owned() })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn print_then_parse_is_identity() {
        for one in Stroke::ALL {
            assert_eq!(one.to_string().parse::<Stroke>(), Ok(one));
        }
    }
}
