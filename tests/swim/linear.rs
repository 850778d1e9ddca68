//! The plain line through tests against worked values of the published model.
//!
//! Model and method: Wakayoshi et al. 1992, Eur J Appl Physiol 64:153-157, and
//! 1993, 66:90-95 (200 m and 400 m in a pool). Unless another source is named,
//! a value is the formula worked in double precision, apart from this crate.

use lapwing::swim::Trial;
use lapwing::swim::least_squares::Line;
use lapwing::swim::linear::{Linear, fastest_by_distance, impossible_pairs, linear};
use lapwing::units::{Course, Stroke};

use crate::support::{day, digits, near, trial};

fn of(trials: &[Trial]) -> Option<Linear> {
    linear(trials, day("2026-03-02"), Stroke::Free, Course::Short25m)
}

fn same_day(swims: &[(&str, &str)]) -> Vec<Trial> {
    swims.iter().map(|(distance, time)| trial(distance, time, "2026-03-02")).collect()
}

#[test]
fn two_trials() {
    for (two_hundred, four_hundred, speed, reserve, per_100, share) in [
        ("2:30", "5:20", 20.0 / 17.0, 23.5294, 85.0, 0.9412),
        ("2:45", "5:50", 1.081081, 21.6216, 92.5, 0.9459),
        ("2:17.80", "4:47.60", 1.335113, 16.0214, 74.9, 0.9599),
        ("2:30", "5:15", 1.212121, 18.1818, 82.5, 0.9545),
        ("3:12", "6:44", 0.943396, 18.8679, 106.0, 0.9528),
    ] {
        let found = of(&same_day(&[("200", two_hundred), ("400", four_hundred)]));
        let found = found.unwrap();
        let pace = found.pace;
        near(pace.per_100_s(), per_100, 1e-9);
        near(pace.speed().per_second(), speed, 5e-7);
        near(found.reserve.get(), reserve, 5e-5);
        assert_eq!(found.unusual_share, None, "{share} of the 400 is usual");
    }
}

/// 200 yd in 2:10, 400 yd in 4:32: 1:11 per 100 yd, 1.287887 m/s.
#[test]
fn yards_stay_yards() {
    let yards = |distance: &str, time: &str| Trial {
        distance: distance.parse().unwrap(),
        course: Course::Short25yd,
        ..trial("200", time, "2026-03-02")
    };
    let trials = [yards("200yd", "2:10"), yards("400yd", "4:32")];
    let found = linear(&trials, day("2026-03-02"), Stroke::Free, Course::Short25yd).unwrap();
    near(found.pace.per_100_s(), 71.0, 1e-9);
    near(found.pace.speed().metres_per_second(), 1.287887, 5e-7);
    near(found.reserve.get(), (200.0 - 130.0 * 100.0 / 71.0) * 0.9144, 1e-9);
    assert_eq!(of(&trials), None);
}

#[test]
fn three_and_more_by_least_squares() {
    let set_a = [(130.0, 200.0), (275.0, 400.0), (570.0, 800.0)];
    let line = Line::through(&set_a).unwrap();
    let errors = line.errors.unwrap();
    digits(line.slope, 1.3625062158, 11);
    digits(line.intercept, 23.8521465274, 11);
    digits(errors.residual_sd, 1.8207416845, 10);
    digits(errors.slope, 0.0057419221, 8);
    digits(errors.intercept, 2.1418344433, 10);
    digits(errors.r_squared, 0.9999822405, 10);
    for ((t, d), residual) in set_a.into_iter().zip([-0.9779546, 1.4586441, -0.4806895]) {
        near(d - line.at(t), residual, 5e-8);
    }
    let five = [(33.0, 50.0), (72.0, 100.0), (150.0, 200.0), (320.0, 400.0), (665.0, 800.0)];
    let line = Line::through(&five).unwrap();
    digits(line.slope, 1.1826852918, 11);
    digits(line.intercept, 16.6940476459, 11);
    digits(line.errors.unwrap().slope, 0.0114520910, 8);

    let found = of(&same_day(&[("200", "2:10"), ("400", "4:35"), ("800", "9:30")])).unwrap();
    digits(found.pace.speed().per_second(), 1.3625062158, 11);
    digits(found.reserve.get(), 23.8521465274, 11);
}

/// World Aquatics 2025 championship A-standards, long course freestyle, 200 m
/// to 1500 m, as reprinted in the press.
#[test]
fn championship_standards() {
    for (times, speed, error, reserve) in [
        (["1:46.70", "3:48.15", "7:48.66", "15:01.89"], 1.634997, 0.0079520, 27.9189),
        (["1:58.66", "4:10.57", "8:37.90", "16:29.57"], 1.491611, 0.0037894, 25.1736),
    ] {
        let swims: Vec<(&str, &str)> =
            ["200", "400", "800", "1500"].into_iter().zip(times).collect();
        let trials = same_day(&swims);
        let found = of(&trials).unwrap();
        near(found.pace.speed().per_second(), speed, 5e-7);
        near(found.reserve.get(), reserve, 5e-5);
        let points: Vec<(f64, f64)> = trials
            .iter()
            .map(|trial| (trial.time.seconds(), f64::from(trial.distance.amount())))
            .collect();
        near(Line::through(&points).unwrap().errors.unwrap().slope, error, 5e-8);
    }
}

#[test]
fn which_tests_go_together() {
    let apart =
        |days_ago: &str| of(&[trial("400", "6:44", days_ago), trial("200", "3:12", "2026-03-02")]);
    assert!(apart("2026-01-05").is_some(), "56 days");
    assert_eq!(apart("2026-01-04"), None, "57 days");
    let with_best = of(&[
        trial("200", "3:12", "2026-02-01"),
        trial("200", "3:20", "2026-02-20"),
        trial("400", "6:44", "2026-03-01"),
    ]);
    near(with_best.unwrap().pace.per_100_s(), 106.0, 1e-9);
    assert_eq!(of(&same_day(&[("200", "1:39"), ("1500", "24:00")])), None);
    assert_eq!(of(&[trial("200", "3:12", "2026-02-01"), trial("200", "3:20", "2026-02-20")]), None);
}

/// Critical speed at or above the longer test's speed is the same as no
/// reserve: one of the two was no full effort or is mistyped.
#[test]
fn the_shorter_of_an_impossible_pair_is_left_out() {
    let pairs = |longer| {
        impossible_pairs(&fastest_by_distance(&same_day(&[("200", "3:12"), ("400", longer)])))
    };
    for longer in ["3:10", "6:00", "6:24"] {
        assert_eq!(pairs(longer).len(), 1, "400 in {longer}");
        assert_eq!(of(&same_day(&[("200", "3:12"), ("400", longer)])), None);
    }
    assert!(pairs("6:24.01").is_empty());
}

#[test]
fn unusual_share_of_the_400_is_remarked_on() {
    let share = |longer| of(&same_day(&[("200", "3:12"), ("400", longer)])).unwrap().unusual_share;
    near(share("6:30").unwrap(), 390.0 / 396.0, 1e-9);
    assert_eq!(share("6:44"), None);
    near(share("7:10").unwrap(), 430.0 / 476.0, 1e-9);
}

mod properties {
    use super::*;
    use lapwing::units::{Centis, Distance, Unit};
    use proptest::prelude::*;

    fn any_trial() -> impl Strategy<Value = Trial> {
        let distance = proptest::sample::select(&[50u32, 100, 200, 300, 400, 800, 1500, 10_000]);
        let time = prop_oneof![1u32..=Centis::GREATEST.hundredths(), 10_000u32..120_000];
        (distance, time, 0i64..100).prop_map(|(amount, hundredths, days)| Trial {
            distance: Distance::new(amount, Unit::Metre).unwrap(),
            time: Centis::new(hundredths).unwrap(),
            on: day("2026-03-02") - jiff::Span::new().days(days),
            ..trial("200", "3:12", "2026-03-02")
        })
    }

    proptest! {
        /// Whatever was texted: a reserve is above nought, and what is left after
        /// the impossible is possible together.
        #[test]
        fn always_makes_sense(trials in proptest::collection::vec(any_trial(), 0..12)) {
            if let Some(found) = of(&trials) {
                prop_assert!(found.reserve.get() > 0.0);
                for pair in found.made_from.windows(2) {
                    prop_assert!(pair[0].speed().per_second() > pair[1].speed().per_second());
                }
            }
        }
    }
}
