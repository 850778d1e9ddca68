//! A time in hundredths of a second, as a stopwatch shows it.

use std::fmt;
use std::ops::{Add, Mul};
use std::str::FromStr;

use serde::{Deserialize, Serialize};

/// A duration in whole hundredths of a second, from 0.01 s to just under 24 h.
///
/// Shape: printed as `47.20`, `3:12.00`, `1:02:10.00`; [`Centis::short`] leaves
/// out what is zero: `47.2`, `3:12`. Stored as a number of hundredths, so sums
/// are exact.
///
/// ```
/// use lapwing::units::Centis;
/// let test: Centis = "3:12.4".parse().unwrap();
/// assert_eq!(test.hundredths(), 19240);
/// assert_eq!(test.to_string(), "3:12.40");
/// assert_eq!(test.short(), "3:12.4");
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(try_from = "u32", into = "u32")]
pub struct Centis(u32);

/// A number or word that is no time between 0.01 s and 24 h.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("`{0}` is no time between 0.01 s and 24 h")]
pub struct NotATime(pub String);

impl Centis {
    /// The longest time: one hundredth under 24 hours.
    pub const GREATEST: Centis = Centis(24 * 3600 * 100 - 1);

    /// A time of `hundredths` hundredths of a second.
    ///
    /// # Errors
    /// [`NotATime`] for nought and for 24 h or more.
    pub fn new(hundredths: u32) -> Result<Self, NotATime> {
        if hundredths == 0 || hundredths > Self::GREATEST.0 {
            return Err(NotATime(format!("{hundredths} hundredths")));
        }
        Ok(Self(hundredths))
    }

    /// The nearest time to `seconds`, for the one place where the maths come
    /// back to typed values.
    ///
    /// # Errors
    /// [`NotATime`] if `seconds` is not finite or rounds out of range.
    pub fn from_seconds(seconds: f64) -> Result<Self, NotATime> {
        let hundredths = (seconds * 100.0).round();
        if !(1.0..=f64::from(Self::GREATEST.0)).contains(&hundredths) {
            return Err(NotATime(format!("{seconds} s")));
        }
        // In range by the check above, so the cast is exact.
        Ok(Self(hundredths as u32))
    }

    /// A whole number of seconds as a time.
    ///
    /// # Errors
    /// [`NotATime`] for nought and for 24 h or more.
    pub fn from_whole_seconds(seconds: u32) -> Result<Self, NotATime> {
        Self::new(seconds.saturating_mul(100))
    }

    /// The number of hundredths.
    pub const fn hundredths(self) -> u32 {
        self.0
    }

    /// The time in seconds, for the maths and for JSON.
    pub fn seconds(self) -> f64 {
        f64::from(self.0) / 100.0
    }

    /// True when the time is a whole number of seconds, as read off a pace clock.
    pub const fn is_whole_seconds(self) -> bool {
        self.0.is_multiple_of(100)
    }

    /// What is left when `other` is taken off; `None` if nothing is.
    pub fn less(self, other: Centis) -> Option<Centis> {
        self.0.checked_sub(other.0).filter(|&left| left > 0).map(Centis)
    }

    /// The time to the nearest tenth, never below 0.1 s.
    #[must_use]
    pub fn to_tenth(self) -> Centis {
        Centis(((self.0 + 5) / 10 * 10).max(10))
    }

    /// The time to the nearest second, never below 1 s.
    #[must_use]
    pub fn to_second(self) -> Centis {
        Centis(((self.0 + 50) / 100 * 100).max(100))
    }

    /// The time as people write it: no hundredths that are zero.
    pub fn short(self) -> String {
        let full = self.to_string();
        match full.strip_suffix(".00") {
            Some(whole) => whole.to_owned(),
            None => full.strip_suffix('0').unwrap_or(&full).to_owned(),
        }
    }
}

impl Add for Centis {
    type Output = Centis;

    /// The sum, held at [`Centis::GREATEST`].
    fn add(self, other: Centis) -> Centis {
        Centis(self.0.saturating_add(other.0).min(Self::GREATEST.0))
    }
}

impl Mul<u32> for Centis {
    type Output = Centis;

    /// `times` of them, at least one, held at [`Centis::GREATEST`].
    fn mul(self, times: u32) -> Centis {
        Centis(self.0.saturating_mul(times.max(1)).min(Self::GREATEST.0))
    }
}

impl fmt::Display for Centis {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (all_seconds, rest) = (self.0 / 100, self.0 % 100);
        let (hours, minutes, seconds) =
            (all_seconds / 3600, all_seconds / 60 % 60, all_seconds % 60);
        match (hours, minutes) {
            (0, 0) => write!(out, "{seconds}.{rest:02}"),
            (0, _) => write!(out, "{minutes}:{seconds:02}.{rest:02}"),
            _ => write!(out, "{hours}:{minutes:02}:{seconds:02}.{rest:02}"),
        }
    }
}

impl FromStr for Centis {
    type Err = NotATime;

    /// Reads what [`fmt::Display`] and [`Centis::short`] print: `s`, `m:ss` or
    /// `h:mm:ss`, each with up to two decimals. The forgiving spellings of the
    /// poolside belong to the message grammar, not here.
    fn from_str(text: &str) -> Result<Self, NotATime> {
        let no_time = || NotATime(text.to_owned());
        let digits = |part: &str, most: usize| -> Result<u32, NotATime> {
            if part.is_empty() || part.len() > most || !part.bytes().all(|b| b.is_ascii_digit()) {
                return Err(no_time());
            }
            part.parse().map_err(|_| no_time())
        };
        let (clock, fraction) = text.split_once('.').map_or((text, None), |(c, f)| (c, Some(f)));
        let rest = match fraction {
            None => 0,
            Some(tenths) if tenths.len() == 1 => digits(tenths, 1)? * 10,
            Some(hundredths) => digits(hundredths, 2)?,
        };
        let below_sixty = |part: &str| {
            digits(part, 2).ok().filter(|&n| part.len() == 2 && n < 60).ok_or_else(no_time)
        };
        let parts: Vec<&str> = clock.split(':').collect();
        let seconds = match parts.as_slice() {
            [seconds] => digits(seconds, 5)?,
            [minutes, seconds] => digits(minutes, 4)? * 60 + below_sixty(seconds)?,
            [hours, minutes, seconds] => {
                digits(hours, 2)? * 3600 + below_sixty(minutes)? * 60 + below_sixty(seconds)?
            }
            _ => return Err(no_time()),
        };
        Self::new(seconds * 100 + rest)
    }
}

impl TryFrom<u32> for Centis {
    type Error = NotATime;

    fn try_from(hundredths: u32) -> Result<Self, NotATime> {
        Self::new(hundredths)
    }
}

impl From<Centis> for u32 {
    fn from(time: Centis) -> u32 {
        time.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn err_out_of_range() {
        for text in [
            "", "0", "0.00", "1:60", "2:75", "24:00:00", "3:1", "1:2:3:4", "3:12.123", "-3",
            "3:12.",
        ] {
            assert!(text.parse::<Centis>().is_err(), "{text}");
        }
    }

    #[test]
    fn short_leaves_out_zeros() {
        for (hundredths, short) in
            [(4700, "47"), (4720, "47.2"), (4725, "47.25"), (19200, "3:12"), (373_000, "1:02:10")]
        {
            assert_eq!(Centis::new(hundredths).unwrap().short(), short);
        }
    }

    proptest! {
        #[test]
        fn print_then_parse_is_identity(hundredths in 1u32..=Centis::GREATEST.hundredths()) {
            let time = Centis::new(hundredths).unwrap();
            prop_assert_eq!(time.to_string().parse::<Centis>().unwrap(), time);
            prop_assert_eq!(time.short().parse::<Centis>().unwrap(), time);
            prop_assert_eq!(Centis::from_seconds(time.seconds()).unwrap(), time);
        }
    }
}
