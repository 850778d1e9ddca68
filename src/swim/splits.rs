//! How a swim was paced, from its splits.

use crate::units::Centis;

/// The pacing of one swim.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pacing {
    /// How much longer the second half took, in percent of the first: above
    /// nought for a positive split, below for a negative one.
    pub second_half_percent: f64,
    /// True if the second half was over 6 % slower (ours): the time says less
    /// of the swimmer than an evenly paced one would.
    pub faded: bool,
}

/// Compares the halves of a swim given in splits over equal distances; with an
/// odd number the middle one counts half to each. `None` for fewer than two.
pub fn pacing(splits: &[Centis]) -> Option<Pacing> {
    if splits.len() < 2 {
        return None;
    }
    let sum = |part: &[Centis]| -> f64 { part.iter().map(|split| split.seconds()).sum() };
    let half = splits.len() / 2;
    let (first, rest) = splits.split_at_checked(half)?;
    let (middle, second) = rest.split_at_checked(rest.len() - half)?;
    let middle = sum(middle) / 2.0;
    let first = sum(first) + middle;
    let second = sum(second) + middle;
    let second_half_percent = (second / first - 1.0) * 100.0;
    Some(Pacing { second_half_percent, faded: second_half_percent > 6.0 })
}
