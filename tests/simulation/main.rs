//! Seasons of virtual swimmers: the rules hold, and hearing helps.

#![allow(clippy::unwrap_used, reason = "in a test the panic is the report")]

use jiff::civil::date;
use lapwing::simulation::{Plan, Swimmer, compare, season};
use lapwing::units::Course;

/// Swimmers and weeks: a hundred over a year where the code is fast.
const SIZE: (u32, u16) = if cfg!(debug_assertions) { (30, 40) } else { (100, 52) };

#[test]
fn hearing_helps_and_no_rule_breaks() {
    let (swimmers, weeks) = SIZE;
    let found = compare(swimmers, weeks, 7, date(2026, 1, 5));
    println!("{found}");
    assert_eq!(found.adaptive.broken.total(), 0, "{found}");
    assert!(found.adaptive.gain_percent > 0.0, "{found}");
    assert!(found.adaptive.gain_percent > found.fixed.gain_percent, "{found}");
}

#[test]
fn the_same_seed_is_the_same_season() {
    let run = |seed| {
        let swimmer = Swimmer::drawn("teal", Course::Short25m, seed);
        season(swimmer, date(2026, 1, 5), 12, Plan::Adaptive)
    };
    assert_eq!(run(3), run(3));
    assert_ne!(run(3).texts, run(4).texts);
    for dated in run(3).texts.iter().take(40) {
        println!("{} {}", dated.on, dated.report);
    }
}
