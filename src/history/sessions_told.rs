//! What a swimmer was told to swim, day by day.
//!
//! Knows what was said; not what came up since and speaks against it.

use jiff::Timestamp;

use super::{Kept, Swimmer};
use crate::session::Session;

impl Swimmer {
    /// The sessions that were last told, one a day, by day: those of the last plan,
    /// and the one suggested since, which is then the first. Days that are over are
    /// among them.
    pub fn told(&self, now: Timestamp) -> Vec<&Kept<Session>> {
        self.told_before(u64::MAX, now)
    }

    /// [`told`](Swimmer::told) as it was when message `cause` came.
    pub fn told_before(&self, cause: u64, now: Timestamp) -> Vec<&Kept<Session>> {
        let weeks = self.weeks.as_of(now).filter(|kept| kept.cause < cause);
        let plan = weeks.max_by_key(|kept| kept.cause).map(|kept| kept.cause);
        let planned = plan.into_iter().flat_map(|cause| self.planned.of_cause(cause));
        let suggested = self.suggested.as_of(now).filter(|kept| kept.cause < cause);
        let suggested = suggested.max_by_key(|kept| kept.cause);
        let suggested = suggested.filter(|kept| plan.is_none_or(|plan| kept.cause > plan));
        // The one suggested since is the next: nothing planned comes before it.
        let planned = planned.filter(|kept| suggested.is_none_or(|next| kept.on > next.on));
        let mut told: Vec<&Kept<Session>> = planned.chain(suggested).collect();
        told.sort_by_key(|kept| kept.on);
        told
    }
}
