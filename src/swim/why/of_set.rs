//! Why a set counts as held.

use super::{Explanation, Source, Sureness};
use crate::swim::set::SetAnalysis;
use crate::units::Centis;

/// A paced set: held, lost and fading.
pub fn set(target: Centis, set: &SetAnalysis) -> Explanation {
    let fade = set.shape.and_then(|shape| shape.fade).map_or_else(String::new, |fade| {
        format!("; {:+.2} s a repeat, the median of all pairs' slopes", fade.get())
    });
    let limit = target + set.tolerance;
    Explanation {
        number: "held and missed",
        formula: "held = no slower than the target by the larger of 2 % and 1.0 s (0.5 s with \
            tenths)",
        with: format!(
            "target {}, up to {}: held {} of {}{fade}",
            target.short(),
            limit.short(),
            set.held,
            set.repeats
        ),
        source: Source::CommonPractice,
        sureness: Sureness::Exact,
    }
}
