//! The time that a swimmer's curve promises over another distance.
//!
//! Knows the tests and the day; not the race, the taper or the goal.

use jiff::civil::Date;
use strum::{IntoStaticStr, VariantNames};

use super::Trial;
use super::critical_speed::FOUR_IN_FIVE;
use super::curve::{Curve, LAW_EXPONENT, from_start};
use crate::units::{Centis, Course, Distance, Start, Stroke};

/// A prediction reaches this many times the distance of a test, or this part
/// of it; further is told. Ours.
pub const REACH: f64 = 4.0;
/// Typical error of the predicted swim itself, a race at a meet: Stewart &
/// Hopkins 2000, Med Sci Sports Exerc 32:997-1001.
const RACE_ERROR: f64 = 0.014;
/// Half the width, as a ratio, over which the exponent at a distance is taken.
const EXPONENT_SPAN: f64 = 1.1;

/// A predicted time.
#[derive(Debug, Clone, PartialEq)]
pub struct Prediction {
    /// The distance asked for.
    pub distance: Distance,
    /// The best guess.
    pub time: Centis,
    /// Fast edge of the interval.
    pub low: Centis,
    /// Slow edge: four swims in five should fall between the edges, the day's
    /// form included; from one test two in three, one standard deviation.
    pub high: Centis,
    /// What it rests on.
    pub basis: PredictionBasis,
    /// The results that made it, nearest distance first.
    pub made_from: Vec<Trial>,
    /// Whether the model may be trusted so far.
    pub reach: Reach,
}

/// What a prediction rests on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PredictionBasis {
    /// One tested distance and the power law `T2 = T1 * (D2/D1)^k` (Riegel 1981,
    /// American Scientist 69:285-290) with the population's exponent k.
    Law(f64),
    /// The swimmer's curve, with its exponent at that distance.
    Curve(f64),
}

impl PredictionBasis {
    /// The exponent.
    pub const fn exponent(self) -> f64 {
        match self {
            PredictionBasis::Law(exponent) | PredictionBasis::Curve(exponent) => exponent,
        }
    }
}

/// How far a prediction reaches past the tests.
#[derive(Debug, Clone, Copy, PartialEq)]
#[derive(IntoStaticStr, VariantNames)]
pub enum Reach {
    /// Within a factor of four of a test.
    Within,
    /// Further: the ratio of the distances, above 4. Say so.
    Beyond(f64),
}

impl Prediction {
    /// The same swim begun as `start` says; as predicted it begins with a push.
    pub fn begun(self, start: Start) -> Prediction {
        let begun = |time: Centis| from_start(self.distance, time, start);
        let [time, low, high] = [self.time, self.low, self.high].map(begun);
        Prediction { time, low, high, ..self }
    }
}

/// Predicts `distance`, swum from a push in `course`, from the results in
/// `stroke` up to `today`, whose times are taken to be from a push too.
///
/// At a tested distance it stays within the typical error of the newest test
/// there. `None` without a test, or for a distance in another unit than the
/// course's.
pub fn predict(
    trials: &[Trial],
    today: Date,
    stroke: Stroke,
    course: Course,
    distance: Distance,
) -> Option<Prediction> {
    by_curve(&Curve::of(trials, today, stroke, course)?, distance)
}

/// [`predict`] by a curve that is known.
pub fn by_curve(curve: &Curve, distance: Distance) -> Option<Prediction> {
    let mut made_from = curve.results().to_vec();
    if distance.unit() != made_from.first()?.distance.unit() {
        return None;
    }
    let factor = |trial: &Trial| {
        let ratio = f64::from(trial.distance.amount()) / f64::from(distance.amount());
        ratio.max(1.0 / ratio)
    };
    made_from.sort_by(|a, b| factor(a).total_cmp(&factor(b)).then(b.on.cmp(&a.on)));
    let nearest = factor(made_from.first()?);
    let reading = curve.at(distance);
    let widths = if made_from.len() == 1 { 1.0 } else { FOUR_IN_FIVE };
    let wide = libm::exp(widths * (reading.sd * reading.sd + RACE_ERROR * RACE_ERROR).sqrt());
    Some(Prediction {
        distance,
        time: Centis::from_seconds(reading.seconds).ok()?,
        low: Centis::from_seconds(reading.seconds / wide).ok()?,
        high: Centis::from_seconds(reading.seconds * wide).ok()?,
        basis: match curve.lone() {
            Some(_) => PredictionBasis::Law(LAW_EXPONENT),
            None => PredictionBasis::Curve(exponent_at(curve, distance)),
        },
        made_from,
        reach: if nearest <= REACH { Reach::Within } else { Reach::Beyond(nearest) },
    })
}

fn exponent_at(curve: &Curve, distance: Distance) -> f64 {
    let amount = f64::from(distance.amount());
    let ln = |amount: f64| libm::log(curve.by_shape(amount).seconds);
    (ln(amount * EXPONENT_SPAN) - ln(amount / EXPONENT_SPAN)) / (2.0 * libm::log(EXPONENT_SPAN))
}
