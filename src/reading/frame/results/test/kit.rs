//! A timed swim with kit, which is nobody's best.

use crate::message::{SetResult, Test};
use crate::reading::frame::Clause;
use crate::reading::lexicon::Concept;
use crate::units::Equipment;

/// The kit that a swim was swum with, which makes it nobody's best: `200 3.07 with a pull
/// buoy`, but not `without fins`, nor a test that is called one.
pub fn worn(c: &Clause<'_, '_>) -> Vec<Equipment> {
    if c.has(Concept::Test) {
        return vec![];
    }
    let mut worn = Vec::new();
    for (at, piece) in c.pieces.iter().enumerate() {
        let Some(kit) = piece.kit() else { continue };
        let with = c.pieces[at.saturating_sub(2)..at].iter().any(|p| p.means(Concept::With));
        if with && !worn.contains(&kit) {
            worn.push(kit);
        }
    }
    worn
}

/// A timed swim with kit: one repeat of a set.
pub fn with_kit(test: &Test, kit: Vec<Equipment>) -> SetResult {
    SetResult {
        stroke: test.stroke,
        times: vec![Some(test.time.clone())],
        equipment: kit,
        on: test.on,
        ..SetResult::new(1, test.distance)
    }
}
