//! Why a race time, its points or a stroke length is what it is.

use super::of_pace::{named, shown_seconds};
use super::{Explanation, Source, Sureness};
use crate::swim::conversion::{Converted, Method};
use crate::swim::points::BaseTimes;
use crate::swim::prediction::{Prediction, PredictionBasis, Reach};
use crate::swim::stroke_efficiency::StrokeEfficiency;
use crate::units::{Centis, Course, Distance};

/// The formula of a time predicted from one distance.
pub const PREDICTED_BY_LAW: &str =
    "time = test x (distance / tested)^k, k = 1.07 (0.02) for want of a second distance";

/// The formula of a time predicted from several.
pub const PREDICTED_BY_CURVE: &str = "your curve: the usual shape, moved by each result at its \
    own distance, the weaker the older and the further; a result far off tells little";

/// A predicted time.
pub fn prediction(prediction: &Prediction) -> Explanation {
    let tests: Vec<String> = prediction.made_from.iter().map(named).collect();
    let reach = match prediction.reach {
        Reach::Within => String::new(),
        Reach::Beyond(factor) => {
            format!("; {factor:.1} times the distance of any test, too far to trust")
        }
    };
    let predicted = shown_seconds(prediction.time.seconds());
    let of = |law: String| {
        format!("{}: {law}, {} in {predicted}{reach}", tests.join(", "), prediction.distance)
    };
    let (formula, with) = match prediction.basis {
        PredictionBasis::Law(exponent) => (PREDICTED_BY_LAW, of(format!("k = {exponent:.2}"))),
        PredictionBasis::Curve(exponent) => {
            (PREDICTED_BY_CURVE, of(format!("exponent {exponent:.2} there")))
        }
    };
    Explanation {
        number: "predicted time",
        formula,
        with,
        source: Source::Published(
            "the power law: Riegel 1981, American Scientist 69:285-290; shape and weights: ours",
        ),
        sureness: Sureness::Band {
            low: prediction.low.to_tenth().short(),
            high: prediction.high.to_tenth().short(),
            meaning: if prediction.made_from.len() == 1 {
                "two swims in three"
            } else {
                "four swims in five"
            },
        },
    }
}

/// A time converted to another pool.
pub fn conversion(
    distance: Distance,
    time: Centis,
    from: Course,
    to: Course,
    converted: &Converted,
) -> Explanation {
    let (formula, source) = match converted.method {
        Method::TurnRule => (
            "25 m = 25 yd x 1.11; 50 m = 25 m + turns, for each 50: fly 0.7 s, back 0.6, breast \
                1.0, free and medley 0.8",
            Source::Published("a club handbook, an approximation by its own words"),
        ),
        Method::CollegeFactors(_) => (
            "25 yd = 50 m x the event's factor",
            Source::Published(
                "US college sport, Division I, conversion factors of 2023-24, in a news reprint",
            ),
        ),
    };
    Explanation {
        number: "converted time",
        formula,
        with: format!(
            "{distance} in {} ({from}) by the {}: {} in {} ({to})",
            time.short(),
            converted.method.name(),
            converted.distance,
            converted.time.short()
        ),
        source,
        sureness: Sureness::RuleOfThumb,
    }
}

/// Points for a race.
pub fn points(table: &BaseTimes, base: Centis, time: Centis, points: u32) -> Explanation {
    Explanation {
        number: "points",
        formula: "1000 x (base / time)^3, cut to a whole number (World Aquatics)",
        with: format!("1000 x ({} / {})^3 = {points}", base.short(), time.short()),
        source: Source::Table(format!("base times {}: {}", table.year, table.source)),
        sureness: Sureness::Exact,
    }
}

/// Stroke length and rate.
pub fn stroke_efficiency(
    distance: Distance,
    time: Centis,
    strokes: u32,
    found: &StrokeEfficiency,
) -> Explanation {
    Explanation {
        number: "stroke length and rate",
        formula: "length = distance / strokes; rate = 60 x strokes / time; sum = seconds + strokes",
        with: format!(
            "{distance} in {} with {strokes} strokes: {:.2} {} a stroke, {:.1} a minute, sum {}",
            time.short(),
            found.distance_per_stroke,
            distance.unit(),
            found.strokes_per_minute,
            found.time_plus_strokes
        ),
        source: Source::Arithmetic,
        sureness: Sureness::Exact,
    }
}
