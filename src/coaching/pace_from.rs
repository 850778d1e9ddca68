//! What the time to hold of a main set is taken from.

use super::Facts;
use super::paces::Paces;
use super::season::rehearsed;
use crate::session::{Purpose, Repeat, Session};
use crate::swim::Trial;
use crate::swim::levels::percent_of;
use crate::units::{Centis, Distance, Pace};

/// Where a time to hold comes from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PaceFrom {
    /// The coach set it.
    Coach,
    /// A share of critical speed, in percent.
    CriticalSpeed {
        /// How many percent.
        percent: f64,
        /// Critical speed.
        critical: Pace,
    },
    /// The even pace of a race to come.
    Race {
        /// How far.
        distance: Distance,
        /// In what time.
        time: Centis,
    },
    /// The even pace of a test, as from a push.
    Test(Trial),
}

/// The line of a session's main set that it is for: the hardest, with a time to hold.
pub fn main_line(session: &Session) -> Option<&Repeat> {
    let lines = session.main().flat_map(|block| &block.repeats);
    lines.filter(|line| line.level.is_hard() && line.target.is_some()).max_by_key(|line| line.level)
}

/// What the time to hold of `set` is taken from in a session for `purpose`; none where
/// nothing that is known gives it.
pub fn pace_from(facts: &Facts, purpose: Purpose, set: &Repeat) -> Option<PaceFrom> {
    let paces = Paces::of(facts, facts.course);
    let target = set.target.filter(|_| set.stroke == paces.stroke)?;
    if paces.is_by_coach(set.distance) && paces.by_coach(set.distance, target) == target {
        return Some(PaceFrom::Coach);
    }
    if purpose == Purpose::RaceRehearsal
        && let Some(race) = rehearsed(facts, &paces)
    {
        return Some(PaceFrom::Race { distance: race.distance, time: race.time });
    }
    // A step taken since leaves the time near that of the test.
    let near =
        |even: Centis| even.hundredths().abs_diff(target.hundredths()) * 50 <= target.hundredths();
    let even = |test: &Trial| paces.even(test, set.distance).is_some_and(|hold| near(hold.time));
    if let Some(test) = paces.newest().filter(|test| purpose != Purpose::Threshold && even(test)) {
        return Some(PaceFrom::Test(*test));
    }
    let critical = paces.critical?;
    let percent = percent_of(Pace::of(set.distance, target), critical);
    Some(PaceFrom::CriticalSpeed { percent, critical })
}
