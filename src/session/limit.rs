//! What someone can't, or may not, do in the water.
//!
//! Knows sessions; not who said so, nor for how long.

use serde::{Deserialize, Serialize};

use crate::units::{Equipment, Stroke};

/// One thing that is left out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Limit {
    /// Swimming with that kit; a pull is swum with the buoy.
    Kit(Equipment),
    /// That stroke; a medley holds fly and breaststroke.
    Stroke(Stroke),
    /// The breaststroke kick, and so breaststroke and medley.
    BreastKick,
    /// Dives.
    Dives,
    /// Tumble turns.
    TumbleTurns,
}

impl Limit {
    /// True if it leaves out swims in `stroke`.
    pub fn bars(self, stroke: Stroke) -> bool {
        match self {
            Limit::Stroke(barred) if stroke == Stroke::Im => {
                matches!(barred, Stroke::Im | Stroke::Fly | Stroke::Breast | Stroke::Back)
            }
            Limit::Stroke(barred) => barred == stroke,
            Limit::BreastKick => matches!(stroke, Stroke::Breast | Stroke::Im),
            // A pull is swum with the buoy between the legs, whether it says so
            // or not.
            Limit::Kit(Equipment::PullBuoy) => stroke == Stroke::Pull,
            Limit::Kit(_) | Limit::Dives | Limit::TumbleTurns => false,
        }
    }

    /// True if it leaves out `kit`.
    pub fn bars_kit(self, kit: Equipment) -> bool {
        self == Limit::Kit(kit)
    }
}
