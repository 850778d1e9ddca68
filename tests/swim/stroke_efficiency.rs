//! Stroke length and rate, worked by hand.

use lapwing::swim::stroke_efficiency::StrokeEfficiency;
use lapwing::units::Speed;

use crate::support::{metres, near, time};

#[test]
fn fifty_in_forty_strokes() {
    let found = StrokeEfficiency::of(metres("50"), time("48.4"), 40).unwrap();
    near(found.distance_per_stroke, 1.25, 1e-12);
    near(found.strokes_per_minute, 49.586777, 5e-7);
    assert_eq!(found.time_plus_strokes, 88);
    assert_eq!(StrokeEfficiency::of(metres("50"), time("48.4"), 0), None);
}

/// Speed is length times rate.
#[test]
fn length_times_rate_is_speed() {
    let (distance, swum) = (metres("200"), time("3:12"));
    let found = StrokeEfficiency::of(distance, swum, 176).unwrap();
    let speed = found.distance_per_stroke * found.strokes_per_minute / 60.0;
    near(speed, Speed::of(distance, swum).per_second(), 1e-12);
}
