//! The pause that a destination wishes for in sending: no letter goes there until it is
//! over, but an alarm, which always goes.

use std::sync::{Mutex, MutexGuard, PoisonError};
use std::time::Duration;

/// Holds for all letters, until we are started again. Instants are what has passed since
/// some fixed one.
#[derive(Debug, Default)]
pub(super) struct Pause(Mutex<Option<Duration>>);

impl Pause {
    /// Whether a letter may go.
    pub fn is_over(&self, now: Duration) -> bool {
        (*self.ends()).is_none_or(|until| now >= until)
    }

    /// Nothing goes for that long, or for longer if that was asked before.
    pub fn at_least(&self, now: Duration, wait: Duration) {
        let mut until = self.ends();
        *until = (*until).max(Some(now.saturating_add(wait)));
    }

    fn ends(&self) -> MutexGuard<'_, Option<Duration>> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_longest_pause_holds() {
        let pause = Pause::default();
        let at = Duration::from_secs;
        assert!(pause.is_over(at(0)));
        pause.at_least(at(0), at(60));
        pause.at_least(at(1), at(5));
        assert!(!pause.is_over(at(59)) && pause.is_over(at(60)));
    }
}
