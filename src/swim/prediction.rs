//! The time that a swimmer's tests promise over another distance.
//!
//! Knows the tests and the day; not the race, the taper or the goal.
//!
//! Model: `T = a * D^k` (Riegel 1981, American Scientist 69:285-290), so that
//! `ln T` is linear in `ln D`. The exponent has a normal prior, the level none,
//! hence a lone test is met exactly and many tests speak for themselves.

use jiff::civil::Date;

use super::Trial;
use crate::units::{Centis, Course, Distance, Stroke};

/// Mean of the prior on the exponent. Ours: world championship standards from
/// 200 m to 1500 m give 1.05 to 1.06, single swimmers between 200 m and 400 m
/// about 1.09.
pub const PRIOR_EXPONENT: f64 = 1.07;
/// Standard deviation of the prior on the exponent. Ours.
pub const PRIOR_SD: f64 = 0.02;
/// A prediction reaches this many times the distance of a test, or this part
/// of it; further is told. Ours.
pub const REACH: f64 = 4.0;
/// The distance from which swims obey one law, about 150 s for most.
const SPRINT_END: u32 = 200;
/// The variance of a test as a witness of today's form is twice its own after
/// this many days, and goes on growing by as much (form drifts as a random walk
/// does): eight weeks, the span in which tests belong together. Ours.
const DOUBLING_DAYS: f64 = 56.0;
/// Typical error of the predicted swim itself, a race at a meet: Stewart &
/// Hopkins 2000, Med Sci Sports Exerc 32:997-1001.
const RACE_ERROR: f64 = 0.014;

/// A predicted time.
#[derive(Debug, Clone, PartialEq)]
pub struct Prediction {
    /// The distance asked for.
    pub distance: Distance,
    /// The best guess.
    pub time: Centis,
    /// Fast edge of the interval.
    pub low: Centis,
    /// Slow edge: two swims in three should fall between the edges (one
    /// standard deviation either way, the day's form included).
    pub high: Centis,
    /// The exponent used, 1.0 or more.
    pub exponent: f64,
    /// The tests that made it, nearest distance first.
    pub made_from: Vec<Trial>,
    /// Whether the model may be trusted so far.
    pub reach: Reach,
}

/// How far a prediction reaches past the tests.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Reach {
    /// Within a factor of four of a test.
    Within,
    /// Further: the ratio of the distances, above 4. Say so.
    Beyond(f64),
}

/// The power law of one swimmer, fitted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PowerLaw {
    /// The exponent k: posterior mean, held at 1.0 or more.
    pub exponent: f64,
    /// Its standard deviation.
    pub exponent_sd: f64,
    /// Weighted mean of `ln D`, D in metres.
    mean_ln_distance: f64,
    /// Weighted mean of `ln T`, T in seconds.
    mean_ln_time: f64,
    /// Variance of `ln T` at that mean.
    mean_variance: f64,
}

/// Predicts `distance` from the tests in `stroke` and `course` up to `today`.
///
/// Tests within a factor of four of the distance speak, and between distances
/// of 200 or more all tests do; a sprint says little of a long swim (the law
/// bends near 150 s: Savaglio & Carbone 2000, Nature 404:244). If there is no
/// such test, the nearest distance speaks. Where no test lies within the
/// factor, [`Reach::Beyond`] says so. At a tested
/// distance the answer stays within the typical error of the newest test there.
/// `None` without a test, or for a distance in another unit than the course's.
pub fn predict(
    trials: &[Trial],
    today: Date,
    stroke: Stroke,
    course: Course,
    distance: Distance,
) -> Option<Prediction> {
    if distance.unit() != course.unit() {
        return None;
    }
    let mut known: Vec<Trial> = trials
        .iter()
        .filter(|trial| trial.stroke == stroke && trial.course == course && trial.on <= today)
        .filter(|trial| trial.distance.unit() == distance.unit())
        .copied()
        .collect();
    let factor = |trial: &Trial| {
        let ratio = f64::from(trial.distance.amount()) / f64::from(distance.amount());
        ratio.max(1.0 / ratio)
    };
    known.sort_by(|a, b| factor(a).total_cmp(&factor(b)).then(b.on.cmp(&a.on)));
    let nearest = factor(known.first()?);
    let both_long = |trial: &Trial| trial.distance.amount().min(distance.amount()) >= SPRINT_END;
    known.retain(|trial| factor(trial) <= nearest.max(REACH) || both_long(trial));
    let law = PowerLaw::fit(&known, today)?;

    let (ln_time, variance) = law.at(distance);
    let sd = (variance + RACE_ERROR * RACE_ERROR).sqrt();
    let mut seconds = libm::exp(ln_time);
    // The newest test over the distance itself comes first by the sort above.
    if let Some(test) = known.first().filter(|test| test.distance == distance) {
        let error = test.typical_error();
        let time = test.time.seconds();
        seconds = seconds.clamp(time * (1.0 - error), time * (1.0 + error));
    }
    Some(Prediction {
        distance,
        time: Centis::from_seconds(seconds).ok()?,
        low: Centis::from_seconds(seconds * libm::exp(-sd)).ok()?,
        high: Centis::from_seconds(seconds * libm::exp(sd)).ok()?,
        exponent: law.exponent,
        made_from: known,
        reach: if nearest <= REACH { Reach::Within } else { Reach::Beyond(nearest) },
    })
}

impl PowerLaw {
    /// Weighted least squares of `ln T` on `ln D` with the prior on the slope
    /// (the posterior mean of a conjugate normal model). A test's variance is
    /// its typical error squared, once more for every eight weeks of age. Where
    /// the tests disagree more than that, all errors are widened by the root
    /// of chi-square over its degrees of freedom (Birge 1932, Phys Rev
    /// 40:207-227; from memory). `None` without tests.
    pub fn fit(trials: &[Trial], today: Date) -> Option<PowerLaw> {
        let points: Vec<(f64, f64, f64)> = trials
            .iter()
            .map(|trial| {
                let age = trial.days_before(today).max(0) as f64;
                let error = trial.typical_error();
                let weight = 1.0 / (error * error * (1.0 + age / DOUBLING_DAYS));
                let ln_distance = libm::log(trial.distance.metres().get());
                (ln_distance, libm::log(trial.time.seconds()), weight)
            })
            .collect();
        let weights: f64 = points.iter().map(|(_, _, w)| w).sum();
        if trials.is_empty() {
            return None;
        }
        let mean_x = points.iter().map(|(x, _, w)| w * x).sum::<f64>() / weights;
        let mean_y = points.iter().map(|(_, y, w)| w * y).sum::<f64>() / weights;
        let sxx: f64 = points.iter().map(|(x, _, w)| w * (x - mean_x) * (x - mean_x)).sum();
        let sxy: f64 = points.iter().map(|(x, y, w)| w * (x - mean_x) * (y - mean_y)).sum();
        let prior = 1.0 / (PRIOR_SD * PRIOR_SD);
        let slope = (sxy + PRIOR_EXPONENT * prior) / (sxx + prior);
        let exponent = slope.max(1.0);

        let off_prior = slope - PRIOR_EXPONENT;
        let chi_square = prior * off_prior * off_prior
            + points
                .iter()
                .map(|(x, y, w)| {
                    let residual = (y - mean_y) - slope * (x - mean_x);
                    w * residual * residual
                })
                .sum::<f64>();
        // n tests and the prior against two unknowns.
        let freedom = points.len() as f64 - 1.0;
        let birge = if freedom > 0.0 { (chi_square / freedom).max(1.0) } else { 1.0 };
        Some(PowerLaw {
            exponent,
            exponent_sd: (birge / (sxx + prior)).sqrt(),
            mean_ln_distance: mean_x,
            mean_ln_time: mean_y,
            mean_variance: birge / weights,
        })
    }

    /// `ln T` (seconds) at `distance`, and its variance.
    pub fn at(&self, distance: Distance) -> (f64, f64) {
        let off = libm::log(distance.metres().get()) - self.mean_ln_distance;
        let variance = self.mean_variance + off * off * self.exponent_sd * self.exponent_sd;
        (self.mean_ln_time + self.exponent * off, variance)
    }
}
