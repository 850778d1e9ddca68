//! A session within what someone can or may do: the same repeats on the same
//! clock, with nothing in them that is barred.
//!
//! Nothing grows: a barred stroke becomes easy free, kit goes away, a drill that
//! is barred becomes easy swimming.

use super::Facts;
use super::drills::{Fault, drill};
use super::rulebook::RuleId;
use crate::session::{Cue, Limit, Repeat, Session};
use crate::units::{Equipment, Level, Stroke};

impl Facts {
    /// True if kit may be used.
    pub(super) fn may_use(&self, kit: Equipment) -> bool {
        !self.limits.iter().any(|limit| limit.bars_kit(kit))
    }
}

/// `session` with nothing that one of `limits` bars.
///
/// ```
/// # use lapwing::coaching::{Facts, SessionWish, next_session, within};
/// # use lapwing::session::Limit;
/// # use lapwing::units::{Course, Equipment};
/// let facts = Facts::of_nobody("2026-03-03".parse().unwrap(), Course::Short25m, 60);
/// let session = next_session(&facts, &SessionWish::default()).unwrap();
/// let without = within(&session, &Equipment::ALL.map(Limit::Kit));
/// assert!(without.blocks.iter().all(|block| block.equipment().is_empty()));
/// assert_eq!(without.amount(), session.amount());
/// ```
pub fn within(session: &Session, limits: &[Limit]) -> Session {
    let mut own = session.clone();
    for line in own.blocks.iter_mut().flat_map(|block| &mut block.repeats) {
        keep_within(line, limits);
    }
    if own != *session && !own.rules.iter().any(|rule| rule == RuleId::Limits.id()) {
        own.rules.push(RuleId::Limits.id().to_owned());
    }
    own
}

fn keep_within(line: &mut Repeat, limits: &[Limit]) {
    let barred = |stroke: Stroke| limits.iter().any(|limit| limit.bars(stroke));
    line.equipment.retain(|kit| !limits.iter().any(|limit| limit.bars_kit(*kit)));
    let drilled = match &line.cue {
        Some(Cue::Drill(id)) => drill(id),
        _ => None,
    };
    let drill_is_barred = drilled.is_some_and(|drill| {
        barred(drill.stroke)
            || (drill.cures == Fault::Turns && limits.contains(&Limit::TumbleTurns))
            || drill.equipment.is_some_and(|kit| limits.iter().any(|limit| limit.bars_kit(kit)))
    });
    if drill_is_barred {
        line.cue = None;
    }
    if barred(line.stroke) || (drill_is_barred && line.stroke == Stroke::Drill) {
        line.stroke = Stroke::Free;
        (line.target, line.aim, line.level) = (None, None, Level::Easy);
    }
}
