//! The prediction that the curve took the place of, to be compared with: a power
//! law by weighted least squares, a prior of 1.07 (0.02) on its exponent, a
//! test's variance doubled every eight weeks.

use jiff::civil::Date;
use lapwing::swim::Trial;

/// Seconds over `metres`, all tests in metres.
pub fn predicted(trials: &[Trial], today: Date, metres: f64) -> f64 {
    let amount = |trial: &Trial| f64::from(trial.distance.amount());
    let factor = |trial: &Trial| (amount(trial) / metres).max(metres / amount(trial));
    let nearest = trials.iter().map(factor).fold(f64::INFINITY, f64::min);
    let speaks =
        |trial: &&Trial| factor(trial) <= nearest.max(4.0) || amount(trial).min(metres) >= 200.0;
    let points: Vec<(f64, f64, f64)> = trials
        .iter()
        .filter(speaks)
        .map(|trial| {
            let age = trial.days_before(today) as f64;
            let error = trial.typical_error();
            let weight = 1.0 / (error * error * (1.0 + age / 56.0));
            (amount(trial).ln(), trial.time.seconds().ln(), weight)
        })
        .collect();
    let weights: f64 = points.iter().map(|(_, _, w)| w).sum();
    let mean_x = points.iter().map(|(x, _, w)| w * x).sum::<f64>() / weights;
    let mean_y = points.iter().map(|(_, y, w)| w * y).sum::<f64>() / weights;
    let sxx: f64 = points.iter().map(|(x, _, w)| w * (x - mean_x).powi(2)).sum();
    let sxy: f64 = points.iter().map(|(x, y, w)| w * (x - mean_x) * (y - mean_y)).sum();
    let prior = 1.0 / (0.02 * 0.02);
    let exponent = ((sxy + 1.07 * prior) / (sxx + prior)).max(1.0);
    let seconds = (mean_y + exponent * (metres.ln() - mean_x)).exp();
    let there = trials.iter().filter(|trial| amount(trial) == metres).max_by_key(|t| t.on);
    there.map_or(seconds, |test| {
        let (time, error) = (test.time.seconds(), test.typical_error());
        seconds.clamp(time * (1.0 - error), time * (1.0 + error))
    })
}
