//! The maths on a century of real figures: world records over 100 m freestyle,
//! 1905 to 2004 (`tests/data/world_records_100m.csv`, from the data set
//! SwimRecords of the R package mosaicData). A straight line is a bad model of
//! records; it is a good check of the fit. Fits worked apart from this crate.

use lapwing::swim::least_squares::Line;
use lapwing::swim::real_change::{Change, Likelihood, Verdict};

use crate::support::{digits, near};

/// `(year, seconds)` of one sex, or of both.
fn records(sex: &str) -> Vec<(f64, f64)> {
    include_str!("../data/world_records_100m.csv")
        .lines()
        .filter(|line| !line.starts_with('#') && !line.starts_with("year"))
        .filter(|line| line.ends_with(sex))
        .map(|line| {
            let mut fields = line.split(',');
            let mut number = || fields.next().unwrap().parse().unwrap();
            (number(), number())
        })
        .collect()
}

#[test]
fn regression() {
    for (sex, rows, a, b, error_b, error_a, sd, r_squared) in [
        (
            "M",
            31,
            394.837376807,
            -0.174129300238,
            0.00714009932,
            13.9504985,
            1.14217834,
            0.953507090944,
        ),
        (
            "F",
            31,
            697.301215606,
            -0.324045867999,
            0.02757740318,
            53.8008343,
            4.55359416,
            0.826422347228,
        ),
        (
            "",
            62,
            567.242002361,
            -0.259877092581,
            0.02758999815,
            53.8657204,
            6.35095710,
            0.596563452913,
        ),
    ] {
        let points = records(sex);
        assert_eq!(points.len(), rows);
        let line = Line::through(&points).unwrap();
        let errors = line.errors.unwrap();
        digits(line.intercept, a, 11);
        digits(line.slope, b, 11);
        digits(errors.slope, error_b, 9);
        digits(errors.intercept, error_a, 8);
        digits(errors.residual_sd, sd, 8);
        digits(errors.r_squared, r_squared, 11);
    }
    let sums = records("").iter().fold((0.0, 0.0), |sum, row| (sum.0 + row.0, sum.1 + row.1));
    near(sums.0, 121_033.0, 1e-9);
    near(sums.1, 3715.30, 1e-9);
}

/// The men's line up to 1972 foretells thirty years of records to within two of
/// its residual deviations. The women's up to 1964 is too fast for every later
/// record and in 2004 by 16.42 s, over three deviations: their curve bends.
#[test]
fn prediction() {
    let misses = |sex, last: f64| -> (Vec<f64>, f64) {
        let (past, future): (Vec<_>, Vec<_>) =
            records(sex).into_iter().partition(|(year, _)| *year <= last);
        let line = Line::through(&past).unwrap();
        let misses = future.iter().map(|(year, seconds)| seconds - line.at(*year)).collect();
        (misses, line.errors.unwrap().residual_sd)
    };
    let (men, deviation) = misses("M", 1972.0);
    near(deviation, 1.226505659872202, 1e-9);
    assert!(men.iter().all(|miss| miss.abs() < 2.0 * deviation), "{men:?}");
    let (women, deviation) = misses("F", 1964.0);
    near(deviation, 4.655378375255432, 1e-9);
    assert!(women.iter().all(|miss| *miss > deviation), "{women:?}");
    near(*women.last().unwrap(), 16.42, 0.005);
}

/// With the variation of top swimmers between meets, 0.8 % (Pyne, Trewin &
/// Hopkins 2004, J Sports Sci 22:613-620): a decade's gain is real, most single
/// steps are too small to tell from a good day.
#[test]
fn change_detection() {
    let between = |old: f64, new: f64| {
        Change::of(100.0 * (old / new).ln(), 0.8 * 2f64.sqrt(), 0.24).verdict()
    };
    let men = records("M");
    let of = |year: f64| men.iter().rev().find(|row| row.0 == year).unwrap().1;
    assert_eq!(between(of(1905.0), of(2000.0)), Verdict::Faster(Likelihood::AlmostCertainly));
    assert_eq!(between(of(1961.0), of(1968.0)), Verdict::Faster(Likelihood::VeryLikely));
    assert_eq!(between(of(1994.0), of(2000.0)), Verdict::TooCloseToSay);
    let small =
        men.windows(2).filter(|pair| between(pair[0].1, pair[1].1) == Verdict::TooCloseToSay);
    let small = small.count();
    assert!(small > 15 && small < 30, "{small} of 30 steps");
}
