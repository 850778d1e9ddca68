//! The main sets that a purpose allows: every size worth weighing.

mod easy;
mod set;
mod test;
mod timed;

pub(super) use easy::before_main;
pub(super) use set::MainSet;
pub(super) use timed::STEADY_PERCENT;

use super::Setting;
use crate::session::Purpose;

/// Every main set for the purpose, in no order of merit; empty where the
/// swimmer's paces don't allow the purpose.
pub(super) fn options(setting: &Setting<'_>) -> Vec<MainSet> {
    if setting.bound {
        return timed::bound(setting);
    }
    match setting.purpose {
        Purpose::Endurance => timed::endurance(setting),
        Purpose::PaceHolding => timed::pace_holding(setting),
        // It has no main set but the race.
        Purpose::Race => Vec::new(),
        Purpose::RaceRehearsal => timed::race_rehearsal(setting),
        Purpose::Return => easy::easy_swims(setting),
        Purpose::Speed => timed::speed(setting),
        Purpose::Technique => easy::technique(setting),
        Purpose::Test => test::test(setting),
        Purpose::Threshold => timed::threshold(setting),
    }
}
