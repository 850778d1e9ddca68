//! What the times of a paced set say: held, lost, fading, gone out too fast.
//!
//! Describes; what to change next time is decided elsewhere.

use crate::units::{Centis, Seconds};

/// A paced set against its target.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SetAnalysis {
    /// Repeats, those not swum among them.
    pub repeats: usize,
    /// How much slower than the target still counts as held.
    pub tolerance: Centis,
    /// Repeats swum within the tolerance, or faster.
    pub held: usize,
    /// All others: slower, or not swum.
    pub missed: usize,
    /// The first that was missed, counted from 1.
    pub first_lost: Option<usize>,
    /// True if the first two were both far too fast: a fault of pacing, which
    /// no count of held repeats excuses.
    pub fast_start: bool,
    /// What the times look like without regard to the target; `None` if
    /// nothing was swum.
    pub shape: Option<Shape>,
}

/// The shape of a set's times; repeats not swum are left out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shape {
    /// Mean.
    pub mean: Seconds,
    /// Fastest.
    pub best: Centis,
    /// Slowest less fastest.
    pub spread: Seconds,
    /// Seconds slower from one repeat to the next: the Theil–Sen slope, the
    /// median of the slopes of all pairs (Sen 1968, J Am Stat Assoc
    /// 63:1379-1389), which one bad repeat can't bend. Negative for a set that
    /// gets faster; `None` for a single time.
    pub fade: Option<Seconds>,
}

/// Judges `times` (`None` for a repeat not swum) against `target`.
///
/// Held: slower than the target by no more than the larger of 2 % and 1.0 s,
/// the least a pace clock shows; 0.5 s where more than half of the times have
/// tenths. Common practice, no source.
pub fn analyse(target: Centis, times: &[Option<Centis>]) -> SetAnalysis {
    let tolerance = tolerance(target, times);
    let limit = target + tolerance;
    let is_held = |time: &Option<Centis>| time.is_some_and(|time| time <= limit);
    let held = times.iter().filter(|time| is_held(time)).count();
    SetAnalysis {
        repeats: times.len(),
        tolerance,
        held,
        missed: times.len() - held,
        first_lost: times.iter().position(|time| !is_held(time)).map(|index| index + 1),
        fast_start: fast_start(target, times),
        shape: shape(times),
    }
}

/// The shape of `times`; `None` if nothing was swum.
pub fn shape(times: &[Option<Centis>]) -> Option<Shape> {
    let swum: Vec<Centis> = times.iter().flatten().copied().collect();
    let (best, worst) = (*swum.iter().min()?, *swum.iter().max()?);
    let sum: f64 = swum.iter().map(|time| f64::from(time.hundredths())).sum();
    let spread = f64::from(worst.hundredths() - best.hundredths()) / 100.0;
    Some(Shape {
        mean: Seconds::new(sum / swum.len() as f64 / 100.0),
        best,
        spread: Seconds::new(spread),
        fade: fade(times),
    })
}

/// The largest slowing that still counts as held.
fn tolerance(target: Centis, times: &[Option<Centis>]) -> Centis {
    let floor = if mostly_tenths(times) { 50 } else { 100 };
    let two_percent = target.hundredths() / 50;
    Centis::new(two_percent.max(floor)).unwrap_or(target)
}

fn mostly_tenths(times: &[Option<Centis>]) -> bool {
    let swum = times.iter().flatten().count();
    let with_tenths = times.iter().flatten().filter(|time| !time.is_whole_seconds()).count();
    with_tenths * 2 > swum
}

/// Both of the first two more than 4 % fast (2 s on a 50 in 48), and by more
/// than a pace clock's second where whole seconds were given. Common practice,
/// no source.
fn fast_start(target: Centis, times: &[Option<Centis>]) -> bool {
    let clock = if mostly_tenths(times) { 0 } else { 100 };
    let far_too_fast = |time: &Option<Centis>| {
        time.and_then(|time| target.less(time)).is_some_and(|gain| {
            gain.hundredths() > clock && gain.hundredths() * 25 > target.hundredths()
        })
    };
    matches!(times, [first, second, ..] if far_too_fast(first) && far_too_fast(second))
}

fn fade(times: &[Option<Centis>]) -> Option<Seconds> {
    let swum: Vec<(f64, f64)> = times
        .iter()
        .enumerate()
        .filter_map(|(index, time)| Some((index as f64, f64::from((*time)?.hundredths()))))
        .collect();
    let mut slopes: Vec<f64> = Vec::with_capacity(swum.len() * swum.len() / 2);
    for (index, (x1, y1)) in swum.iter().enumerate() {
        let later = swum.iter().skip(index + 1);
        slopes.extend(later.map(|(x2, y2)| (y2 - y1) / (x2 - x1)));
    }
    if slopes.is_empty() {
        return None;
    }
    let (count, middle) = (slopes.len(), slopes.len() / 2);
    // In order only as far as the median needs it.
    let (below, above, _) = slopes.select_nth_unstable_by(middle, f64::total_cmp);
    let median = match below.iter().copied().max_by(f64::total_cmp) {
        Some(below) if count.is_multiple_of(2) => (below + *above) / 2.0,
        _ => *above,
    };
    Some(Seconds::new(median / 100.0))
}
