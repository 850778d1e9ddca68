//! The kit that a repeat may ask for.

use serde::{Deserialize, Serialize};
use strum::{Display, EnumString, IntoStaticStr, VariantArray};

use super::{UnknownName, every};

/// Equipment, by the contract's word.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[derive(Display, EnumString, IntoStaticStr, VariantArray)]
#[serde(rename_all = "snake_case")]
#[strum(serialize_all = "snake_case")]
#[strum(parse_err_ty = UnknownName, parse_err_fn = unknown)]
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
    pub const ALL: [Equipment; Equipment::VARIANTS.len()] = every(Equipment::VARIANTS);

    /// The contract's word.
    pub fn name(self) -> &'static str {
        self.into()
    }
}

fn unknown(word: &str) -> UnknownName {
    UnknownName { what: "equipment", word: word.to_owned() }
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
