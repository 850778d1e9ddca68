//! Which test to swim next: the one that sharpens critical speed most for the
//! minutes of hard swimming that it costs.
//!
//! Knows the tests; not the calendar, which decides when.

use jiff::civil::Date;

use super::Trial;
use super::critical_speed::{EXPONENT, SHORTEST, WINDOW_DAYS};
use crate::units::{Course, Distance, Stroke, Unit};

/// Standard deviation of one swimmer's exponent: a quarter of the band 1.05 to
/// 1.15, which is two standard deviations either way. Ours.
const EXPONENT_SD: f64 = 0.025;
/// Typical error of a training trial: Scott, Burden & Dekerle 2023.
const TRIAL_ERROR: f64 = 0.02;
/// The model of critical speed holds for about 2 to 15 min (Scott, Burden &
/// Dekerle 2023), so no longer test is asked for.
const LONGEST_S: f64 = 900.0;

/// The test worth swimming next, and what it does.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NextTest {
    /// The distance to swim.
    pub distance: Distance,
    /// How unsure critical speed is now, in percent (one standard deviation);
    /// `None` where nothing is known of it.
    pub unsure_percent_now: Option<f64>,
    /// How unsure it would be after that test.
    pub unsure_percent_then: f64,
}

/// Chooses among 200, 400 and 800 (500 in yards for the 400, 1000 for the 800).
///
/// With the 400's level and the swimmer's exponent as unknowns, every test of
/// 200 or more within 56 days of `today` narrows both, and critical speed with
/// them; a further test over a distance narrows it by a known amount. The
/// choice is the most narrowing for each minute of the test, among distances
/// not near one just tested: only a second distance shows the swimmer's own
/// exponent. Without any such test it is the 400, or the 200 for whom a sprint
/// promises a 400 over 15 min. `None` when there is nothing to add.
pub fn next_test(
    trials: &[Trial],
    today: Date,
    stroke: Stroke,
    course: Course,
) -> Option<NextTest> {
    let own = |trial: &&Trial| {
        trial.stroke == stroke
            && trial.course == course
            && trial.distance.unit() == course.unit()
            && trial.on <= today
    };
    let candidates: [u32; 3] = match course.unit() {
        Unit::Metre => [200, 400, 800],
        Unit::Yard => [200, 500, 1000],
    };
    let newest = trials.iter().filter(own).max_by_key(|trial| (trial.on, trial.distance.amount()));
    let expected = |amount: u32| -> Option<f64> {
        let newest = newest?;
        let ratio = f64::from(amount) / f64::from(newest.distance.amount());
        Some(newest.time.seconds() * libm::pow(ratio, EXPONENT))
    };
    let fresh: Vec<Trial> = trials
        .iter()
        .filter(own)
        .filter(|trial| {
            trial.distance.amount() >= SHORTEST && trial.days_before(today) <= WINDOW_DAYS
        })
        .copied()
        .collect();
    let mut known = Knowledge::prior();
    // Mostly one distance is tested again and again: its logarithm is taken once.
    let mut x = (0, 0.0);
    for trial in &fresh {
        let amount = trial.distance.amount();
        if x.0 != amount {
            x = (amount, off_400(amount));
        }
        known = known.with_at(x.1, trial.typical_error());
    }
    let choice = |amount: u32| -> Option<NextTest> {
        Some(NextTest {
            distance: Distance::new(amount, course.unit()).ok()?,
            unsure_percent_now: known.unsure().map(|sd| sd * 100.0),
            unsure_percent_then: known.with(amount, TRIAL_ERROR).unsure()? * 100.0,
        })
    };
    let Some(now) = known.unsure() else {
        let [short, middle, _] = candidates;
        let too_long = expected(middle).is_some_and(|seconds| seconds > LONGEST_S);
        return choice(if too_long { short } else { middle });
    };
    candidates
        .into_iter()
        .filter_map(|amount| Some((amount, expected(amount)?)))
        .filter(|(amount, seconds)| *amount == candidates[0] || *seconds <= LONGEST_S)
        .filter(|(amount, _)| !fresh.iter().any(|trial| is_near(trial.distance.amount(), *amount)))
        .filter_map(|(amount, seconds)| {
            let then = known.with(amount, TRIAL_ERROR).unsure()?;
            Some((amount, (now - then) / seconds))
        })
        .max_by(|a, b| a.1.total_cmp(&b.1))
        .and_then(|(amount, _)| choice(amount))
}

/// Within a factor of 1.3: a 400 and a 500 tell the same.
fn is_near(one: u32, other: u32) -> bool {
    one.max(other) * 10 <= one.min(other).saturating_mul(13)
}

/// How far a distance lies from 400, as a logarithm.
fn off_400(amount: u32) -> f64 {
    libm::log(f64::from(amount) / 400.0)
}

/// What is known of `ln T400` and of the exponent: the information matrix of a
/// linear normal model, prior on the exponent included.
#[derive(Debug, Clone, Copy)]
struct Knowledge {
    level: f64,
    cross: f64,
    exponent: f64,
}

impl Knowledge {
    fn prior() -> Self {
        Self { level: 0.0, cross: 0.0, exponent: 1.0 / (EXPONENT_SD * EXPONENT_SD) }
    }

    /// After a test over `amount`, which shows `ln T400 + k * ln(amount/400)`.
    fn with(self, amount: u32, error: f64) -> Self {
        self.with_at(off_400(amount), error)
    }

    /// The same of a distance that lies so far [off 400](off_400).
    fn with_at(self, x: f64, error: f64) -> Self {
        let weight = 1.0 / (error * error);
        Self {
            level: self.level + weight,
            cross: self.cross + weight * x,
            exponent: self.exponent + weight * x * x,
        }
    }

    /// Standard deviation of the logarithm of critical speed's pace, which is
    /// `ln T400 + ln(1 - 2^-k)` and a constant; `None` while the level is open.
    fn unsure(self) -> Option<f64> {
        let determinant = self.level * self.exponent - self.cross * self.cross;
        if self.level <= 0.0 || determinant <= 0.0 {
            return None;
        }
        let half = libm::exp2(-EXPONENT);
        let by_exponent = std::f64::consts::LN_2 * half / (1.0 - half);
        let variance = (self.exponent - 2.0 * by_exponent * self.cross
            + by_exponent * by_exponent * self.level)
            / determinant;
        Some(variance.sqrt())
    }
}
