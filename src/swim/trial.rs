//! A timed swim, as far as the maths need to know it.

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use crate::units::{Centis, Course, Distance, Speed, Stroke};

/// A swim over a whole distance at full effort, in training or at a meet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Trial {
    /// How far, in the unit of `course`.
    pub distance: Distance,
    /// How long it took.
    pub time: Centis,
    /// The stroke, or what stood in its place.
    pub stroke: Stroke,
    /// Where it was swum.
    pub course: Course,
    /// The local date.
    pub on: Date,
    /// True for a race at a meet, which varies less from one to the next.
    pub meet: bool,
}

impl Trial {
    /// True of two over the same distance, in the same stroke and pool.
    pub fn is_like(&self, other: &Trial) -> bool {
        (self.distance, self.stroke, self.course) == (other.distance, other.stroke, other.course)
    }

    /// The mean speed, in units of the course a second.
    pub fn speed(&self) -> Speed {
        Speed::of(self.distance, self.time)
    }

    /// The typical error of its time, as a fraction of it: 0.014 at a meet,
    /// 0.02 in training.
    ///
    /// Sources: Stewart & Hopkins 2000, Med Sci Sports Exerc 32:997-1001 (same
    /// event at two meets: 1.4 %); Scott, Burden & Dekerle 2023, J Hum Kinet
    /// 90:239-251 (training trials of 200 m and 400 m: below 2 %).
    pub const fn typical_error(&self) -> f64 {
        if self.meet { 0.014 } else { 0.02 }
    }

    /// Whole days from this trial to `day`; negative if it lies ahead.
    pub fn days_before(&self, day: Date) -> i64 {
        // Asked of every result again and again: a span of days costs ten times as much.
        day.duration_since(self.on).as_hours() / 24
    }
}
