//! Levels as paces: percentages of speed, not of pace.

use lapwing::swim::levels::{Band, at_percent, percent_of};
use lapwing::units::{Level, Pace, Unit};

use crate::support::{metres, near, time};

fn critical() -> Pace {
    Pace::new(85.0, Unit::Metre).unwrap()
}

/// `pace = 100/(percent * speed)` at 1:25 per 100, worked in double precision.
#[test]
fn percent_multiplies_speed() {
    for (percent, per_100) in [
        (85.0, "1:40.00"),
        (90.0, "1:34.44"),
        (95.0, "1:29.47"),
        (98.0, "1:26.73"),
        (102.0, "1:23.33"),
        (105.0, "1:20.95"),
        (110.0, "1:17.27"),
    ] {
        let pace = at_percent(critical(), percent);
        assert_eq!(pace.per_100().unwrap().to_string(), per_100);
        near(percent_of(pace, critical()), percent, 1e-9);
    }
    for (level, slow, fast) in [
        (Level::Easy, "1:46.25", "1:36.59"),
        (Level::Steady, "1:36.59", "1:29.47"),
        (Level::Threshold, "1:29.47", "1:25.00"),
        (Level::Hard, "1:25.00", "1:20.95"),
    ] {
        let times = Band::of(level).times(critical(), metres("100")).unwrap();
        assert_eq!((times.0.to_string(), times.1.to_string()), (slow.into(), fast.into()));
    }
}

/// 50s in 48 at a critical speed of 1:44.2 are 108.5 % of it: race pace, not
/// threshold.
#[test]
fn a_pace_has_one_level() {
    let critical = Pace::new(104.2, Unit::Metre).unwrap();
    let fifties = Pace::of(metres("50"), time("48"));
    near(percent_of(fifties, critical), 108.5, 0.05);
    assert_eq!(Band::holding(fifties, critical).level, Level::Sprint);
    for level in Level::ALL {
        let band = Band::of(level);
        assert_eq!(band.level, level);
        let middle = at_percent(critical, (band.slow_percent + band.fast_percent) / 2.0);
        assert_eq!(Band::holding(middle, critical).level, level);
    }
    assert_eq!(Band::holding(critical, critical).level, Level::Threshold);
    let rounded = Pace::of(metres("50"), critical.time_for(metres("50")).unwrap());
    assert_eq!(Band::holding(rounded, critical).level, Level::Threshold);
    let crawl = Pace::new(300.0, Unit::Metre).unwrap();
    assert_eq!(Band::holding(crawl, critical).level, Level::Easy);
}

/// Common practice, no source: threshold 100s at 1:39 on 1:55, 50s with 10 s.
#[test]
fn send_offs() {
    let threshold = Band::of(Level::Threshold);
    assert_eq!(threshold.send_off(metres("100"), time("1:39")).seconds(), 115);
    assert_eq!(threshold.send_off(metres("100"), time("1:25")).seconds(), 100);
    assert_eq!(threshold.send_off(metres("50"), time("42.5")).seconds(), 55);
    assert_eq!(threshold.send_off(metres("200"), time("2:50")).seconds(), 200);
    let sprint = Band::of(Level::Sprint);
    assert_eq!(sprint.send_off(metres("25"), time("16")).seconds(), 50);
}

/// Bands meet without a gap, and each asks at least as much rest as the last
/// but one: no level is out of order.
#[test]
fn the_ladder_has_no_gap() {
    for pair in Level::ALL.windows(2) {
        let (lower, upper) = (Band::of(pair[0]), Band::of(pair[1]));
        near(lower.fast_percent, upper.slow_percent, 0.0);
        if let (Some(below), Some(above)) = (lower.dose_min, upper.dose_min) {
            assert!(above.0 < below.0 && above.1 < below.1, "harder work, smaller dose");
        }
    }
}
