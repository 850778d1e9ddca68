//! A session within what someone can or may do: the same repeats on the same
//! clock, with nothing in them that is barred.
//!
//! Nothing grows: a barred stroke becomes easy free, kit goes away, a drill that
//! is barred becomes easy swimming.

use super::drills::{Drill, Fault, drill};
use super::rulebook::RuleId;
use crate::session::{Cue, Limit, Repeat, Session};
use crate::units::{Equipment, Level, Stroke};

/// True if none of `limits` bars the kit.
pub(super) fn may_use(limits: &[Limit], kit: Equipment) -> bool {
    !limits.iter().any(|limit| limit.bars_kit(kit))
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
    if limits.is_empty() {
        return named(own);
    }
    for line in own.blocks.iter_mut().flat_map(|block| &mut block.repeats) {
        own.without.extend(limits.iter().copied().filter(|limit| bears_on(*limit, line)));
        keep_within(line, limits);
    }
    named(own)
}

/// The session written within `limits`, unless it is longer or harder than
/// `free`, which was written as if there were none: then `free` without what is
/// barred. So nobody swims more for what they can't do.
pub(super) fn no_more_than(free: &Session, written: Option<Session>, limits: &[Limit]) -> Session {
    let stripped = within(free, limits);
    let Some(written) = written.filter(|written| is_no_more(written, free)) else {
        return stripped;
    };
    let mut own = within(&written, limits);
    own.without.extend(stripped.without);
    named(own)
}

/// True if `session` is no farther, no longer and at no level farther than
/// `other`.
fn is_no_more(session: &Session, other: &Session) -> bool {
    let from = |session: &Session, least: Level| -> u32 {
        let blocks = session.blocks.iter();
        let lines = blocks.flat_map(|block| block.repeats.iter().map(|line| (block.rounds, line)));
        let hard = lines.filter(|(_, line)| line.level >= least);
        hard.map(|(rounds, line)| u32::from(rounds) * line.amount()).sum()
    };
    session.duration_s() <= other.duration_s()
        && Level::ALL.into_iter().all(|least| from(session, least) <= from(other, least))
}

/// The session with each limit named once, and the rule where there is one.
fn named(mut session: Session) -> Session {
    session.without.sort_unstable();
    session.without.dedup();
    let is_named = session.rules.iter().any(|rule| rule == RuleId::Limits.id());
    if !session.without.is_empty() && !is_named {
        session.rules.push(RuleId::Limits.id().to_owned());
    }
    session
}

/// True if `limit` leaves out something of the line.
fn bears_on(limit: Limit, line: &Repeat) -> bool {
    limit.bars(line.stroke)
        || line.equipment.iter().any(|kit| limit.bars_kit(*kit))
        || drilled(line).is_some_and(|drill| bars_drill(limit, drill))
}

fn bars_drill(limit: Limit, drill: &Drill) -> bool {
    limit.bars(drill.stroke)
        || limit.bars(Stroke::Drill)
        || (drill.cures == Fault::Turns && limit == Limit::TumbleTurns)
        || drill.equipment.is_some_and(|kit| limit.bars_kit(kit))
}

fn drilled(line: &Repeat) -> Option<&'static Drill> {
    match &line.cue {
        Some(Cue::Drill(id)) => drill(id),
        _ => None,
    }
}

fn keep_within(line: &mut Repeat, limits: &[Limit]) {
    let fins = |line: &Repeat| line.equipment.contains(&Equipment::Fins);
    let had_fins = fins(line);
    line.equipment.retain(|kit| !limits.iter().any(|limit| limit.bars_kit(*kit)));
    // On the clock of fins a kick has no rest left, and its time can't be held.
    let lost_fins = had_fins && !fins(line);
    let drill_is_barred =
        drilled(line).is_some_and(|drill| limits.iter().any(|limit| bars_drill(*limit, drill)));
    if drill_is_barred {
        line.cue = None;
    }
    let goes = limits.iter().any(|limit| limit.bars(line.stroke))
        || (drill_is_barred && line.stroke == Stroke::Drill)
        || (lost_fins && line.stroke == Stroke::Kick && line.send_off.is_some());
    if goes {
        line.stroke = Stroke::Free;
    }
    if goes || lost_fins {
        (line.target, line.aim, line.level) = (None, None, Level::Easy);
    }
}
