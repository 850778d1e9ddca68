//! Race prediction: from one distance by the power law `T2 = T1 * (D2/D1)^k`
//! (Riegel 1981, American Scientist 69:285-290), worked in double precision apart
//! from this crate; from more by the curve.

use lapwing::swim::Trial;
use lapwing::swim::prediction::{Prediction, PredictionBasis, Reach, predict};
use lapwing::units::{Course, Stroke};

use crate::support::{day, metres, near, time, trial};

fn of(trials: &[Trial], distance: &str) -> Option<Prediction> {
    predict(trials, day("2026-03-02"), Stroke::Free, Course::Short25m, metres(distance))
}

#[test]
fn a_lone_test_takes_the_exponent_of_the_prior() {
    let trials = [trial("400", "5:20", "2026-03-02")];
    for (distance, seconds) in [
        ("400", 320.0),
        ("800", 320.0 * 2f64.powf(1.07)),
        ("1500", 320.0 * 3.75f64.powf(1.07)),
        ("100", 320.0 * 0.25f64.powf(1.07)),
    ] {
        let found = of(&trials, distance).unwrap();
        near(found.time.seconds(), seconds, 0.00501);
        assert_eq!(found.reach, Reach::Within);
        assert!(found.low < found.time && found.time < found.high);
    }
}

/// World Aquatics 2025 championship A-standards, long course freestyle, as
/// reprinted in the press: from the 200, 400 and 800 the 1500 must come out
/// within twice the interval (ninety-nine swims in a hundred).
#[test]
fn standards_predict_each_other() {
    for (short, fifteen_hundred) in [
        (["1:46.70", "3:48.15", "7:48.66"], "15:01.89"),
        (["1:58.66", "4:10.57", "8:37.90"], "16:29.57"),
    ] {
        let trials: Vec<Trial> = ["200", "400", "800"]
            .into_iter()
            .zip(short)
            .map(|(distance, text)| Trial { meet: true, ..trial(distance, text, "2026-03-02") })
            .collect();
        let found = of(&trials, "1500").unwrap();
        assert_eq!(found.made_from.len(), 3);
        assert!(matches!(found.basis, PredictionBasis::Curve(_)), "{found:?}");
        let log = |time: lapwing::units::Centis| time.seconds().ln();
        let sd = log(found.high) - log(found.time);
        let off = (log(time(fifteen_hundred)) - log(found.time)).abs();
        assert!(off < 2.0 * sd, "{found:?}");
    }
}

#[test]
fn at_a_tested_distance_within_the_band_of_that_test() {
    let trials = [
        trial("200", "3:12", "2026-03-02"),
        trial("400", "8:00", "2026-03-02"),
        trial("100", "1:20", "2026-03-02"),
    ];
    for one in &trials {
        let found = of(&trials, &one.distance.amount().to_string()).unwrap().time.seconds();
        assert!((found / one.time.seconds() - 1.0).abs() <= 0.02 + 1e-4, "{found} for {one:?}");
    }
}

#[test]
fn beyond_a_factor_of_four_it_says_so() {
    let trials = [trial("100", "1:20", "2026-03-02")];
    let Reach::Beyond(factor) = of(&trials, "1500").unwrap().reach else { panic!("silent") };
    near(factor, 15.0, 1e-12);
    assert_eq!(of(&trials, "400").unwrap().reach, Reach::Within);
    assert_eq!(of(&trials, "425").unwrap().reach, Reach::Beyond(4.25));
    // A sprint says little of a long swim once there is a nearer test.
    let long = trial("800", "13:00", "2026-03-02");
    let (both, alone) = (of(&[trials[0], long], "1500").unwrap(), of(&[long], "1500").unwrap());
    assert_eq!((both.reach, both.made_from[0]), (Reach::Within, long));
    near(both.time.seconds() / alone.time.seconds(), 1.0, 0.03);
}

/// The newer of two over one distance counts for more, the more the older the
/// other is: two of one day meet in the middle.
#[test]
fn older_tests_weigh_less() {
    let pulled = |older: &str| {
        let trials = [trial("400", "6:00", older), trial("400", "5:52", "2026-03-02")];
        of(&trials, "400").unwrap().time.seconds()
    };
    near(pulled("2026-03-02"), (360.0f64 * 352.0).sqrt(), 0.00501);
    // e² = 0.0004; after 8 weeks e² + 0.011² 8 + (0.003 * 8)² = 0.001944.
    let share = 0.0004 / (0.0004 + 0.001944);
    near(pulled("2026-01-05"), 360.0f64.powf(share) * 352.0f64.powf(1.0 - share), 0.00501);
    assert!(pulled("2025-06-02") < pulled("2025-12-02"));
}

/// A race from a dive is predicted from a dive: what was seen once was 1:02.8
/// over 100 m and 1:04.9 predicted for it.
#[test]
fn a_sprint_begins_as_the_last_one_did() {
    use lapwing::swim::curve::from_a_push;
    use lapwing::units::Start;
    let swum = trial("100", "1:02.80", "2026-03-02");
    let pushed = Trial { time: from_a_push(swum.distance, swum.time, Start::Dive), ..swum };
    assert_eq!(pushed.time, time("1:04.80"));
    assert_eq!(of(&[pushed], "100").unwrap().begun(Start::Dive).time, swum.time);
    let long = of(&[pushed], "400").unwrap();
    assert_eq!(long.clone().begun(Start::Dive), long);
}

#[test]
fn nothing_without_a_test_in_that_water() {
    assert_eq!(of(&[], "400"), None);
    assert_eq!(of(&[trial("400", "5:20", "2026-03-03")], "400"), None);
    let back = Trial { stroke: Stroke::Back, ..trial("400", "5:20", "2026-03-02") };
    assert_eq!(of(&[back], "400"), None);
    let ask_yards = predict(
        &[trial("400", "5:20", "2026-03-02")],
        day("2026-03-02"),
        Stroke::Free,
        Course::Short25m,
        "400yd".parse().unwrap(),
    );
    assert_eq!(ask_yards, None);
}

mod properties {
    use super::*;
    use lapwing::units::{Centis, Distance, Unit};
    use proptest::prelude::*;

    fn at(amount: u32, hundredths: u32) -> Trial {
        Trial {
            distance: Distance::new(amount, Unit::Metre).unwrap(),
            time: Centis::new(hundredths).unwrap(),
            ..trial("400", "5:20", "2026-02-01")
        }
    }

    proptest! {
        #[test]
        fn passes_through_a_lone_test(amount in 25u32..5000, hundredths in 1_000u32..500_000) {
            let one = at(amount, hundredths);
            let found = of(&[one], &amount.to_string()).unwrap();
            prop_assert_eq!(found.time, one.time);
        }

        /// Longer takes longer.
        #[test]
        fn grows_with_distance(
            first in 10_000u32..30_000, ratio in 2.02f64..2.4,
            near_m in 50u32..1600, further_m in 1u32..1600,
        ) {
            let second = (f64::from(first) * ratio) as u32;
            let trials = [at(200, first), at(400, second)];
            let short = of(&trials, &near_m.to_string()).unwrap().time;
            let long = of(&trials, &(near_m + further_m).to_string()).unwrap().time;
            prop_assert!(long > short);
        }

        #[test]
        fn a_faster_test_never_slows_the_prediction(hundredths in 10_000u32..60_000, gain in 1u32..5_000) {
            let slow = of(&[at(400, hundredths)], "800").unwrap().time;
            let fast = of(&[at(400, hundredths - gain)], "800").unwrap().time;
            prop_assert!(fast <= slow);
        }
    }
}
