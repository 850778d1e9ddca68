//! Weights of words for several choices: a row a feature, a weight for each choice of which it
//! tells something.

use crate::reading::lexicon::Fixed;

/// A weight stands in the tables as so many of this part.
pub const PART: f32 = 0.1;

/// The weights of one model.
#[derive(Debug, Default)]
pub struct Linear {
    /// What each choice has in every text.
    pub bias: Vec<f32>,
    of: Fixed<&'static str, Vec<(u16, i8)>>,
}

impl Linear {
    /// Reads the lines of a table, `feature choice:weight choice:weight`, of so many choices;
    /// `at` is the number of a choice as it stands there. `bias` is no feature.
    pub fn load(
        lines: impl Iterator<Item = &'static str>,
        choices: usize,
        at: impl Fn(&str) -> Option<u16>,
    ) -> Self {
        let mut weights = Linear { bias: vec![0.0; choices], of: Fixed::default() };
        for (feature, cells) in lines.filter_map(|line| line.split_once('\t')) {
            let cells = cells.split(' ').filter_map(|cell| {
                let (choice, weight) = cell.rsplit_once(':')?;
                Some((at(choice)?, weight.parse().ok()?))
            });
            if feature == "bias" {
                for (choice, weight) in cells {
                    if let Some(bias) = weights.bias.get_mut(usize::from(choice)) {
                        *bias = f32::from(weight) * PART;
                    }
                }
            } else {
                weights.of.insert(feature, cells.collect());
            }
        }
        weights
    }

    /// True where no table was read.
    pub fn is_empty(&self) -> bool {
        self.of.is_empty()
    }

    /// What a text's features come to for each choice, without the bias.
    pub fn sums(&self, features: &[String]) -> Vec<f32> {
        let share = 1.0 / (features.len() as f32).sqrt();
        let mut sums = vec![0.0f32; self.bias.len()];
        for feature in features {
            for (choice, weight) in self.of.get(feature.as_str()).into_iter().flatten() {
                if let Some(sum) = sums.get_mut(usize::from(*choice)) {
                    *sum += f32::from(*weight) * PART * share;
                }
            }
        }
        sums
    }
}
