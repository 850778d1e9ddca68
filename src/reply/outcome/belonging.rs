//! Who has come, who has gone, who runs the squad.

use strum::{IntoStaticStr, VariantNames};

use crate::history::Role;
use crate::message::Name;
use crate::units::Pace;

/// What was done about the people of a squad.
#[derive(Debug, Clone, PartialEq)]
#[derive(IntoStaticStr, VariantNames)]
pub enum Belonging {
    /// Someone was asked in.
    Invited {
        /// What they are to be called.
        name: Option<Name>,
        /// As what.
        role: Role,
    },
    /// An invitation was declined.
    Declined,
    /// They are in, and hold an office.
    InAs {
        /// Which.
        role: Role,
        /// In this squad.
        squad: String,
    },
    /// They are asked in to swim, and have to say under which name.
    NeedsName {
        /// The code to join by.
        code: String,
    },
    /// Another is the coach now, and the sender an assistant.
    HandedOver {
        /// Who.
        to: Name,
    },
    /// The sender has left.
    Left {
        /// This squad.
        squad: String,
    },
    /// Someone's access has ended.
    Removed {
        /// Whose.
        name: Name,
    },
    /// Someone without a telephone is in.
    GuestAdded {
        /// Who.
        name: Name,
        /// What their pace is taken to be.
        guess: Option<Pace>,
        /// The code for their own telephone; none where others read along.
        code: Option<String>,
    },
    /// The squads that the sender is in.
    Squads {
        /// Their names.
        names: Vec<String>,
        /// The one that texts go to.
        here: String,
    },
    /// The sender's texts go to this squad from now on.
    Taken {
        /// Its name.
        squad: String,
    },
}
