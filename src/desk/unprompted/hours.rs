//! The hours of a squad's day in which something may be said unasked. Danger
//! and pain are no such thing, and keep no hours.

use jiff::civil::{Time, time};

/// Nothing is said unasked from here on … (ours, as for minors.)
pub const QUIET: Time = time(20, 0, 0, 0);
/// … until here, the next morning.
pub const MORNING: Time = time(8, 0, 0, 0);

/// True while nothing is said unasked.
pub fn is_quiet(local: Time) -> bool {
    local < MORNING || local >= QUIET
}
