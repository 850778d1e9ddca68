//! The send-off: leave every so many seconds, read off a pace clock.

use std::fmt;

use serde::{Deserialize, Serialize};

use super::Centis;

/// A send-off in whole seconds, from 5 s to 1 h. Those we set are multiples of
/// five, which a pace clock shows; those a coach texts may be any.
///
/// Shape: `:55`, `1:15`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(try_from = "u32", into = "u32")]
pub struct SendOff(u32);

/// A number of seconds that is no send-off.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{0} s is no send-off between 5 s and 1 h")]
pub struct NotASendOff(pub u32);

impl SendOff {
    /// An hour.
    pub const LONGEST: SendOff = SendOff(3600);

    /// A send-off of `seconds`.
    ///
    /// # Errors
    /// [`NotASendOff`] outside 5 to 3600.
    pub fn new(seconds: u32) -> Result<Self, NotASendOff> {
        if (5..=3600).contains(&seconds) { Ok(Self(seconds)) } else { Err(NotASendOff(seconds)) }
    }

    /// The first multiple of five seconds that leaves at least `rest_s` after a
    /// swim of `target`: `ceil5(target + rest)` (common practice, no source),
    /// held within 5 s to 1 h.
    pub fn after(target: Centis, rest_s: u32) -> Self {
        let hundredths = target.hundredths().saturating_add(rest_s.saturating_mul(100));
        Self((hundredths.div_ceil(500) * 5).clamp(5, 3600))
    }

    /// Seconds between one start and the next.
    pub const fn seconds(self) -> u32 {
        self.0
    }

    /// The send-off as a time.
    pub fn time(self) -> Centis {
        // 5 to 3600 s by construction, so always a time; the fallback is never met.
        Centis::from_whole_seconds(self.0).unwrap_or(Centis::GREATEST)
    }

    /// What is left to rest after a swim of `target`; `None` if it can't be made.
    pub fn rest_after(self, target: Centis) -> Option<Centis> {
        self.time().less(target)
    }
}

impl fmt::Display for SendOff {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (self.0 / 60, self.0 % 60) {
            (0, seconds) => write!(out, ":{seconds:02}"),
            (minutes, seconds) => write!(out, "{minutes}:{seconds:02}"),
        }
    }
}

impl TryFrom<u32> for SendOff {
    type Error = NotASendOff;

    fn try_from(seconds: u32) -> Result<Self, NotASendOff> {
        Self::new(seconds)
    }
}

impl From<SendOff> for u32 {
    fn from(send_off: SendOff) -> u32 {
        send_off.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Common practice, no source: up to the next five seconds of a pace clock.
    /// The five worked cases are at 1:25 per 100.
    #[test]
    fn rounds_up_to_the_next_five() {
        for (target, rest, send_off) in [
            (4250, 10, 55),
            (8500, 15, 100),
            (17000, 30, 200),
            (34000, 60, 400),
            (17000, 15, 185),
            (4800, 25, 75),
        ] {
            let target = Centis::new(target).unwrap();
            assert_eq!(SendOff::after(target, rest).seconds(), send_off);
        }
    }
}
