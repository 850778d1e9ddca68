//! Whether anything at all may be sent to the destination now, but for an alarm:
//! that passes always.

use std::sync::{Mutex, MutexGuard, PoisonError};
use std::time::Duration;

/// The destination's wish for all letters, until we are started again. Instants
/// are what has passed since some fixed one.
#[derive(Debug, Default)]
pub(super) struct Gate(Mutex<Option<Duration>>);

impl Gate {
    /// Whether a letter may pass.
    pub fn is_open(&self, now: Duration) -> bool {
        (*self.rests_until()).is_none_or(|until| now >= until)
    }

    /// Nothing passes for that long, or for longer if that was asked before.
    pub fn rest(&self, now: Duration, wait: Duration) {
        let mut until = self.rests_until();
        *until = (*until).max(Some(now.saturating_add(wait)));
    }

    fn rests_until(&self) -> MutexGuard<'_, Option<Duration>> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_longest_rest_holds() {
        let gate = Gate::default();
        let at = Duration::from_secs;
        assert!(gate.is_open(at(0)));
        gate.rest(at(0), at(60));
        gate.rest(at(1), at(5));
        assert!(!gate.is_open(at(59)) && gate.is_open(at(60)));
    }
}
