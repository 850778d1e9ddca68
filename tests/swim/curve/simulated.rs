//! Simulated swimmers whose curve is known: how near the figures come two to six
//! weeks later, and whether the bands hold what they say.
//!
//! Eight results each over half a year. Her level walks by 0.4 % a root week and
//! gains 0.2 % a week, her exponent lies 0.02 (standard deviation) off the shape,
//! her critical speed 1.5 % off 94 % of her 400's, a trial varies by 1.5 %. Each
//! has a shape of her own: the exponent of each stretch lies another 0.01 off the
//! crate's. In a second run all have the shape of the records instead, whose
//! exponent goes on falling where the crate's stops at 400.

use jiff::ToSpan;
use jiff::civil::Date;
use lapwing::swim::Trial;
use lapwing::swim::critical_speed::estimate;
use lapwing::swim::prediction::predict;
use lapwing::units::{Centis, Course, Distance, Stroke, Unit};
use rand::{Rng, RngExt, SeedableRng};
use rand_chacha::ChaCha12Rng;

use super::before::predicted;
use crate::support::{day, trial};

const SWIMMERS: usize = 2_000;
const AT: [u32; 5] = [100, 200, 400, 800, 1500];
const RACE_ERROR: f64 = 0.014;

/// A draw from the normal law, by Box and Muller.
fn normal(random: &mut impl Rng, sd: f64) -> f64 {
    let (u, v): (f64, f64) = (random.random_range(1e-12..1.0), random.random_range(0.0..1.0));
    sd * (-2.0 * u.ln()).sqrt() * (2.0 * std::f64::consts::PI * v).cos()
}

/// The exponents of each stretch.
type Exponents = [f64; 5];
/// The crate's.
const OURS: Exponents = [1.14, 1.125, 1.095, 1.07, 1.07];
/// About those of the long-course records.
const RECORDS: Exponents = [1.15, 1.125, 1.11, 1.06, 1.04];

/// `ln T(metres) - ln T(400)` by `exponents`.
fn curved(metres: f64, exponents: &Exponents) -> f64 {
    let upto = |metres: f64| {
        let (mut below, mut sum) = (1.0f64, 0.0);
        for (end, exponent) in [100.0, 200.0, 400.0, 800.0, 1e9].into_iter().zip(exponents) {
            sum += exponent * (metres.min(end).ln() - below.ln()).max(0.0);
            below = end;
        }
        sum
    };
    upto(metres) - upto(400.0)
}

/// A swimmer's results, the day of the question, and her true curve that day.
struct Swimmer {
    results: Vec<Trial>,
    today: Date,
    ln_400: f64,
    exponents: Exponents,
    share: f64,
}

impl Swimmer {
    fn drawn(random: &mut impl Rng, mean: &Exponents, own: f64) -> Swimmer {
        let start = day("2026-01-05");
        let mut days: Vec<i64> = (0..8).map(|_| random.random_range(0..182)).collect();
        days.sort_unstable();
        let off = normal(random, 0.02);
        let exponents = mean.map(|exponent| exponent + off + normal(random, own));
        let mut ln_400 = random.random_range(280f64..560.0).ln();
        let mut day_before = 0;
        let mut step = |random: &mut _, ln_400: &mut f64, day: i64| {
            let weeks = (day - day_before) as f64 / 7.0;
            *ln_400 += normal(random, 0.004 * weeks.sqrt()) - 0.002 * weeks;
            day_before = day;
        };
        let mut results = Vec::new();
        for day in &days {
            step(random, &mut ln_400, *day);
            let amount =
                [100, 100, 200, 200, 200, 400, 400, 400, 400, 800][random.random_range(0..10)];
            let ln = ln_400 + curved(f64::from(amount), &exponents);
            results.push(Trial {
                distance: Distance::new(amount, Unit::Metre).unwrap(),
                time: Centis::from_seconds((ln + normal(random, 0.015)).exp()).unwrap(),
                on: start + day.days(),
                ..trial("200", "3:12", "2026-01-05")
            });
        }
        let last = days[7] + random.random_range(14..=42);
        step(random, &mut ln_400, last);
        let share = 0.94 + normal(random, 0.015);
        Swimmer { results, today: start + last.days(), ln_400, exponents, share }
    }

    fn ln_time(&self, metres: f64) -> f64 {
        self.ln_400 + curved(metres, &self.exponents)
    }
}

/// Root mean square of errors, in percent.
fn rms(errors: &[f64]) -> f64 {
    100.0 * (errors.iter().map(|error| error * error).sum::<f64>() / errors.len() as f64).sqrt()
}

/// What came of one run.
struct Run {
    ours: Vec<f64>,
    before: Vec<f64>,
    races_held: f64,
    critical_held: f64,
}

fn run(seed: u64, mean: &Exponents, own: f64) -> Run {
    let mut random = ChaCha12Rng::seed_from_u64(seed);
    let (mut ours, mut before) = (Vec::new(), Vec::new());
    let (mut held, mut critical_held) = (0usize, 0usize);
    for _ in 0..SWIMMERS {
        let swimmer = Swimmer::drawn(&mut random, mean, own);
        let (free, pool) = (Stroke::Free, Course::Short25m);
        for metres in AT {
            let truth = swimmer.ln_time(f64::from(metres));
            let distance = Distance::new(metres, Unit::Metre).unwrap();
            let found = predict(&swimmer.results, swimmer.today, free, pool, distance).unwrap();
            ours.push(found.time.seconds().ln() - truth);
            before.push(predicted(&swimmer.results, swimmer.today, f64::from(metres)).ln() - truth);
            let race = (truth + normal(&mut random, RACE_ERROR)).exp();
            held += usize::from((found.low.seconds()..=found.high.seconds()).contains(&race));
        }
        let critical = estimate(&swimmer.results, swimmer.today, free, pool);
        let per_100 = swimmer.ln_time(400.0).exp() / 4.0 / swimmer.share;
        critical_held +=
            usize::from(critical.band.is_some_and(|band| {
                (band.low.per_100_s()..=band.high.per_100_s()).contains(&per_100)
            }));
    }
    let share = |count: usize, of: usize| 100.0 * count as f64 / of as f64;
    Run {
        races_held: share(held, ours.len()),
        critical_held: share(critical_held, SWIMMERS),
        ours,
        before,
    }
}

#[test]
fn nearer_than_before_and_bands_hold() {
    println!("error two to six weeks later, {SWIMMERS} swimmers, five distances (rms, percent)");
    for (name, mean, own) in
        [("shapes of their own", OURS, 0.01), ("the records' shape", RECORDS, 0.0)]
    {
        let Run { ours, before, races_held, critical_held } = run(600, &mean, own);
        println!("  {name}: before {:.2}, the curve {:.2}", rms(&before), rms(&ours));
        println!(
            "    80 % bands hold {races_held:.1} % of races, {critical_held:.1} % of critical speeds"
        );
        assert!(rms(&ours) < 0.88 * rms(&before), "{name}");
        if mean == OURS {
            assert!((77.0..=83.0).contains(&races_held), "{races_held}");
            assert!((77.0..=83.0).contains(&critical_held), "{critical_held}");
        }
    }
}
