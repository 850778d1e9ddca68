//! Chances that a change is real: the normal form of Hopkins 2004, Sportscience
//! 8:1-7, worked in double precision apart from this crate.

use lapwing::swim::Trial;
use lapwing::swim::real_change::{
    Change, Likelihood, Verdict, minimal_detectable_percent, normal_cdf,
};

use crate::support::{near, trial};

#[test]
fn chances() {
    for (percent, error, worthwhile, faster, same, slower, at_all) in [
        (1.0, 0.8, 0.4, 0.7021, 0.1900, 0.1080, 0.8116),
        (1.5, 0.8, 0.4, 0.8345, 0.1189, 0.0465, 0.9076),
        (1.0, 0.6, 0.4, 0.7602, 0.1903, 0.0495, 0.8807),
        (1.5, 1.4, 0.4, 0.7108, 0.1206, 0.1686, 0.7757),
        (3.0, 1.4, 0.4, 0.9054, 0.0516, 0.0430, 0.9351),
    ] {
        let found = Change::of(percent, error * 2f64.sqrt(), worthwhile);
        near(found.faster, faster, 6e-5);
        near(found.same, same, 6e-5);
        near(found.slower, slower, 6e-5);
        near(found.faster_at_all, at_all, 6e-5);
    }
}

/// 400 m from 5:20 to 5:15 at a meet: typical error 1.4 %, worthwhile 0.42 %.
#[test]
fn between_two_races() {
    let race = |text, on| Trial { meet: true, ..trial("400", text, on) };
    let (old, new) = (race("5:20", "2026-01-10"), race("5:15", "2026-03-01"));
    let found = Change::between(&old, &new).unwrap();
    near(found.percent, 1.574836, 5e-7);
    near(found.worthwhile_percent, 0.42, 1e-12);
    near(found.faster, 0.7201, 6e-5);
    near(found.same, 0.1230, 6e-5);
    near(found.slower, 0.1568, 6e-5);
    near(found.faster_at_all, 0.7868, 6e-5);
    assert_eq!(found.verdict(), Verdict::TooCloseToSay);
    near(found.limits_90.1 - found.percent, 1.645 * 1.4 * 2f64.sqrt(), 1e-12);

    let elite = Change::of(found.percent, 0.8 * 2f64.sqrt(), 0.24);
    near(elite.faster, 0.8810, 6e-5);
    near(elite.slower, 0.0543, 6e-5);
    assert_eq!(elite.verdict(), Verdict::Faster(Likelihood::Likely));
}

#[test]
fn a_training_trial_varies_more() {
    let (old, new) = (trial("400", "5:20", "2026-01-10"), trial("400", "5:15", "2026-03-01"));
    let raced = Trial { meet: true, ..new };
    let (training, mixed) =
        (Change::between(&old, &new).unwrap(), Change::between(&old, &raced).unwrap());
    assert!(training.faster_at_all < mixed.faster_at_all);
    near(
        mixed.limits_90.1 - mixed.percent,
        1.645 * (2.0f64.powi(2) + 1.4f64.powi(2)).sqrt(),
        1e-12,
    );
    let much = trial("400", "4:55", "2026-03-01");
    assert!(matches!(Change::between(&old, &much).unwrap().verdict(), Verdict::Faster(_)));
    assert!(matches!(Change::between(&much, &old).unwrap().verdict(), Verdict::Slower(_)));
    assert_eq!(Change::between(&old, &trial("200", "2:30", "2026-03-01")), None);
}

#[test]
fn a_run_of_tests() {
    let run = |times: [&str; 4]| -> Vec<Trial> {
        let days = ["2026-01-05", "2026-01-19", "2026-02-09", "2026-03-02"];
        times.into_iter().zip(days).map(|(text, on)| trial("400", text, on)).collect()
    };
    let better = run(["6:40", "6:30", "6:24", "6:15"]);
    assert!(matches!(Change::over(&better).unwrap().verdict(), Verdict::Faster(_)));
    let level = run(["6:40", "6:42", "6:38", "6:41"]);
    assert_eq!(Change::over(&level).unwrap().verdict(), Verdict::TooCloseToSay);

    let two = [better[0], better[3]];
    let (line, pair) = (Change::over(&two).unwrap(), Change::between(&two[0], &two[1]).unwrap());
    near(line.percent, pair.percent, 1e-9);
    near(line.faster, pair.faster, 1e-9);
    assert_eq!(Change::over(&better[..1]), None);
    assert_eq!(Change::over(&[]), None);
}

/// Tables of the normal distribution; `1.96 * sqrt(2) * error`.
#[test]
fn normal_distribution_and_detectable_change() {
    near(normal_cdf(0.5), 0.6914625, 5e-8);
    near(normal_cdf(1.0), 0.8413447, 5e-8);
    near(normal_cdf(1.96), 0.9750021, 5e-8);
    near(normal_cdf(-1.96), 0.0249979, 5e-8);
    near(minimal_detectable_percent(0.8), 2.2175, 5e-5);
    near(minimal_detectable_percent(1.4), 3.8806, 5e-5);
}

/// The scale of words (Hopkins; limits from memory).
#[test]
fn words() {
    for (chance, words) in [
        (0.001, "almost certainly not"),
        (0.04, "very unlikely"),
        (0.2, "unlikely"),
        (0.5, "possibly"),
        (0.9, "likely"),
        (0.97, "very likely"),
        (0.999, "almost certainly"),
    ] {
        assert_eq!(Likelihood::of(chance).words(), words);
    }
    assert_eq!(Verdict::Faster(Likelihood::of(0.97)).to_string(), "very likely faster");
    assert_eq!(Verdict::TooCloseToSay.to_string(), "too close to say");
}

mod properties {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn chances_are_chances(percent in -20.0..20.0f64, sd in 0.1..5.0f64, worthwhile in 0.0..2.0f64) {
            let found = Change::of(percent, sd, worthwhile);
            for chance in [found.faster, found.same, found.slower, found.faster_at_all] {
                prop_assert!((-1e-12..=1.0).contains(&chance));
            }
            let mirrored = Change::of(-percent, sd, worthwhile);
            prop_assert!((mirrored.faster - found.slower).abs() < 1e-12);
        }
    }
}
