//! The kit that a repeat may ask for.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Serialize};

use super::UnknownName;

/// Equipment, by the contract's word.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Equipment {
    /// Fins.
    Fins,
    /// Hand paddles.
    Paddles,
    /// A pull buoy between the legs.
    PullBuoy,
    /// A kickboard.
    Board,
    /// A centre snorkel.
    Snorkel,
}

impl Equipment {
    /// Every one, in the contract's order.
    pub const ALL: [Equipment; 5] = [
        Equipment::Fins,
        Equipment::Paddles,
        Equipment::PullBuoy,
        Equipment::Board,
        Equipment::Snorkel,
    ];

    /// The contract's word.
    pub const fn name(self) -> &'static str {
        match self {
            Equipment::Fins => "fins",
            Equipment::Paddles => "paddles",
            Equipment::PullBuoy => "pull_buoy",
            Equipment::Board => "board",
            Equipment::Snorkel => "snorkel",
        }
    }
}

impl fmt::Display for Equipment {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(self.name())
    }
}

impl FromStr for Equipment {
    type Err = UnknownName;

    fn from_str(word: &str) -> Result<Self, UnknownName> {
        Equipment::ALL
            .into_iter()
            .find(|one| one.name() == word)
            .ok_or_else(|| UnknownName { what: "equipment", word: word.to_owned() })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn print_then_parse_is_identity() {
        for one in Equipment::ALL {
            assert_eq!(one.to_string().parse::<Equipment>(), Ok(one));
        }
    }
}
