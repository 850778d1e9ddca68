//! Critical speed against worked values of the published model.
//!
//! Model and method: Wakayoshi et al. 1992, Eur J Appl Physiol 64:153-157, and
//! 1993, 66:90-95 (200 m and 400 m in a pool). Unless another source is named,
//! a value is the formula worked in double precision, apart from this crate.

use lapwing::swim::Trial;
use lapwing::swim::critical_speed::{Basis, Estimate, estimate};
use lapwing::swim::least_squares::Line;
use lapwing::units::{Course, Stroke};

use crate::support::{day, digits, near, trial};

fn of(trials: &[Trial]) -> Estimate {
    estimate(trials, day("2026-03-02"), Stroke::Free, Course::Short25m)
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
        assert_eq!(found.basis, Basis::Tests);
        let pace = found.pace().unwrap();
        near(pace.per_100_s(), per_100, 1e-9);
        near(pace.speed().per_second(), speed, 5e-7);
        near(found.reserve.unwrap().get(), reserve, 5e-5);
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
    let found = estimate(&trials, day("2026-03-02"), Stroke::Free, Course::Short25yd);
    near(found.pace().unwrap().per_100_s(), 71.0, 1e-9);
    near(found.pace().unwrap().speed().metres_per_second(), 1.287887, 5e-7);
    near(found.reserve.unwrap().get(), (200.0 - 130.0 * 100.0 / 71.0) * 0.9144, 1e-9);
    assert_eq!(of(&trials).basis, Basis::None);
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

    let found = of(&same_day(&[("200", "2:10"), ("400", "4:35"), ("800", "9:30")]));
    digits(found.pace().unwrap().speed().per_second(), 1.3625062158, 11);
    digits(found.reserve.unwrap().get(), 23.8521465274, 11);
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
        let found = of(&trials);
        near(found.pace().unwrap().speed().per_second(), speed, 5e-7);
        near(found.reserve.unwrap().get(), reserve, 5e-5);
        let points: Vec<(f64, f64)> = trials
            .iter()
            .map(|trial| (trial.time.seconds(), f64::from(trial.distance.amount())))
            .collect();
        near(Line::through(&points).unwrap().errors.unwrap().slope, error, 5e-8);
    }
}

/// The delta method on 2:30 and 5:20: 1 % on each time makes 2.079 % of the
/// speed, so the typical error of 2 % makes twice that.
#[test]
fn band_of_two_trials_is_one_standard_error() {
    let found = of(&same_day(&[("200", "2:30"), ("400", "5:20")]));
    let speed = |pace: lapwing::units::Pace| pace.speed().per_second();
    let middle = speed(found.pace().unwrap());
    near(speed(found.low().unwrap()) / middle - 1.0, 2.0 * 0.02079, 2e-5);
    near(1.0 - speed(found.high().unwrap()) / middle, 2.0 * 0.02079, 2e-5);
}

/// Ours: the exponents at which critical speed is 94, 97 and 91 % of the 400's
/// speed, the published 94.0 ± 1.5 % (18 national and international men).
#[test]
fn one_test() {
    let found = of(&[trial("200", "3:12", "2026-03-02")]);
    assert_eq!(found.basis, Basis::OneTest);
    near(found.pace().unwrap().per_100_s(), 109.0686, 5e-5);
    near(found.low().unwrap().per_100_s(), 102.7709, 5e-5);
    near(found.high().unwrap().per_100_s(), 117.0373, 5e-5);
    assert_eq!(found.reserve, None);

    let of_400 = of(&[trial("400", "6:40", "2026-03-02")]);
    let share = |per_100: f64| 100.0 / per_100 / 1.0;
    near(share(of_400.pace().unwrap().per_100_s()), 0.94, 0.0005);
    near(share(of_400.low().unwrap().per_100_s()), 0.97, 0.005);
    near(share(of_400.high().unwrap().per_100_s()), 0.91, 0.005);
}

/// The exponent cancels out near 750 m; the day's form does not.
#[test]
fn one_long_test_keeps_a_band() {
    let found = of(&[trial("800", "14:00", "2026-03-02")]);
    let per_100 = found.pace().unwrap().per_100_s();
    assert!(found.low().unwrap().per_100_s() <= per_100 * 0.98 + 1e-9);
    assert!(found.high().unwrap().per_100_s() >= per_100 * 1.02 - 1e-9);
}

#[test]
fn nothing_from_sprints_other_strokes_or_the_future() {
    assert_eq!(of(&[trial("100", "1:04", "2026-03-02")]).basis, Basis::None);
    assert_eq!(of(&[trial("200", "3:12", "2026-03-03")]).basis, Basis::None);
    let back = Trial { stroke: Stroke::Back, ..trial("200", "3:12", "2026-03-02") };
    assert_eq!(of(&[back]).basis, Basis::None);
    let long = Trial { course: Course::Long50m, ..trial("200", "3:12", "2026-03-02") };
    assert_eq!(of(&[long]).basis, Basis::None);
}

#[test]
fn which_tests_go_together() {
    let apart = |days_ago: &str| {
        of(&[trial("400", "6:44", days_ago), trial("200", "3:12", "2026-03-02")]).basis
    };
    assert_eq!(apart("2026-01-05"), Basis::Tests, "56 days");
    assert_eq!(apart("2026-01-04"), Basis::OneTest, "57 days");

    let with_best = of(&[
        trial("200", "3:12", "2026-02-01"),
        trial("200", "3:20", "2026-02-20"),
        trial("400", "6:44", "2026-03-01"),
    ]);
    near(with_best.pace().unwrap().per_100_s(), 106.0, 1e-9);

    let too_short_and_too_long = of(&same_day(&[("200", "1:39"), ("1500", "24:00")]));
    assert_eq!(too_short_and_too_long.basis, Basis::OneTest);

    let newest = of(&[trial("200", "3:12", "2026-02-01"), trial("200", "3:20", "2026-02-20")]);
    near(newest.pace().unwrap().per_100_s(), 109.0686 * 200.0 / 192.0, 1e-4);
}

/// Critical speed at or above the longer test's speed is the same as no
/// reserve: one of the two was no full effort or is mistyped.
#[test]
fn impossible_pair_is_reported_and_its_shorter_test_left_out() {
    for longer in ["3:10", "6:00", "6:24"] {
        let found = of(&same_day(&[("200", "3:12"), ("400", longer)]));
        assert_eq!(found.impossible.len(), 1, "400 in {longer}");
        assert_eq!(found.basis, Basis::OneTest);
        assert_eq!(found.made_from[0].distance.amount(), 400);
    }
    assert!(of(&same_day(&[("200", "3:12"), ("400", "6:24.01")])).impossible.is_empty());
}

#[test]
fn unusual_share_of_the_400_is_remarked_on() {
    let share = |longer| of(&same_day(&[("200", "3:12"), ("400", longer)])).unusual_share;
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
        (distance, 1u32..=Centis::GREATEST.hundredths(), 0i64..100, any::<bool>()).prop_map(
            |(amount, hundredths, days, meet)| Trial {
                distance: Distance::new(amount, Unit::Metre).unwrap(),
                time: Centis::new(hundredths).unwrap(),
                on: day("2026-03-02") - jiff::Span::new().days(days),
                meet,
                ..trial("200", "3:12", "2026-03-02")
            },
        )
    }

    /// As above, but with times that can feed the line.
    fn likely_trial() -> impl Strategy<Value = Trial> {
        (any_trial(), 10_000u32..120_000).prop_map(|(trial, hundredths)| Trial {
            time: Centis::new(hundredths).unwrap(),
            ..trial
        })
    }

    proptest! {
        /// Whatever was texted: the pace lies in its band, a reserve is above
        /// nought, and what is left after the impossible is possible together.
        #[test]
        fn always_makes_sense(
            wild in proptest::collection::vec(any_trial(), 0..4),
            likely in proptest::collection::vec(likely_trial(), 0..8),
        ) {
            let trials: Vec<Trial> = wild.into_iter().chain(likely).collect();
            let found = of(&trials);
            prop_assert_eq!(found.band.is_none(), found.basis == Basis::None);
            prop_assert_eq!(found.reserve.is_some(), found.basis == Basis::Tests);
            if let Some(band) = found.band {
                prop_assert!(band.low.per_100_s() <= band.pace.per_100_s());
                prop_assert!(band.pace.per_100_s() <= band.high.per_100_s());
            }
            prop_assert!(found.reserve.is_none_or(|reserve| reserve.get() > 0.0));
            for pair in found.made_from.windows(2) {
                prop_assert!(pair[0].speed().per_second() > pair[1].speed().per_second());
            }
        }

        /// A test that took half as long again means a pace half as slow again.
        #[test]
        fn scales_with_the_test(lengths in 8u32..60, hundredths in 10_000u32..200_000) {
            let at = |hundredths: u32| {
                let test = Trial {
                    distance: Distance::new(lengths * 25, Unit::Metre).unwrap(),
                    time: Centis::new(hundredths).unwrap(),
                    ..trial("200", "3:12", "2026-03-02")
                };
                of(&[test]).band.unwrap()
            };
            let (once, more) = (at(hundredths * 2), at(hundredths * 3));
            for (a, b) in [(once.pace, more.pace), (once.low, more.low), (once.high, more.high)] {
                prop_assert!((b.per_100_s() / a.per_100_s() - 1.5).abs() < 1e-9);
            }
        }
    }
}
