//! The one clock, handed in at the rim.
//!
//! Nothing below the shell reads the time of day; a test or a replay hands in
//! its own. Whoever waits asks how much time has passed, which no hand on the
//! clock changes.

use std::sync::OnceLock;
use std::time::{Duration, Instant};

use jiff::Timestamp;

/// Tells the instant it is, and how time passes.
pub trait Clock: Send + Sync + 'static {
    /// Now, by the time of day: it may be set forward and back.
    fn now(&self) -> Timestamp;

    /// How much time has passed since some instant that stays the same while we
    /// run: it goes evenly, whatever is done to the time of day.
    fn passed(&self) -> Duration {
        static BEGUN: OnceLock<Instant> = OnceLock::new();
        BEGUN.get_or_init(Instant::now).elapsed()
    }
}

/// The machine's own clock.
#[derive(Debug, Clone, Copy, Default)]
pub struct WallClock;

impl Clock for WallClock {
    fn now(&self) -> Timestamp {
        Timestamp::now()
    }
}

/// What counts as now for all that a message causes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum ClockMode {
    /// The time of arrival.
    #[default]
    Wall,
    /// The message's own `sent_at`, where it has one.
    Message,
}

impl std::str::FromStr for ClockMode {
    type Err = String;

    fn from_str(word: &str) -> Result<Self, String> {
        match word {
            "wall" => Ok(ClockMode::Wall),
            "message" => Ok(ClockMode::Message),
            other => Err(format!("`{other}` is neither `wall` nor `message`")),
        }
    }
}
