//! Critical speed: the fastest that settles, from one test or from several.
//!
//! Knows the tests of one swimmer and the day; not what is done with the pace.
//!
//! Model: distance is linear in time, `d = reserve + speed * t` (Wakayoshi et
//! al. 1992, Eur J Appl Physiol 64:153-157, for swimming).

use std::collections::BTreeMap;

use jiff::civil::Date;

use super::Trial;
use super::least_squares::Line;
use crate::units::{Course, Metres, Pace, Speed, Stroke, Unit};

/// Exponent of the power law between 200 and 400 for one swimmer.
///
/// Ours, from published figures: at 1.095 critical speed is 94 % of the 400's
/// speed, the published mean; at 1.05 and 1.15 it is 97 % and 91 %, two
/// standard deviations (1.5 %) either way. Source of the 94.0 ± 1.5 %: 18
/// national and international men, as summarised beside Dekerle et al. 2005,
/// Int J Sports Med.
pub const EXPONENT: f64 = 1.095;
/// The exponent at the fast edge of the band.
pub const EXPONENT_FAST: f64 = 1.05;
/// The exponent at the slow edge of the band.
pub const EXPONENT_SLOW: f64 = 1.15;

/// The shortest test, in units of its course, that says anything of critical speed.
pub const SHORTEST: u32 = 200;
/// Tests this many days apart or fewer belong together.
pub const WINDOW_DAYS: i64 = 56;
/// Fastest and slowest time, in hundredths, of a test that feeds the line:
/// 100 s and 20 min (the model holds for about 2 to 15 min: Scott, Burden &
/// Dekerle 2023, J Hum Kinet 90:239-251).
const LINE_SPAN: std::ops::RangeInclusive<u32> = 10_000..=120_000;
/// Where critical speed usually lies as a share of the 400's speed: 94 % and
/// two standard deviations of 1.5 % either way.
const USUAL_SHARE: std::ops::RangeInclusive<f64> = 0.91..=0.97;

/// What an estimate rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Basis {
    /// No test of 200 or more.
    None,
    /// One test and the population's exponent.
    OneTest,
    /// Least squares over tests of two or more distances.
    Tests,
}

/// A pace and the band that it lies in: `low` is the fewest seconds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PaceBand {
    /// The best guess.
    pub pace: Pace,
    /// The fast edge.
    pub low: Pace,
    /// The slow edge.
    pub high: Pace,
}

/// What the tests say of critical speed.
#[derive(Debug, Clone, PartialEq)]
pub struct Estimate {
    /// What it rests on.
    pub basis: Basis,
    /// The pace; absent exactly when the basis is [`Basis::None`].
    pub band: Option<PaceBand>,
    /// The distance swum beyond critical speed before it is used up; only with
    /// [`Basis::Tests`]. Unreliable (typical error 4 to 9 m: Scott, Burden &
    /// Dekerle 2023), so it is shown and never coached from.
    pub reserve: Option<Metres>,
    /// The tests that made it, shortest first.
    pub made_from: Vec<Trial>,
    /// Pairs that can't both be full efforts; the shorter of each was left out.
    pub impossible: Vec<ImpossiblePair>,
    /// Critical speed as a share of the 400's speed, where it lies outside the
    /// usual 0.91 to 0.97: worth a remark and a second look, no error.
    pub unusual_share: Option<f64>,
}

/// Two tests of which the longer was swum at least as fast: no distance is
/// left over for a reserve, so one was no full effort or is mistyped.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ImpossiblePair {
    /// The shorter test, swum no faster.
    pub shorter: Trial,
    /// The longer one.
    pub longer: Trial,
}

impl Estimate {
    /// The best guess.
    pub fn pace(&self) -> Option<Pace> {
        self.band.map(|band| band.pace)
    }

    /// The fast edge of the band.
    pub fn low(&self) -> Option<Pace> {
        self.band.map(|band| band.low)
    }

    /// The slow edge of the band.
    pub fn high(&self) -> Option<Pace> {
        self.band.map(|band| band.high)
    }

    fn none() -> Self {
        Self {
            basis: Basis::None,
            band: None,
            reserve: None,
            made_from: Vec::new(),
            impossible: Vec::new(),
            unusual_share: None,
        }
    }
}

/// Critical speed in `stroke` and `course` as known on `today`.
///
/// Looks at tests of 200 or more within 56 days of the newest; of several over
/// one distance the fastest counts. Two distances or more swum in 100 s to
/// 20 min give [`Basis::Tests`], else the newest gives [`Basis::OneTest`].
/// Tests after `today` don't exist yet.
///
/// ```
/// use lapwing::swim::{Trial, critical_speed::{Basis, estimate}};
/// use lapwing::units::{Course, Stroke};
/// let today = "2026-03-02".parse().unwrap();
/// let test = |distance: &str, time: &str| Trial {
///     distance: distance.parse().unwrap(),
///     time: time.parse().unwrap(),
///     stroke: Stroke::Free,
///     course: Course::Short25m,
///     on: today,
///     meet: false,
/// };
/// let one = estimate(&[test("200m", "3:12")], today, Stroke::Free, Course::Short25m);
/// assert_eq!(one.pace().unwrap().to_string(), "1:49.1");
/// let both = [test("200m", "3:12"), test("400m", "6:44")];
/// let two = estimate(&both, today, Stroke::Free, Course::Short25m);
/// assert_eq!((two.basis, two.pace().unwrap().to_string()), (Basis::Tests, "1:46.0".into()));
/// ```
pub fn estimate(trials: &[Trial], today: Date, stroke: Stroke, course: Course) -> Estimate {
    let fitting = |trial: &&Trial| {
        trial.stroke == stroke
            && trial.course == course
            && trial.distance.unit() == course.unit()
            && trial.distance.amount() >= SHORTEST
            && trial.on <= today
    };
    let mut recent: Vec<Trial> = trials.iter().filter(fitting).copied().collect();
    let Some(newest) = recent.iter().map(|trial| trial.on).max() else {
        return Estimate::none();
    };
    recent.retain(|trial| trial.days_before(newest) <= WINDOW_DAYS);

    let best = fastest_by_distance(&recent);
    let impossible = impossible_pairs(&best);
    let line: Vec<Trial> = best
        .into_iter()
        .filter(|trial| LINE_SPAN.contains(&trial.time.hundredths()))
        .filter(|trial| !impossible.iter().any(|pair| pair.shorter == *trial))
        .collect();
    let several = if line.len() >= 2 { from_line(line.clone()) } else { None };
    let estimate = several.unwrap_or_else(|| {
        let same = |trial: &&Trial| line.iter().any(|kept| kept.distance == trial.distance);
        let one = recent.iter().filter(same).max_by_key(|trial| trial.on).or_else(|| {
            recent
                .iter()
                .filter(|trial| !impossible.iter().any(|pair| pair.shorter == **trial))
                .max_by_key(|trial| (trial.on, trial.distance.amount()))
        });
        one.map_or_else(Estimate::none, |trial| from_one(*trial))
    });
    Estimate { impossible, ..estimate }
}

/// The fastest trial over each distance, shortest distance first; of equal
/// times the newer. All must be in one unit.
pub fn fastest_by_distance(trials: &[Trial]) -> Vec<Trial> {
    let mut best: BTreeMap<u32, Trial> = BTreeMap::new();
    for trial in trials {
        let kept = best.entry(trial.distance.amount()).or_insert(*trial);
        if (trial.time, std::cmp::Reverse(trial.on)) < (kept.time, std::cmp::Reverse(kept.on)) {
            *kept = *trial;
        }
    }
    best.into_values().collect()
}

/// The pairs of `trials` (shortest first, one unit) of which the longer was
/// swum at least as fast as the shorter. That is the same as critical speed at
/// or above the longer one's speed, and as a reserve of nought or less.
pub fn impossible_pairs(trials: &[Trial]) -> Vec<ImpossiblePair> {
    let faster = |shorter: &Trial, longer: &Trial| {
        // d2/t2 >= d1/t1 in whole numbers, so that equal paces compare as equal.
        let cross =
            |a: &Trial, b: &Trial| u64::from(a.distance.amount()) * u64::from(b.time.hundredths());
        cross(longer, shorter) >= cross(shorter, longer)
    };
    let mut pairs = Vec::new();
    for (index, shorter) in trials.iter().enumerate() {
        for longer in &trials[index + 1..] {
            if shorter.distance.amount() < longer.distance.amount() && faster(shorter, longer) {
                pairs.push(ImpossiblePair { shorter: *shorter, longer: *longer });
            }
        }
    }
    pairs
}

/// `200/(T400 - T200)` with both times by the power law from one test. The band
/// is that of the exponents, and never narrower than the test's own typical
/// error: near 750 the exponent cancels out, the day's form does not.
fn from_one(trial: Trial) -> Estimate {
    let unit = trial.distance.unit();
    let with_exponent = |exponent: f64| {
        let time_at = |distance: f64| {
            trial.time.seconds()
                * libm::pow(distance / f64::from(trial.distance.amount()), exponent)
        };
        (time_at(400.0) - time_at(200.0)) / 2.0
    };
    let per_100 = with_exponent(EXPONENT);
    let edges = [
        with_exponent(EXPONENT_FAST),
        with_exponent(EXPONENT_SLOW),
        per_100 * (1.0 - trial.typical_error()),
        per_100 * (1.0 + trial.typical_error()),
    ];
    let low = edges.into_iter().fold(per_100, f64::min);
    let high = edges.into_iter().fold(per_100, f64::max);
    let Some(band) = pace_band(per_100, low, high, unit) else { return Estimate::none() };
    Estimate { basis: Basis::OneTest, band: Some(band), made_from: vec![trial], ..Estimate::none() }
}

/// Least squares of distance on time. The band is one standard error either
/// way: the larger of what the residuals say and what the typical error of the
/// times makes of it, `speed/Sxx * sqrt(sum((t - mean)² * e²))` (delta method).
fn from_line(trials: Vec<Trial>) -> Option<Estimate> {
    let points: Vec<(f64, f64)> = trials
        .iter()
        .map(|trial| (trial.time.seconds(), f64::from(trial.distance.amount())))
        .collect();
    let line = Line::through(&points)?;
    let unit = trials.first()?.distance.unit();
    let by_times = slope_error(&trials, line.slope);
    let error = line.errors.map_or(by_times, |errors| errors.slope.max(by_times));
    let per_100 = 100.0 / line.slope;
    let high = if error < line.slope { 100.0 / (line.slope - error) } else { f64::INFINITY };
    let band = pace_band(per_100, 100.0 / (line.slope + error), high, unit)?;
    // On the line itself 400 takes (400 - reserve)/speed, whence the share of its speed.
    let share = 1.0 - line.intercept / 400.0;
    Some(Estimate {
        basis: Basis::Tests,
        band: Some(band),
        reserve: Some(Metres::new(line.intercept * unit.in_metres())),
        made_from: trials,
        impossible: Vec::new(),
        unusual_share: (!USUAL_SHARE.contains(&share)).then_some(share),
    })
}

/// Standard error of the slope from the typical error of each time.
pub(super) fn slope_error(trials: &[Trial], slope: f64) -> f64 {
    let mean = trials.iter().map(|trial| trial.time.seconds()).sum::<f64>() / trials.len() as f64;
    let (mut sxx, mut variance) = (0.0, 0.0);
    for trial in trials {
        let off = trial.time.seconds() - mean;
        let error = trial.time.seconds() * trial.typical_error();
        sxx += off * off;
        variance += off * off * error * error;
    }
    slope * variance.sqrt() / sxx
}

fn pace_band(per_100: f64, low: f64, high: f64, unit: Unit) -> Option<PaceBand> {
    let pace = |seconds: f64| Speed::new(100.0 / seconds, unit).ok().map(Speed::pace);
    Some(PaceBand { pace: pace(per_100)?, low: pace(low)?, high: pace(high)? })
}
