//! Those who swim in a lane, as far as its times need them.

use super::lane::Lane;
use crate::coaching::Facts;
use crate::coaching::lanes::Gap;
use crate::units::Course;

/// A lane's swimmers, its pool and its gap.
#[derive(Debug, Clone, Copy)]
pub struct Swims<'a> {
    /// What is known of each; of nobody where it is not known who swims.
    pub swimmers: &'a [&'a Facts],
    /// The pool.
    pub course: Course,
    /// Between two who leave behind each other.
    pub gap: Gap,
}

impl Swims<'_> {
    /// Their paces; `None` for an empty lane.
    pub(super) fn lane(&self) -> Option<Lane> {
        Lane::of(self.swimmers, self.course, self.gap)
    }
}
