//! Trains the models that choose one of several (`src/reading/likely/softmax.rs`).

use std::collections::{BTreeMap, HashMap};
use std::fmt::Write;

/// Passes over all examples.
const PASSES: usize = 16;
/// The first step.
const STEP: f64 = 0.5;
/// How strongly weights are held small.
const DECAY: f64 = 1e-4;
/// Features seen in fewer examples tell nothing.
const LEAST: usize = 2;
/// Weights smaller than this, in tenths, are left out of the tables.
const SMALL: i32 = 3;
/// As in `src/reading/likely/linear.rs`.
pub const PART: f64 = 0.1;

/// One example: what is looked at, and which choices are right.
pub struct Example {
    pub features: Vec<String>,
    pub right: Vec<usize>,
}

/// The features that come at least so often, in order.
pub fn known<'f>(features: impl Iterator<Item = &'f String>, least: usize) -> Vec<&'f str> {
    let mut seen: BTreeMap<&str, usize> = BTreeMap::new();
    for feature in features {
        *seen.entry(feature).or_default() += 1;
    }
    seen.into_iter().filter(|(_, count)| *count >= least).map(|(feature, _)| feature).collect()
}

/// The table of a model that chooses one of `choices`, by steps that shrink with what was
/// seen (Duchi, Hazan, Singer, 2011). Where several choices are right, the likeliest of them
/// is learnt.
pub fn table(about: &str, choices: &[String], examples: &[Example]) -> String {
    let known = known(examples.iter().flat_map(|one| &one.features), LEAST);
    let places: HashMap<&str, usize> =
        known.iter().enumerate().map(|(at, feature)| (*feature, at)).collect();
    let examples: Vec<(Vec<usize>, f64, &[usize])> = examples
        .iter()
        .map(|one| {
            let at = one.features.iter().filter_map(|one| places.get(one.as_str()).copied());
            (at.collect(), 1.0 / (one.features.len() as f64).sqrt(), one.right.as_slice())
        })
        .collect();
    let many = choices.len();
    let mut weights = vec![vec![0.0f64; many]; known.len()];
    let mut squares = vec![vec![1e-2f64; many]; known.len()];
    let mut bias = vec![0.0f64; many];
    for _ in 0..PASSES {
        for (features, share, right) in &examples {
            let mut sums = bias.clone();
            for at in features {
                for (sum, weight) in sums.iter_mut().zip(&weights[*at]) {
                    *sum += weight * share;
                }
            }
            let most = sums.iter().copied().fold(f64::NEG_INFINITY, f64::max);
            let odds: Vec<f64> = sums.iter().map(|sum| (sum - most).exp()).collect();
            let all: f64 = odds.iter().sum();
            let good: f64 = right.iter().map(|one| odds[*one]).sum();
            for choice in 0..many {
                let wanted = if right.contains(&choice) { odds[choice] / good } else { 0.0 };
                let error = odds[choice] / all - wanted;
                if error.abs() < 1e-4 {
                    continue;
                }
                bias[choice] -= 0.01 * error;
                for at in features {
                    let slope = error * share + DECAY * weights[*at][choice];
                    squares[*at][choice] += slope * slope;
                    weights[*at][choice] -= STEP * slope / squares[*at][choice].sqrt();
                }
            }
        }
    }
    let mut out = format!(
        "# {about}, in tenths, written by the trainer in\n\
         # tests/reading/train.rs from the labelled texts; not to be edited by hand.\n"
    );
    writeln!(out, "{}", choices.join(" ")).unwrap();
    let row = |row: &[f64], least: i32| -> String {
        let cells = row.iter().enumerate().filter_map(|(choice, weight)| {
            let weight = (weight / PART).round().clamp(-127.0, 127.0) as i32;
            (weight.abs() >= least).then(|| format!("{choice}:{weight}"))
        });
        cells.collect::<Vec<_>>().join(" ")
    };
    writeln!(out, "bias\t{}", row(&bias, 1)).unwrap();
    for (feature, weights) in known.iter().zip(&weights) {
        let row = row(weights, SMALL);
        if !row.is_empty() {
            writeln!(out, "{feature}\t{row}").unwrap();
        }
    }
    out
}
