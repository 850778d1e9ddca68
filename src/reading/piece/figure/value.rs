//! What a figure may mean: a number, and every time that it can be.

use crate::units::Centis;

/// A figure without a unit of distance.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Figure {
    /// `312`, `48`, `forty eight`
    Whole {
        /// Its value.
        value: u32,
        /// How many digits were typed; none where it was said in words.
        places: u8,
    },
    /// `3:12.4`, `3'12`, `3m12s`, `three oh nine`, `1:02:10`
    Clock(Clock),
    /// `3.12`, `47.2`, `3,12`: minutes and seconds, or seconds and their parts.
    Parted {
        /// Before the mark.
        whole: u32,
        /// The digits behind it.
        parts: u32,
        /// How many.
        places: u8,
        /// The mark was a comma.
        comma: bool,
    },
}

/// A time whose minutes and seconds are told apart.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Clock {
    /// Its length.
    pub time: Centis,
    /// Hundredths or tenths were given.
    pub tenths: bool,
    /// It can be a time of day: two or four digits about a colon or a point.
    pub day_time: Option<(u8, u8)>,
}

/// The times that a figure may be, the likeliest first: two at most.
#[derive(Debug, Clone, Copy)]
pub struct Times {
    all: [Centis; 2],
    count: usize,
}

impl Times {
    /// Those of two that there are, each once.
    fn of(several: [Option<Centis>; 2]) -> Self {
        let mut times = Times { all: [Centis::GREATEST; 2], count: 0 };
        for time in several.into_iter().flatten() {
            if !times.contains(&time)
                && let Some(next) = times.all.get_mut(times.count)
            {
                *next = time;
                times.count += 1;
            }
        }
        times
    }
}

impl std::ops::Deref for Times {
    type Target = [Centis];

    fn deref(&self) -> &[Centis] {
        self.all.get(..self.count).unwrap_or_default()
    }
}

impl IntoIterator for Times {
    type Item = Centis;
    type IntoIter = std::iter::Take<std::array::IntoIter<Centis, 2>>;

    fn into_iter(self) -> Self::IntoIter {
        self.all.into_iter().take(self.count)
    }
}

impl Figure {
    /// A time that is no figure's: `3 mins`.
    pub const fn of_time(time: Centis) -> Self {
        Figure::Clock(Clock { time, tenths: false, day_time: None })
    }

    /// Every time that it may be, the likeliest first.
    pub fn times(self) -> Times {
        let centis = |hundredths: u32| Centis::new(hundredths).ok();
        let clock = |minutes: u32, seconds: u32, parts: u32| {
            (seconds < 60).then(|| centis((minutes * 60 + seconds) * 100 + parts)).flatten()
        };
        Times::of(match self {
            Figure::Clock(clock) => [Some(clock.time), None],
            Figure::Whole { value, .. } if value < 100 => [centis(value * 100), None],
            Figure::Whole { value, .. } if value < 10_000 => {
                [clock(value / 100, value % 100, 0), centis(value * 100)]
            }
            Figure::Whole { value, .. } => [
                clock(value / 10_000 * 60 + value / 100 % 100, value % 100, 0)
                    .filter(|_| value / 100 % 100 < 60),
                None,
            ],
            // `242.3`: minutes and seconds run together, and tenths.
            Figure::Parted { whole: whole @ 100..=9_959, parts, places, .. } => {
                let parts = if places == 1 { parts * 10 } else { parts };
                [clock(whole / 100, whole % 100, parts), centis(whole * 100 + parts)]
            }
            Figure::Parted { whole, parts, places, .. } => {
                let seconds = centis(whole * 100 + if places == 1 { parts * 10 } else { parts });
                match places {
                    // `27 y medio`, `27.5` of a 1500: half a minute.
                    1 if parts == 5 && whole >= 13 => [seconds, clock(whole, 30, 0)],
                    1 => [seconds, clock(whole, parts * 10, 0)],
                    _ if parts < 60 && whole < 60 => [clock(whole, parts, 0), seconds],
                    _ => [seconds, None],
                }
            }
        })
    }

    /// The number, where it is a whole one.
    pub fn whole(self) -> Option<u32> {
        match self {
            Figure::Whole { value, .. } => Some(value),
            _ => None,
        }
    }

    /// True where tenths of a second were given, as far as it is seconds.
    pub fn has_tenths(self) -> bool {
        match self {
            Figure::Whole { .. } => false,
            Figure::Clock(clock) => clock.tenths,
            Figure::Parted { places, .. } => places == 1,
        }
    }

    /// The same and half a second more, where that makes sense.
    pub fn and_half(self) -> Option<Figure> {
        match self {
            Figure::Clock(clock) if !clock.tenths => Some(Figure::Clock(Clock {
                time: Centis::new(clock.time.hundredths() + 50).ok()?,
                tenths: true,
                day_time: None,
            })),
            Figure::Whole { value: whole @ 13..=99, .. } => {
                Some(Figure::Parted { whole, parts: 5, places: 1, comma: false })
            }
            Figure::Parted { whole, parts, places: 2, .. } if parts < 60 => {
                Some(Figure::Clock(Clock {
                    time: Centis::new((whole * 60 + parts) * 100 + 50).ok()?,
                    tenths: true,
                    day_time: None,
                }))
            }
            _ => None,
        }
    }

    /// True for a figure that says itself that it is a time.
    pub fn is_marked(self) -> bool {
        matches!(self, Figure::Clock(_))
    }

    /// The time of day that it may be, on a clock of twelve or 24 hours.
    pub fn day_time(self) -> Option<(u8, u8)> {
        let of = |hour: u32, minute: u32| {
            (hour < 24 && minute < 60)
                .then_some((u8::try_from(hour).ok()?, u8::try_from(minute).ok()?))
        };
        match self {
            Figure::Clock(clock) => clock.day_time,
            Figure::Whole { value, .. } if (1..=24).contains(&value) => of(value % 24, 0),
            Figure::Whole { value, places: 3 | 4 } => of(value / 100, value % 100),
            Figure::Whole { .. } => None,
            Figure::Parted { whole, parts, places: 2, .. } => of(whole, parts),
            Figure::Parted { .. } => None,
        }
    }
}
