//! The straight-line fit against certified and published values.

use lapwing::swim::least_squares::Line;

use crate::support::{digits, near};

/// NIST Statistical Reference Datasets, linear regression, "Norris" (National
/// Institute of Standards and Technology; public domain).
const NORRIS_X: [f64; 36] = [
    0.2, 337.4, 118.2, 884.6, 10.1, 226.5, 666.3, 996.3, 448.6, 777.0, 558.2, 0.4, 0.6, 775.5,
    666.9, 338.0, 447.5, 11.6, 556.0, 228.1, 995.8, 887.6, 120.2, 0.3, 0.3, 556.8, 339.1, 887.2,
    999.0, 779.0, 11.1, 118.3, 229.2, 669.1, 448.9, 0.5,
];
const NORRIS_Y: [f64; 36] = [
    0.1, 338.8, 118.1, 888.0, 9.2, 228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3, 0.1, 778.1,
    668.8, 339.3, 448.9, 10.8, 557.7, 228.3, 998.0, 888.8, 119.6, 0.3, 0.6, 557.6, 339.3, 888.0,
    998.5, 778.9, 10.2, 117.6, 228.9, 668.4, 449.2, 0.2,
];

#[test]
fn nist_norris_certified_values() {
    let points: Vec<(f64, f64)> = NORRIS_X.into_iter().zip(NORRIS_Y).collect();
    let line = Line::through(&points).unwrap();
    let errors = line.errors.unwrap();
    digits(line.intercept, -0.262323073774029, 11);
    digits(line.slope, 1.00211681802045, 12);
    digits(errors.intercept, 0.232818234301152, 11);
    digits(errors.slope, 0.429796848199937e-03, 11);
    digits(errors.residual_sd, 0.884796396144373, 11);
    digits(errors.r_squared, 0.999993745883712, 12);
}

/// NIST StRD "NoInt1" and "NoInt2" are lines through the origin. A free line
/// through the data and their mirror image in the origin is that line; its
/// residual sum is twice the certified one on 2n - 2 degrees of freedom.
#[test]
fn nist_no_intercept_certified_slopes() {
    let one: Vec<(f64, f64)> =
        (0..=10).map(|i| (60.0 + f64::from(i), 130.0 + f64::from(i))).collect();
    let two = vec![(4.0, 3.0), (5.0, 4.0), (6.0, 4.0)];
    for (points, slope, residual_sd) in
        [(one, 2.07438016528926, 3.56753034006338), (two, 0.727272727272727, 0.369274472937998)]
    {
        let n = points.len() as f64;
        let mirrored: Vec<(f64, f64)> =
            points.iter().flat_map(|&(x, y)| [(x, y), (-x, -y)]).collect();
        let line = Line::through(&mirrored).unwrap();
        digits(line.slope, slope, 13);
        near(line.intercept, 0.0, 1e-12);
        // The certified figure has n - 1 degrees of freedom.
        let sum = line.errors.unwrap().residual_sd.powi(2) * (2.0 * n - 2.0) / 2.0;
        digits((sum / (n - 1.0)).sqrt(), residual_sd, 11);
    }
}

#[test]
fn no_line_without_two_places() {
    assert_eq!(Line::through(&[]), None);
    assert_eq!(Line::through(&[(1.0, 2.0)]), None);
    assert_eq!(Line::through(&[(1.0, 2.0), (1.0, 3.0)]), None);
    assert_eq!(Line::through(&[(1.0, 2.0), (f64::NAN, 3.0)]), None);
}
