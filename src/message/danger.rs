//! Kinds of danger, and whom a text says to be in it.

use serde::{Deserialize, Serialize};
use strum::{IntoStaticStr, VariantArray};

use crate::units::every;

/// What is to be acted on at once; the one whose first act can't wait comes first.
///
/// They are kinds of first aid, not diagnoses: each has its own first act.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[derive(IntoStaticStr, VariantArray)]
#[serde(rename_all = "snake_case")]
#[strum(serialize_all = "snake_case")]
pub enum Danger {
    /// Someone doesn't answer, doesn't move or doesn't breathe.
    Unconscious,
    /// Something stuck in the throat.
    Choking,
    /// Under water, water breathed in, froth coughed up.
    Water,
    /// Blood that doesn't stop.
    Bleeding,
    /// A swelling face or throat, a sting or food that some can't bear.
    Allergy,
    /// Neck or back after a fall or a dive; hands or legs without feeling.
    Spine,
    /// A fit.
    Seizure,
    /// Face, arm, speech, sight.
    Stroke,
    /// Chest, jaw, left arm, a racing heart.
    Heart,
    /// An asthma attack.
    Asthma,
    /// Breath that doesn't come.
    Breath,
    /// Too little or too much sugar.
    Sugar,
    /// A knock to the head and a sign that it was a bad one.
    HeadSigns,
    /// Gas or smoke: everybody out of it first.
    Fumes,
    /// Poison, too many tablets.
    Poison,
    /// Chilled through.
    Cold,
    /// Overheated.
    Heat,
    /// Bleeding, pain or a still child in pregnancy.
    Pregnancy,
    /// Fainted, and come round.
    Faint,
    /// Help is called for, or grave words of no kind.
    Unspecific,
    /// A knock to the head.
    Head,
    /// Dizziness.
    Dizzy,
}

impl Danger {
    /// Every one.
    pub const ALL: [Danger; Danger::VARIANTS.len()] = every(Danger::VARIANTS);

    /// Its name outside.
    pub fn name(self) -> &'static str {
        self.into()
    }

    /// True where help is called at once; else out, watched, and help if it grows.
    pub const fn is_grave(self) -> bool {
        !matches!(self, Danger::Head | Danger::Dizzy)
    }

    /// True for a knock to the head of either kind.
    pub const fn is_of_head(self) -> bool {
        matches!(self, Danger::Head | Danger::HeadSigns)
    }
}

/// Whom words of danger are about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Whom {
    /// The sender says so.
    Sender,
    /// Nobody is named: the sender, as far as we know.
    Unsaid,
    /// Someone beside the sender (`my friend fainted`, `he isn't breathing`).
    Another,
}
