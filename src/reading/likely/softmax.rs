//! A linear model that chooses one of several: a row of weights a feature, one weight a choice.

use super::linear::Linear;

/// The weights of one model.
///
/// In its table the first line names the choices, parted by spaces; each other line is a
/// feature, a tab, and `choice:weight` for the choices of which it tells something, a choice
/// by its number and a weight in tenths. `bias` stands in every text.
#[derive(Debug, Default)]
pub struct Softmax {
    /// The choices, by their numbers.
    pub choices: Vec<&'static str>,
    weights: Linear,
}

impl Softmax {
    /// Reads a table.
    pub fn load(table: &'static str) -> Self {
        let mut lines = table.lines().filter(|line| !line.starts_with('#'));
        let choices: Vec<&str> =
            lines.next().map(|line| line.split(' ').collect()).unwrap_or_default();
        let weights = Linear::load(lines, choices.len(), |choice| choice.parse().ok());
        Softmax { choices, weights }
    }

    /// How likely each choice is, 0 to 1, all of them together 1.
    pub fn odds(&self, features: &[String]) -> Vec<f32> {
        let mut sums = self.weights.sums(features);
        sums.iter_mut().zip(&self.weights.bias).for_each(|(sum, bias)| *sum += bias);
        let most = sums.iter().copied().fold(f32::NEG_INFINITY, f32::max);
        let odds: Vec<f32> = sums.iter().map(|sum| (sum - most).exp()).collect();
        let all: f32 = odds.iter().sum();
        odds.into_iter().map(|one| one / all).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::Softmax;

    const TABLE: &str = "# of a test\nwarm cold\nbias\t0:2\nsun\t0:30 1:-30\nsnow\t1:40\n";

    #[test]
    fn what_is_known_decides_and_the_rest_is_left_to_the_bias() {
        let model = Softmax::load(TABLE);
        let odds = |features: &[&str]| {
            model.odds(&features.iter().map(|one| (*one).to_owned()).collect::<Vec<_>>())
        };
        let [sun, snow, neither] = [odds(&["sun"]), odds(&["snow"]), odds(&["rain"])];
        assert!(sun[0] > 0.99 && snow[1] > 0.95 && neither[0] > neither[1], "{sun:?} {snow:?}");
        for odds in [sun, snow, neither] {
            assert!((odds.iter().sum::<f32>() - 1.0).abs() < 1e-5);
        }
    }

    #[test]
    fn a_broken_table_says_nothing() {
        for table in ["", "# nothing", "warm cold\nsun\t7:3 x:1 0\nbias\t9:9"] {
            let odds = Softmax::load(table).odds(&["sun".to_owned()]);
            assert!(odds.iter().all(|one| one.is_finite()), "{table}: {odds:?}");
        }
    }
}
