//! The five levels as paces, rests and doses around critical speed.
//!
//! A table and its arithmetic; which level a day wants is decided elsewhere.
//! The percentages multiply *speed*, so they divide pace: 95 % of the speed of
//! 1:25.00 is 1:29.47, not 1:29.25.

use crate::units::{Centis, Distance, Level, Pace, SendOff};

/// What a level means for a swimmer of known critical speed.
///
/// Ours; common practice, no source for the single numbers. The order agrees
/// with what is published: lactate falls at 98 % of critical speed, is steady
/// at 100 and rises at 102 (Wakayoshi et al. 1993, Eur J Appl Physiol
/// 66:90-95); the greatest steady state lies near 95 % (Dekerle et al. 2005).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band {
    /// The level.
    pub level: Level,
    /// Slow edge, percent of critical speed.
    pub slow_percent: f64,
    /// Fast edge, percent of critical speed. For [`Level::Sprint`] a bound for
    /// sanity only: its pace comes from the race, see
    /// [`even_pace`](super::even_pace).
    pub fast_percent: f64,
    /// Rest between repeats.
    pub rest: Rest,
    /// Usual length of a repeat, shortest and longest, in units of the course.
    pub repeat: (u32, u32),
    /// Minutes of swimming at this level in a session, least and most; `None`
    /// where no limit is set. In minutes, not metres, since 2000 m is 28 min
    /// for one swimmer and 49 for another.
    pub dose_min: Option<(u32, u32)>,
}

/// How rest is counted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Rest {
    /// Seconds for each 100 swum, least and most.
    Per100 {
        /// Least, seconds.
        least_s: f64,
        /// Most, seconds.
        most_s: f64,
    },
    /// Times the swim, least and most.
    TimesSwim {
        /// Least, as a multiple of the time swum.
        least: f64,
        /// Most, as a multiple of the time swum.
        most: f64,
    },
}

/// Seconds of rest, least and most.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct RestRange {
    /// For a trained swimmer.
    pub least_s: u32,
    /// For a returner, or on a bad day.
    pub most_s: u32,
}

const BANDS: [Band; 5] = [
    Band {
        level: Level::Easy,
        slow_percent: 80.0,
        fast_percent: 88.0,
        rest: Rest::Per100 { least_s: 10.0, most_s: 20.0 },
        repeat: (25, 400),
        dose_min: None,
    },
    Band {
        level: Level::Steady,
        slow_percent: 88.0,
        fast_percent: 95.0,
        rest: Rest::Per100 { least_s: 10.0, most_s: 15.0 },
        repeat: (100, 800),
        dose_min: Some((15, 40)),
    },
    Band {
        level: Level::Threshold,
        slow_percent: 95.0,
        fast_percent: 100.0,
        rest: Rest::Per100 { least_s: 10.0, most_s: 20.0 },
        repeat: (50, 400),
        dose_min: Some((12, 25)),
    },
    Band {
        level: Level::Hard,
        slow_percent: 100.0,
        fast_percent: 105.0,
        rest: Rest::Per100 { least_s: 20.0, most_s: 40.0 },
        repeat: (50, 200),
        dose_min: Some((6, 14)),
    },
    Band {
        level: Level::Sprint,
        slow_percent: 105.0,
        fast_percent: 150.0,
        rest: Rest::TimesSwim { least: 1.0, most: 6.0 },
        repeat: (25, 100),
        dose_min: Some((3, 8)),
    },
];

impl Band {
    /// The row of `level`.
    pub const fn of(level: Level) -> Band {
        let [easy, steady, threshold, hard, sprint] = BANDS;
        match level {
            Level::Easy => easy,
            Level::Steady => steady,
            Level::Threshold => threshold,
            Level::Hard => hard,
            Level::Sprint => sprint,
        }
    }

    /// The level whose band holds `pace`, for a swimmer whose critical speed is
    /// the pace `critical`; an edge belongs to the easier level, so critical
    /// speed itself is threshold. Slower than easy counts as easy, faster than
    /// sprint as sprint.
    pub fn holding(pace: Pace, critical: Pace) -> Band {
        // To the tenth, so that a target rounded to the hundredth keeps its level.
        let percent = (percent_of(pace, critical) * 10.0).round() / 10.0;
        BANDS.into_iter().find(|band| percent <= band.fast_percent).unwrap_or(BANDS[4])
    }

    /// The paces of the level, slow edge first: `100/(percent * speed)`.
    pub fn paces(&self, critical: Pace) -> (Pace, Pace) {
        (at_percent(critical, self.slow_percent), at_percent(critical, self.fast_percent))
    }

    /// The times for `distance` at this level, slow edge first.
    pub fn times(&self, critical: Pace, distance: Distance) -> Option<(Centis, Centis)> {
        let (slow, fast) = self.paces(critical);
        Some((slow.time_for(distance)?, fast.time_for(distance)?))
    }

    /// The rest after a repeat of `distance` swum in `target`: never under 10 s
    /// (5 s after a 25), and where it goes by distance never over a minute.
    pub fn rest_after(&self, distance: Distance, target: Centis) -> RestRange {
        let floor = super::even_pace::least_rest_s(distance);
        let whole = |seconds: f64| seconds.ceil() as u32;
        match self.rest {
            Rest::Per100 { least_s, most_s } => {
                let hundreds = f64::from(distance.amount()) / 100.0;
                let rest = |per_100: f64| whole((per_100 * hundreds).clamp(floor, 60.0));
                RestRange { least_s: rest(least_s), most_s: rest(most_s) }
            }
            Rest::TimesSwim { least, most } => {
                let rest = |times: f64| whole((target.seconds() * times).max(floor));
                RestRange { least_s: rest(least), most_s: rest(most) }
            }
        }
    }

    /// The usual send-off for a repeat of `distance` in `target`: the middle of
    /// the level's rest (twice the swim at sprint), up to the next 5 s.
    pub fn send_off(&self, distance: Distance, target: Centis) -> SendOff {
        let range = self.rest_after(distance, target);
        let rest_s = match self.rest {
            Rest::Per100 { .. } => (range.least_s + range.most_s).div_ceil(2),
            Rest::TimesSwim { .. } => range.least_s.saturating_mul(2),
        };
        SendOff::after(target, rest_s)
    }
}

/// The pace that is `percent` of the speed of `critical`.
pub fn at_percent(critical: Pace, percent: f64) -> Pace {
    // A pace is finite and above zero, and so is a table's percentage.
    critical.speed().scaled(percent / 100.0).map_or(critical, |speed| speed.pace())
}

/// How fast `pace` is, in percent of the speed of `critical`.
pub fn percent_of(pace: Pace, critical: Pace) -> f64 {
    100.0 * pace.speed().metres_per_second() / critical.speed().metres_per_second()
}
