//! What a reply says of a session to come, and is held to.

use serde::{Deserialize, Serialize};

use super::Facts;
use super::feedback::{Change, NextSet};
use super::next::session_for;
use super::paces::Paces;
use super::rulebook::Rulebook;
use super::swimmer_state::SwimmerState;
use crate::session::{Purpose, Repeat, Session};
use crate::swim::levels::Band;
use crate::units::Level;

/// One thing promised.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", tag = "promise")]
pub enum Promise {
    /// The next swim is an easy one.
    Easy,
    /// This is the main set of the next hard swim.
    Set {
        /// The set, whole.
        set: Repeat,
    },
    /// The next hard swim is a test.
    Test,
}

/// What `change` promises, where it can be kept: a set only if the rules would
/// write it into a session of theirs.
pub fn promised_by(book: &Rulebook, facts: &Facts, change: &NextSet) -> Option<Promise> {
    match change.what {
        Change::Rest => Some(Promise::Easy),
        Change::Retest => Some(Promise::Test),
        _ => {
            let set = placed_by(&Paces::of(facts, facts.course), facts, &change.set)?;
            let promise = Promise::Set { set: set.clone() };
            let with = Facts { promised: Some(promise.clone()), ..facts.clone() };
            let state = SwimmerState::of(&with, book);
            // What is promised changes no pace.
            let written = session_for(&state, purpose_by(state.paces(), &set))?;
            holds(&written, &set).then_some(promise)
        }
    }
}

/// A set as it would stand in a session: its level by today's paces, and the usual
/// send-off where none was said. `None` for what sessions do not hold: other
/// strokes, kit, no time to hold, easy work.
pub(super) fn placed(state: &SwimmerState<'_>, set: &Repeat) -> Option<Repeat> {
    placed_by(state.paces(), state.facts, set)
}

fn placed_by(paces: &Paces, facts: &Facts, set: &Repeat) -> Option<Repeat> {
    let target = set.target?;
    let level = paces.level(set.distance, target);
    let fits = set.stroke == paces.stroke
        && set.equipment.is_empty()
        && set.distance.fits(facts.course)
        && level.is_hard();
    if !fits {
        return None;
    }
    let send_off = match (set.send_off, set.rest) {
        (Some(on), _) => on,
        (None, Some(rest)) => crate::units::SendOff::after(target, rest.hundredths().div_ceil(100)),
        (None, None) => Band::of(level).send_off(set.distance, target),
    };
    (target < send_off.time()).then(|| Repeat {
        level,
        send_off: Some(send_off),
        rest: None,
        aim: None,
        cue: None,
        ..set.clone()
    })
}

/// What a session with that main set is for.
pub(super) fn purpose_of(state: &SwimmerState<'_>, set: &Repeat) -> Option<Purpose> {
    Some(purpose_by(state.paces(), &placed(state, set)?))
}

fn purpose_by(paces: &Paces, placed: &Repeat) -> Purpose {
    match placed.level {
        Level::Threshold => Purpose::Threshold,
        _ if paces.critical.is_none() => Purpose::Speed,
        _ => Purpose::PaceHolding,
    }
}

/// True if `session` has that set in its main part: the same repeats, as many of
/// them, on the same send-off.
pub fn holds(session: &Session, set: &Repeat) -> bool {
    session.main_lines().any(|(count, line)| {
        count == u32::from(set.count)
            && line.distance == set.distance
            && line.target == set.target
            && set.send_off.is_none_or(|on| line.send_off == Some(on))
    })
}
