//! Whether anything at all may be sent to the destination now.

use std::sync::{Mutex, MutexGuard, PoisonError};
use std::time::Duration;

use jiff::Timestamp;

use super::schedule;

/// The destination's wishes for all letters, until we are started again.
#[derive(Debug, Default)]
pub(super) struct Gate(Mutex<State>);

#[derive(Debug, Default, Clone, Copy, PartialEq, Eq)]
enum State {
    #[default]
    Open,
    Resting(Timestamp),
    Shut,
}

impl Gate {
    /// Whether a letter may pass.
    pub fn is_open(&self, now: Timestamp) -> bool {
        match *self.state() {
            State::Open => true,
            State::Resting(until) => now >= until,
            State::Shut => false,
        }
    }

    /// Nothing passes for that long, or for longer if that was asked before.
    pub fn rest(&self, now: Timestamp, wait: Duration) {
        let Some(until) = schedule::later(now, wait) else { return };
        let mut state = self.state();
        match *state {
            State::Shut => {}
            State::Resting(already) if already >= until => {}
            _ => *state = State::Resting(until),
        }
    }

    /// Nothing passes any more. False if it was so before.
    pub fn shut(&self) -> bool {
        std::mem::replace(&mut *self.state(), State::Shut) != State::Shut
    }

    fn state(&self) -> MutexGuard<'_, State> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_longest_rest_holds_and_shut_is_shut() {
        let gate = Gate::default();
        let at = |second| Timestamp::from_second(second).unwrap();
        assert!(gate.is_open(at(0)));
        gate.rest(at(0), Duration::from_secs(60));
        gate.rest(at(1), Duration::from_secs(5));
        assert!(!gate.is_open(at(59)) && gate.is_open(at(60)));
        assert!(gate.shut() && !gate.shut());
        gate.rest(at(0), Duration::ZERO);
        assert!(!gate.is_open(at(99)));
    }
}
