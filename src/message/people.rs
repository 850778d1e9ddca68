//! Who comes into a squad, who goes, and who runs it.

use serde::{Deserialize, Serialize};
use strum::{IntoStaticStr, VariantNames};

use super::{Length, Name, TypedTime};

/// What is said of the people of a squad.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[derive(IntoStaticStr, VariantNames)]
#[serde(rename_all = "snake_case")]
pub enum People {
    /// `invite +15550123 assistant kestrel`
    Invite {
        /// The address, without spaces.
        to: String,
        /// As what, where it was said; otherwise to swim.
        office: Option<Office>,
        /// What they are to be called, where it was said.
        name: Option<Name>,
    },
    /// `hand over kestrel`
    HandOver {
        /// The coach to be.
        to: Name,
    },
    /// `remove kestrel`
    Remove {
        /// Who is to go.
        name: Name,
    },
    /// `leave`
    Leave,
    /// `add robin 2:20`, `add robin 200 4:40`
    Add {
        /// What the guest is called.
        name: Name,
        /// How fast they may be, where it was said.
        guess: Option<Guess>,
    },
    /// `claim CODE`
    Claim {
        /// The guest's code, upper case.
        code: String,
    },
    /// `squads`
    Squads,
}

/// As what someone is asked in, if not to swim.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Office {
    /// To run the squad beside the coach.
    Coach,
    /// To stand in on the evening.
    Assistant,
    /// To answer for a minor.
    Guardian,
    /// To hear worries.
    WelfareOfficer,
}

/// What a coach takes a guest's pace to be.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Guess {
    /// Over this distance; per 100 where none was said.
    pub distance: Option<Length>,
    /// In this time.
    pub time: TypedTime,
}
