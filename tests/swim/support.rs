//! Short ways to write swims, and a comparison that names both numbers.

use jiff::civil::Date;
use lapwing::swim::Trial;
use lapwing::units::{Centis, Course, Distance, Stroke};

pub fn time(text: &str) -> Centis {
    text.parse().unwrap()
}

pub fn times(text: &str) -> Vec<Option<Centis>> {
    text.split_whitespace().map(|word| word.parse().ok()).collect()
}

pub fn metres(text: &str) -> Distance {
    format!("{text}m").parse().unwrap()
}

pub fn day(text: &str) -> Date {
    text.parse().unwrap()
}

/// A freestyle trial in a 25 m pool, swum in training.
pub fn trial(distance: &str, time_text: &str, on: &str) -> Trial {
    Trial {
        distance: metres(distance),
        time: time(time_text),
        stroke: Stroke::Free,
        course: Course::Short25m,
        on: day(on),
        meet: false,
    }
}

/// Asserts that `found` is `wanted` within `tolerance`.
#[track_caller]
pub fn near(found: f64, wanted: f64, tolerance: f64) {
    assert!((found - wanted).abs() <= tolerance, "found {found}, wanted {wanted}");
}

/// Asserts that `found` agrees with `wanted` to `digits` significant digits.
#[track_caller]
pub fn digits(found: f64, wanted: f64, digits: i32) {
    let relative = ((found - wanted) / wanted).abs();
    assert!(relative < 0.5 * 10f64.powi(1 - digits), "found {found}, wanted {wanted}");
}
