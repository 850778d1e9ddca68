//! The test night that is called.
//!
//! Knows the night and the distance; not who swims it, nor in which heat.

use jiff::Timestamp;

use super::{Kept, Squad};
use crate::units::Distance;

/// How many calls a squad keeps.
pub(super) const TEST_NIGHTS_KEPT: usize = 16;

impl Squad {
    /// The test night called last, as known at `now`.
    pub fn test_night_called(&self, now: Timestamp) -> Option<&Kept<Distance>> {
        self.test_nights.as_of(now).max_by_key(|kept| kept.cause)
    }
}
