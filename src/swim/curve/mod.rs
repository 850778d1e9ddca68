//! One curve a swimmer: time over distance in one stroke, as known on one day.
//!
//! Knows results and the day; not who swam, what is planned, or what is said.
//! Every figure about how fast somebody is reads it: targets, critical speed,
//! prediction, levels, what is plausible, the order of a lane.
//!
//! The model: the logarithm of time over the logarithm of distance is the
//! [population's shape](shape()) and a deviation of their own. The deviation is an
//! attractive Gaussian chain ([`Chain`]): neighbouring distances pull each other
//! together, each result pulls at its own distance, the weaker the older it is.
//! Such a chain has a precision matrix without positive entries off its
//! diagonal (an M-matrix), so no entry of its inverse is negative (Berman &
//! Plemmons 1994, Nonnegative Matrices in the Mathematical Sciences; as a
//! Gaussian it is totally positive: Karlin & Rinott 1983, Adv Appl Prob
//! 15:471-493; both from memory). Hence, exactly and not by tuning:
//!
//! - a faster result makes no figure slower, at any distance, be it new or in
//!   the place of an old one; a slower one makes none faster;
//! - every result more narrows every band.
//!
//! The price: the exponent between two distances is never carried on past the
//! tested ones, where a faster 50 would slow the 1500. A two-state filter (level
//! and exponent) does that, predicts the far ends better by some tenths of a
//! percent, and breaks the first promise.

mod chain;
mod comparable;
mod estimate;
mod shape;

pub use chain::{Chain, Node};
pub use comparable::{from_a_push, from_start, in_course};
pub use estimate::{AtLeast, Curve, LIFT_MOST, Reading};
pub use shape::{LAW_EXPONENT, LAW_EXPONENT_SD, local_exponent, shape};
