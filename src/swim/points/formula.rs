//! The cubic formula, both ways.

use crate::units::Centis;

/// Points for `time` where `base` is worth 1000: `1000 * (base/time)³`, cut to
/// a whole number, worked without rounding.
///
/// Source: the points rules of World Aquatics, read in a federation's reprint.
/// (Tables of 2009 and before were rounded instead.)
///
/// ```
/// use lapwing::swim::points::points;
/// assert_eq!(points("20.91".parse().unwrap(), "25.50".parse().unwrap()), 551);
/// ```
pub fn points(base: Centis, time: Centis) -> u32 {
    let cube = |time: Centis| u128::from(time.hundredths()).pow(3);
    u32::try_from(1000 * cube(base) / cube(time)).unwrap_or(u32::MAX)
}

/// The times, fastest and slowest, that earn a score.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TimesFor {
    /// What they earn: the score asked for or, where no hundredth earns that,
    /// the next above.
    pub points: u32,
    /// The fastest time with that score, which the published tables print.
    pub fastest: Centis,
    /// The slowest: what a swimmer needs.
    pub slowest: Centis,
}

/// The times that earn `wanted` points, or the next score that a hundredth
/// can earn. `None` for nought and for scores that no time reaches.
pub fn times_for(base: Centis, wanted: u32) -> Option<TimesFor> {
    if wanted == 0 {
        return None;
    }
    let slowest = slowest_with(base, wanted)?;
    let earned = points(base, slowest);
    let fastest = match earned.checked_add(1).and_then(|above| slowest_with(base, above)) {
        Some(too_good) => Centis::new(too_good.hundredths() + 1).ok()?,
        None => Centis::new(1).ok()?,
    };
    Some(TimesFor { points: earned, fastest, slowest })
}

/// The slowest time worth at least `wanted`, by bisection: points fall as time
/// grows.
fn slowest_with(base: Centis, wanted: u32) -> Option<Centis> {
    let enough =
        |hundredths: u32| Centis::new(hundredths).ok().filter(|time| points(base, *time) >= wanted);
    let mut best = enough(1)?;
    let (mut low, mut high) = (1, Centis::GREATEST.hundredths() + 1);
    while high - low > 1 {
        let middle = low + (high - low) / 2;
        match enough(middle) {
            Some(time) => (best, low) = (time, middle),
            None => high = middle,
        }
    }
    Some(best)
}
