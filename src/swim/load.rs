//! Training load from how hard a session felt and how long it was.
//!
//! Describes; sets no limits.

use crate::units::{Centis, Rpe};

/// A load in arbitrary units, nought or more: the rating of a session times
/// its minutes (Foster et al. 2001, J Strength Cond Res 15(1):109-115).
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Load(f64);

impl Load {
    /// No training: what a day of rest counts as.
    pub const REST: Load = Load(0.0);

    /// The load of a session of `duration` rated `rpe`.
    pub fn of(rpe: Rpe, duration: Centis) -> Load {
        Load(rpe.value() * duration.seconds() / 60.0)
    }

    /// The number of units.
    pub const fn units(self) -> f64 {
        self.0
    }
}

impl std::iter::Sum for Load {
    fn sum<I: Iterator<Item = Load>>(loads: I) -> Load {
        Load(loads.map(|load| load.0).sum())
    }
}
