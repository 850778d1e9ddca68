//! How much longer each stroke and way of swimming takes than free, where
//! nothing of the swimmer's own tells it.
//!
//! A table; whose swim it is, is not known here.

use crate::units::Stroke;

/// The time of a swim as a multiple of that in free, for adults of no great
/// skill in it (ours, a guess that is shown as one). The order is that of the
/// world's best over 200 m, where back takes 1.10 times as long as free, fly
/// 1.08, medley 1.12 and breaststroke 1.23 (from memory); amateurs lose more in
/// each. Pull as free, drill and kick as half as long again: common practice,
/// no source.
pub const fn times_free(stroke: Stroke) -> f64 {
    match stroke {
        Stroke::Free | Stroke::Choice | Stroke::Pull => 1.0,
        Stroke::Back => 1.15,
        Stroke::Fly | Stroke::Im => 1.2,
        Stroke::Breast => 1.3,
        Stroke::Drill | Stroke::Kick => 1.5,
    }
}
