//! The five levels of effort, from easy to sprint.

use serde::{Deserialize, Serialize};
use strum::{Display, IntoStaticStr, VariantArray};

use super::every;

/// How hard a repeat is meant to be. JSON and texts use the number, 1 to 5.
///
/// The five-level ladder follows the lactate levels of Mujika et al. 1995, as
/// quoted by Chatard & Mujika; the words are the trade's own. Pace bands
/// relative to critical speed live in `swim::levels`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[derive(Display, IntoStaticStr, VariantArray)]
#[serde(try_from = "u8", into = "u8")]
#[strum(serialize_all = "snake_case")]
pub enum Level {
    /// 1: warm-up, swim-down, recovery.
    Easy,
    /// 2: steady swimming, conversation at the wall.
    Steady,
    /// 3: threshold, the fastest that settles.
    Threshold,
    /// 4: hard aerobic, above what settles.
    Hard,
    /// 5: race pace and sprint.
    Sprint,
}

impl Level {
    /// Every level, easiest first.
    pub const ALL: [Level; Level::VARIANTS.len()] = every(Level::VARIANTS);

    /// Its number, 1 to 5.
    pub const fn number(self) -> u8 {
        match self {
            Level::Easy => 1,
            Level::Steady => 2,
            Level::Threshold => 3,
            Level::Hard => 4,
            Level::Sprint => 5,
        }
    }

    /// The level with that number.
    pub fn from_number(number: u8) -> Option<Level> {
        Level::ALL.into_iter().find(|level| level.number() == number)
    }

    /// True for the levels that count as hard work: threshold and above.
    pub const fn is_hard(self) -> bool {
        self.number() >= 3
    }

    /// The trade's English word.
    pub fn name(self) -> &'static str {
        self.into()
    }
}

impl TryFrom<u8> for Level {
    type Error = String;

    fn try_from(number: u8) -> Result<Self, String> {
        Level::from_number(number).ok_or_else(|| format!("level {number} is not 1 to 5"))
    }
}

impl From<Level> for u8 {
    fn from(level: Level) -> u8 {
        level.number()
    }
}
