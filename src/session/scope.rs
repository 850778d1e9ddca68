//! Which part of a set that is being swum is meant.

use serde::{Deserialize, Serialize};

/// Which part of a set a change is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Scope {
    /// The line that is being swum, or the main one.
    Main,
    /// The last so many repeats of it.
    LastRepeats(u16),
    /// From this repeat of it on, counted from 1.
    FromRepeat(u16),
    /// Its odd repeats.
    Odd,
    /// Its even repeats.
    Even,
    /// Its line with this number, counted from 1 over all of it.
    Line(u16),
    /// The swim-down.
    SwimDown,
    /// The warm-up.
    WarmUp,
    /// All that is to come but the swim-down.
    Rest,
}
