//! How far a stroke carries: counts beside times.
//!
//! Knows one repeat; whether fewer strokes are better depends on the pace.

use crate::units::{Centis, Distance};

/// A repeat with its stroke count.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StrokeEfficiency {
    /// Units of the course for each stroke, the push-off included.
    pub distance_per_stroke: f64,
    /// Strokes a minute.
    pub strokes_per_minute: f64,
    /// Whole seconds and strokes added: lower is better at one distance, for
    /// one swimmer, in one pool.
    pub time_plus_strokes: u32,
}

impl StrokeEfficiency {
    /// From a count over a whole repeat: speed is the product of rate and
    /// length (Craig & Pendergast 1979, Med Sci Sports 11:278-283; from
    /// memory). `None` without strokes.
    pub fn of(distance: Distance, time: Centis, strokes: u32) -> Option<Self> {
        if strokes == 0 {
            return None;
        }
        Some(Self {
            distance_per_stroke: f64::from(distance.amount()) / f64::from(strokes),
            strokes_per_minute: 60.0 * f64::from(strokes) / time.seconds(),
            time_plus_strokes: (time.to_second().hundredths() / 100).saturating_add(strokes),
        })
    }
}
