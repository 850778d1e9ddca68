//! The strokes, and the ways of swimming that a set names in their place.

use serde::{Deserialize, Serialize};
use strum::{Display, EnumString, IntoStaticStr, VariantArray};

use super::{UnknownName, every};

/// Stroke, by the contract's word.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[derive(Display, EnumString, IntoStaticStr, VariantArray)]
#[serde(rename_all = "snake_case")]
#[strum(serialize_all = "snake_case")]
#[strum(parse_err_ty = UnknownName, parse_err_fn = unknown)]
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
    pub const ALL: [Stroke; Stroke::VARIANTS.len()] = every(Stroke::VARIANTS);

    /// The contract's word.
    pub fn name(self) -> &'static str {
        self.into()
    }
}

fn unknown(word: &str) -> UnknownName {
    UnknownName { what: "stroke", word: word.to_owned() }
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
