//! Calls for help: who is called, and in which order. Knows no sockets and no
//! words.

use serde::{Deserialize, Serialize};
use strum::VariantArray;

use crate::units::every;

/// As what somebody is called by an alarm. The order is that in which they are
/// called.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[derive(VariantArray)]
#[serde(rename_all = "snake_case")]
pub enum Called {
    /// A coach or an assistant: all of them at once.
    Deck,
    /// The squad's second contact, while nobody on deck is reached.
    SecondContact,
    /// One who asked to be told, while neither of those is reached.
    Standby,
    /// A minor's guardian: at once, beside those on deck.
    Guardian,
    /// The welfare officer, of a worry: at once, and nobody else.
    Officer,
    /// Whoever raised the alarm: that nobody is reached yet.
    Sender,
}

impl Called {
    /// As what anybody is called.
    pub const ALL: [Called; Called::VARIANTS.len()] = every(Called::VARIANTS);

    /// True where help is called once this one has it: a guardian knows and may
    /// be far away.
    pub const fn is_help(self) -> bool {
        !matches!(self, Called::Guardian | Called::Sender)
    }

    /// True for those who are called only while none of `other`'s is reached.
    pub const fn waits_for(self, other: Called) -> bool {
        match self {
            Called::SecondContact => matches!(other, Called::Deck),
            Called::Standby => matches!(other, Called::Deck | Called::SecondContact),
            _ => false,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_order_as_a_page() {
        let waits =
            |one: Called| Called::ALL.into_iter().filter(move |other| one.waits_for(*other));
        let rows: Vec<String> = Called::ALL
            .into_iter()
            .map(|one| {
                let after: Vec<String> = waits(one).map(|other| format!("{other:?}")).collect();
                format!("{one:?}: after [{}], help {}", after.join(", "), one.is_help())
            })
            .collect();
        assert_eq!(
            rows,
            [
                "Deck: after [], help true",
                "SecondContact: after [Deck], help true",
                "Standby: after [Deck, SecondContact], help true",
                "Guardian: after [], help false",
                "Officer: after [], help true",
                "Sender: after [], help false",
            ]
        );
    }
}
