//! Critical speed: the fastest that settles, from one test or from the curve.
//!
//! Knows the tests of one swimmer and the day; not what is done with the pace.
//!
//! Critical speed is taken to be the published share, 94 %, of the speed that
//! their curve gives over 400. It moves with all their results, and a faster one
//! never makes it slower: the difference of two tests, the usual way, is slower
//! after a better 200. What that way says stands beside it, see [`linear`].

use jiff::civil::Date;
use serde::Serialize;
use strum::{IntoStaticStr, VariantNames};

use super::Trial;
use super::curve::Curve;
use super::linear::{Linear, linear};
use crate::units::{Course, Pace, Speed, Stroke, Unit};

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
/// How far single swimmers lie from that share, as a fraction of speed: the
/// published standard deviation of 1.5 % against 94 %.
const SHARE_SD: f64 = 0.015 / 0.94;
/// How far single swimmers' exponents lie from [`EXPONENT`]: a quarter of the
/// band from [`EXPONENT_FAST`] to [`EXPONENT_SLOW`].
const EXPONENT_SD: f64 = 0.025;
/// Four swims in five lie within so many standard deviations of the normal law.
pub const FOUR_IN_FIVE: f64 = 1.281_551_565_544_600_4;

/// What an estimate rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[derive(IntoStaticStr, VariantNames)]
#[serde(rename_all = "snake_case")]
pub enum Basis {
    /// No test of 200 or more.
    None,
    /// One test and the population's exponent.
    OneTest,
    /// Two or more results: the swimmer's curve.
    Curve,
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
    /// The pace; absent exactly when the basis is [`Basis::None`]. The band holds
    /// four in five with [`Basis::Curve`]; with [`Basis::OneTest`] it is that of
    /// the exponents.
    pub band: Option<PaceBand>,
    /// The results that made it, oldest first, as if swum in its pool.
    pub made_from: Vec<Trial>,
    /// What the plain line through tests of two distances says, where there are
    /// such: it explains, nothing is computed from it.
    pub linear: Option<Linear>,
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
        Self { basis: Basis::None, band: None, made_from: Vec::new(), linear: None }
    }
}

/// Critical speed in `stroke` and `course` as known on `today`. Tests after
/// `today` don't exist yet; their times are taken to be from a push.
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
/// assert_eq!((two.basis, two.pace().unwrap().to_string()), (Basis::Curve, "1:47.9".into()));
/// assert_eq!(two.linear.unwrap().pace.to_string(), "1:46.0");
/// ```
pub fn estimate(trials: &[Trial], today: Date, stroke: Stroke, course: Course) -> Estimate {
    let Some(curve) = Curve::of(trials, today, stroke, course) else { return Estimate::none() };
    Estimate { linear: linear(trials, today, stroke, course), ..by_curve(&curve) }
}

/// Critical speed by a swimmer's curve, in its pool.
pub fn by_curve(curve: &Curve) -> Estimate {
    let results = curve.results();
    // A lone sprint says nothing of what settles.
    if !results.iter().any(|trial| trial.distance.amount() >= SHORTEST) {
        return Estimate::none();
    }
    let (basis, band) = match results {
        [one] => (Basis::OneTest, by_one(one, curve)),
        _ => (Basis::Curve, by_several(curve)),
    };
    match band {
        Some(band) => {
            Estimate { basis, band: Some(band), made_from: results.to_vec(), linear: None }
        }
        None => Estimate::none(),
    }
}

/// `200/(T400 - T200)` with both times by the power law from one test. The band
/// is that of the exponents, and never narrower than the test's own typical
/// error: near 750 the exponent cancels out, the day's form does not.
fn by_one(trial: &Trial, curve: &Curve) -> Option<PaceBand> {
    let amount = f64::from(trial.distance.amount());
    let seconds = curve.at(trial.distance).seconds;
    let with_exponent = |exponent: f64| {
        let time_at = |distance: f64| seconds * libm::pow(distance / amount, exponent);
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
    pace_band(per_100, low, high, trial.distance.unit())
}

/// 94 % of the speed over 400 by the curve; by the exponent between 200 and 400
/// from a lone distance, so that a second test over it moves nothing else. The
/// band holds four swimmers in five: their form, and how far shares vary.
fn by_several(curve: &Curve) -> Option<PaceBand> {
    let first = curve.results().first()?;
    let unit = first.distance.unit();
    let (seconds, sd) = match curve.lone() {
        Some(lone) => {
            let tested = curve.at(lone);
            let ratio = 400.0 / f64::from(lone.amount());
            let by_exponent = EXPONENT_SD * libm::log(ratio);
            let sd = (tested.sd * tested.sd + by_exponent * by_exponent).sqrt();
            (tested.seconds * libm::pow(ratio, EXPONENT), sd)
        }
        None => {
            let reading = curve.by_shape(400.0);
            (reading.seconds, reading.sd)
        }
    };
    // (T400 - T200)/2 with that exponent.
    let per_100 = seconds * (1.0 - libm::exp2(-EXPONENT)) / 2.0;
    let wide = libm::exp(FOUR_IN_FIVE * (sd * sd + SHARE_SD * SHARE_SD).sqrt());
    pace_band(per_100, per_100 / wide, per_100 * wide, unit)
}

fn pace_band(per_100: f64, low: f64, high: f64, unit: Unit) -> Option<PaceBand> {
    let pace = |seconds: f64| Speed::new(100.0 / seconds, unit).ok().map(Speed::pace);
    Some(PaceBand { pace: pace(per_100)?, low: pace(low)?, high: pace(high)? })
}
