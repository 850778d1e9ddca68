//! One value that holds until another is said, with the one before it.

use jiff::Timestamp;
use serde::{Deserialize, Serialize};

/// A setting with the values it had before, so that one can be taken back and
/// an earlier instant sees its own.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Setting<T>(Vec<(u64, Timestamp, T)>);

impl<T> Default for Setting<T> {
    fn default() -> Self {
        Self(Vec::new())
    }
}

impl<T> Setting<T> {
    /// How many earlier values are remembered.
    const DEPTH: usize = 12;

    /// True where nothing was ever set.
    pub const fn is_unset(&self) -> bool {
        self.0.is_empty()
    }

    /// The value in force at `now`: the last that arrived by then.
    pub fn at(&self, now: Timestamp) -> Option<&T> {
        self.0.iter().rev().find(|(_, at, _)| *at <= now).map(|(_, _, value)| value)
    }

    /// The message that set the value in force at `now`.
    pub fn cause_at(&self, now: Timestamp) -> Option<u64> {
        self.0.iter().rev().find(|(_, at, _)| *at <= now).map(|(cause, _, _)| *cause)
    }

    /// The values that were in force by `now`, the first that is remembered first, each
    /// with the message that set it and when.
    pub fn as_of(&self, now: Timestamp) -> impl Iterator<Item = (u64, Timestamp, &T)> {
        let set = self.0.iter().filter(move |(_, at, _)| *at <= now);
        set.map(|(cause, at, value)| (*cause, *at, value))
    }

    /// The instant at which the value in force at `now` was set.
    pub fn set_at(&self, now: Timestamp) -> Option<Timestamp> {
        self.0.iter().rev().find(|(_, at, _)| *at <= now).map(|(_, at, _)| *at)
    }

    /// What it was before message `cause` set it, and the message that had set that.
    pub fn before(&self, cause: u64) -> Option<(u64, &T)> {
        self.0.iter().rev().find(|(by, _, _)| *by < cause).map(|(by, _, value)| (*by, value))
    }

    /// What message `cause` set it to.
    pub fn of_cause(&self, cause: u64) -> Option<&T> {
        self.0.iter().rev().find(|(by, _, _)| *by == cause).map(|(_, _, value)| value)
    }

    pub(super) fn set(&mut self, cause: u64, at: Timestamp, value: T) {
        self.0.push((cause, at, value));
        let over = self.0.len().saturating_sub(Self::DEPTH);
        self.0.drain(..over);
    }

    pub(super) fn withdraw(&mut self, cause: u64) {
        self.0.retain(|(by, _, _)| *by != cause);
    }
}
