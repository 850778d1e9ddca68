//! Kinds of danger, and whom a text says to be in it.

use serde::{Deserialize, Serialize};

/// What is to be acted on at once; the one whose first act can't wait comes first.
///
/// They are kinds of first aid, not diagnoses: each has its own first act.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
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
    pub const ALL: [Danger; 22] = [
        Danger::Unconscious,
        Danger::Choking,
        Danger::Water,
        Danger::Bleeding,
        Danger::Allergy,
        Danger::Spine,
        Danger::Seizure,
        Danger::Stroke,
        Danger::Heart,
        Danger::Asthma,
        Danger::Breath,
        Danger::Sugar,
        Danger::HeadSigns,
        Danger::Fumes,
        Danger::Poison,
        Danger::Cold,
        Danger::Heat,
        Danger::Pregnancy,
        Danger::Faint,
        Danger::Unspecific,
        Danger::Head,
        Danger::Dizzy,
    ];

    /// Its name outside.
    pub const fn name(self) -> &'static str {
        match self {
            Danger::Unconscious => "unconscious",
            Danger::Choking => "choking",
            Danger::Water => "water",
            Danger::Bleeding => "bleeding",
            Danger::Allergy => "allergy",
            Danger::Spine => "spine",
            Danger::Seizure => "seizure",
            Danger::Stroke => "stroke",
            Danger::Heart => "heart",
            Danger::Asthma => "asthma",
            Danger::Breath => "breath",
            Danger::Sugar => "sugar",
            Danger::HeadSigns => "head_signs",
            Danger::Fumes => "fumes",
            Danger::Poison => "poison",
            Danger::Cold => "cold",
            Danger::Heat => "heat",
            Danger::Pregnancy => "pregnancy",
            Danger::Faint => "faint",
            Danger::Unspecific => "unspecific",
            Danger::Head => "head",
            Danger::Dizzy => "dizzy",
        }
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
