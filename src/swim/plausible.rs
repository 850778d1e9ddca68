//! Is a time possible for its distance, and for this swimmer?
//!
//! A doubt is a reason to ask back, never to refuse or to change a number.

use crate::units::{Centis, Distance, Speed, Stroke};

/// How a time looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// Nothing odd about it.
    Plausible,
    /// Faster than can be believed unasked.
    TooFast,
    /// Slower than can be believed unasked.
    TooSlow,
}

/// How long the swimmer's prediction has had to settle.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Acquaintance {
    /// The first eight weeks, in which newcomers improve quickly.
    FirstWeeks,
    /// Later.
    Settled,
}

/// A time for a swimmer of whom nothing is known, by mean speed in metres a
/// second: 0.15 to 2.0 for kick and drill, 0.25 to 2.7 for swims of up to 50,
/// else 0.3 to 2.4. Common practice, no source; the fastest 50 m freestyle is
/// 2.39 m/s long course.
pub fn check(distance: Distance, time: Centis, stroke: Stroke) -> Verdict {
    let (slowest, fastest) = match stroke {
        Stroke::Kick | Stroke::Drill => (0.15, 2.0),
        _ if distance.amount() <= 50 => (0.25, 2.7),
        _ => (0.3, 2.4),
    };
    let speed = Speed::of(distance, time).metres_per_second();
    if speed > fastest {
        Verdict::TooFast
    } else if speed < slowest {
        Verdict::TooSlow
    } else {
        Verdict::Plausible
    }
}

/// A time beside the swimmer's own prediction for that distance: odd when over
/// 8 % faster (12 % in the first weeks) or over 20 % slower. Common practice,
/// no source.
pub fn check_against(predicted: Centis, time: Centis, known: Acquaintance) -> Verdict {
    let faster_percent = match known {
        Acquaintance::FirstWeeks => 12,
        Acquaintance::Settled => 8,
    };
    let share = |percent: u64| u64::from(predicted.hundredths()) * percent;
    let given = u64::from(time.hundredths()) * 100;
    if given < share(100 - faster_percent) {
        Verdict::TooFast
    } else if given > share(120) {
        Verdict::TooSlow
    } else {
        Verdict::Plausible
    }
}
