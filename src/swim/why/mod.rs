//! Where each number in a reply comes from: the formula, the swimmer's own
//! numbers put in, the source, how sure it is.
//!
//! Facts only; the reply room chooses how much of them to say, and in which
//! language.

mod explanation;
mod of_change;
mod of_pace;
mod of_race;

pub use explanation::{Explanation, Source, Sureness};
pub use of_change::{balance, change, pacing, set, week};
pub use of_pace::{
    CRITICAL_BY_CURVE, CRITICAL_FROM_ONE, critical_speed, even_pace, level, next_test,
};
pub use of_race::{
    PREDICTED_BY_CURVE, PREDICTED_BY_LAW, conversion, points, prediction, stroke_efficiency,
};
