//! What a lane costs its swimmers, in waiting and in crowding.
//!
//! Knows paces as whole hundredths per 100; see the model in [`super`].

use std::ops::Add;

/// What a split costs: whole numbers, 250,000 for one swimmer who is 1 s per 100
/// faster than their lane goes (25 for a hundredth squared).
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Cost(u64);

impl Cost {
    /// What sharing a lane costs each pair: as much as one swimmer 3 s per 100
    /// off the lane's pace.
    pub const PAIR: Cost = Cost(25 * 300 * 300);

    /// More than any split costs.
    pub(super) const BEYOND: Cost = Cost(u64::MAX);

    /// The number.
    pub const fn units(self) -> u64 {
        self.0
    }

    /// What swimmer at `own` pays in a lane whose slowest is at `slowest`, both
    /// in hundredths of a second per 100, `own` the faster.
    pub(super) fn of_waiting(own: u32, slowest: u32) -> Cost {
        let (own, slowest) = (u64::from(own), u64::from(slowest));
        let wait = slowest.saturating_sub(own);
        // Ten times what is over 10 %: 25 x 4 x (x / 10)^2 = x^2.
        let over = (10 * slowest).saturating_sub(11 * own);
        Cost(25 * wait * wait + over * over)
    }

    /// What `swimmers` in one lane pay for each other's company: as pairs, and
    /// for send-offs that are `stretch_s` seconds longer to leave room for all.
    pub(super) fn of_company(swimmers: usize, stretch_s: u32) -> Cost {
        let swimmers = swimmers as u64;
        let pairs = swimmers * swimmers.saturating_sub(1) / 2;
        let half_stretch = u64::from(stretch_s) * 50;
        Cost(Self::PAIR.0 * pairs + 25 * swimmers * half_stretch * half_stretch)
    }

    /// A tenth more, or a pair more where that is greater: costs no further apart
    /// are nearly the same (ours).
    pub(super) fn and_a_tenth(self) -> Cost {
        self + Cost(self.0 / 10).max(Cost::PAIR)
    }
}

impl Add for Cost {
    type Output = Cost;

    fn add(self, other: Cost) -> Cost {
        Cost(self.0.saturating_add(other.0))
    }
}
