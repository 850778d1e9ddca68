//! Why a race time is what it is.

use super::of_pace::{named, shown_seconds};
use super::{Explanation, Source, Sureness};
use crate::swim::prediction::{Prediction, PredictionBasis, Reach};

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
        PredictionBasis::Law(exponent) => (
            "time = test x (distance / tested)^k, k = 1.07 (0.02) for want of a second distance",
            of(format!("k = {exponent:.2}")),
        ),
        PredictionBasis::Curve(exponent) => (
            "your curve: the usual shape, moved by each result at its own distance, the weaker \
                the older and the further; a result far off tells little",
            of(format!("exponent {exponent:.2} there")),
        ),
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
