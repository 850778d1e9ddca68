//! The curve on published tables: every distance of each from all sets of two or
//! more others, as if they were one swimmer's.
//!
//! Tables: the crate's base times, long-course world records at the end of 2024
//! (from memory but for two, see the file), and World Aquatics 2025 championship
//! A-standards, long course freestyle, as reprinted in the press.

use lapwing::swim::points::{BaseTimes, Event};
use lapwing::swim::prediction::predict;
use lapwing::swim::{Category, Trial};
use lapwing::units::{Course, Stroke};

use super::before::predicted;
use crate::support::{day, metres, near, time, trial};

fn tables() -> Vec<Vec<Trial>> {
    let shipped = BaseTimes::shipped();
    let mut tables: Vec<Vec<Trial>> = Vec::new();
    for category in [Category::Women, Category::Men] {
        for stroke in [Stroke::Free, Stroke::Back, Stroke::Breast, Stroke::Fly] {
            let amounts = [50, 100, 200, 400, 800, 1500];
            let swims = amounts.into_iter().filter_map(|amount| {
                let event = Event { category, course: Course::Long50m, stroke, amount };
                let time = shipped.base(event)?;
                Some(Trial { time, meet: true, ..trial(&amount.to_string(), "1:00", "2026-03-02") })
            });
            tables.push(swims.collect());
        }
    }
    for times in [
        ["48.34", "1:46.70", "3:48.15", "7:48.66", "15:01.89"],
        ["54.25", "1:58.66", "4:10.57", "8:37.90", "16:29.57"],
    ] {
        let swims = ["100", "200", "400", "800", "1500"].into_iter().zip(times);
        let swum =
            swims.map(|(amount, text)| Trial { meet: true, ..trial(amount, text, "2026-03-02") });
        tables.push(swum.collect());
    }
    tables
}

#[test]
fn nearer_than_before_on_published_tables() {
    let today = day("2026-03-02");
    let (mut ours, mut before) = (Vec::new(), Vec::new());
    for table in tables() {
        for (left_out, target) in table.iter().enumerate() {
            let others: Vec<Trial> =
                (0..table.len()).filter(|at| *at != left_out).map(|at| table[at]).collect();
            for chosen in 0u32..1 << others.len() {
                let some: Vec<Trial> = (0..others.len())
                    .filter(|at| chosen & (1 << at) != 0)
                    .map(|at| others[at])
                    .collect();
                if some.len() < 2 {
                    continue;
                }
                let found =
                    predict(&some, today, Stroke::Free, Course::Short25m, target.distance).unwrap();
                let amount = f64::from(target.distance.amount());
                let truth = target.time.seconds();
                ours.push((found.time.seconds() / truth).ln());
                before.push((predicted(&some, today, amount) / truth).ln());
            }
        }
    }
    let rms = |errors: &[f64]| {
        100.0 * (errors.iter().map(|e| e * e).sum::<f64>() / errors.len() as f64).sqrt()
    };
    println!("{} predictions on published tables (rms, percent)", ours.len());
    println!("  before {:.2}   the curve {:.2}", rms(&before), rms(&ours));
    assert!(rms(&ours) < 0.6 * rms(&before), "{} {}", rms(&ours), rms(&before));
}

/// How the exponent falls with distance in the freestyle records, which the first
/// pieces of the shape are taken from; beyond 400 the shape stays above them.
#[test]
fn exponents_of_the_records() {
    let shipped = BaseTimes::shipped();
    let exponent = |short: u32, long: u32| {
        let of = |category| {
            let time = |amount| {
                let event =
                    Event { category, course: Course::Long50m, stroke: Stroke::Free, amount };
                shipped.base(event).unwrap().seconds()
            };
            (time(long) / time(short)).ln() / (f64::from(long) / f64::from(short)).ln()
        };
        (of(Category::Women) + of(Category::Men)) / 2.0
    };
    for (short, long, mean, ours) in [
        (50, 100, 1.1407, 1.14),
        (100, 200, 1.1271, 1.125),
        (200, 400, 1.0890, 1.095),
        (400, 800, 1.0404, 1.07),
        (800, 1500, 1.0312, 1.07),
    ] {
        near(exponent(short, long), mean, 5e-4);
        near(lapwing::swim::curve::local_exponent(f64::from(long)), ours, 1e-12);
    }
    // Men's 200 to 400, 1.109, is what is often quoted.
    let men = (time("3:40.07").seconds() / time("1:42.00").seconds()).ln() / 2f64.ln();
    near(men, 1.1094, 5e-4);
    assert_eq!(metres("400").amount(), 400);
}
