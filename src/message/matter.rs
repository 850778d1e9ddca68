//! What a text is about, as far as it decides who may hear of it.

use strum::VariantArray;

use super::Kind;
use crate::units::every;

/// What a minor's words are about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[derive(VariantArray)]
pub enum Matter {
    /// What is swum, when, how fast; who comes.
    Swimming,
    /// Pain and illness.
    Body,
    /// Words of danger.
    Danger,
    /// Words of harm or fear, of oneself or by others.
    Harm,
    /// The safe word.
    Worried,
    /// Eating, weight, purging.
    Food,
    /// What is between them and a clinician.
    Clinician,
    /// Opting out and in, help, who they are, who answers for them.
    Address,
    /// What was not read.
    Unread,
}

impl Matter {
    /// Every matter.
    pub const ALL: [Matter; Matter::VARIANTS.len()] = every(Matter::VARIANTS);

    /// What a statement is about.
    pub const fn of(kind: &Kind) -> Matter {
        kind.nature().matter
    }
}
