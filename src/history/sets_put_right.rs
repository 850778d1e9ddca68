//! Sets put right, and taken back: as they were, and by which message.

use serde::{Deserialize, Serialize};

use super::Swimmer;
use crate::coaching::SetSwum;

/// How many are remembered of a swimmer: `undo` reaches no further back.
const KEPT: usize = 12;

/// A set that was put right.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct SetPutRight {
    /// The message that put it right.
    pub cause: u64,
    /// The message that stored it.
    pub of: u64,
    /// As it was.
    pub was: SetSwum,
    /// As it is since.
    pub now: SetSwum,
}

impl Swimmer {
    /// Message `cause` puts the set that message `of` stored right.
    pub(super) fn put_set_right(&mut self, cause: u64, of: u64, was: &SetSwum, now: &SetSwum) {
        if !self.exchange_set(of, was, now) {
            return;
        }
        let (was, now) = (was.clone(), now.clone());
        self.sets_put_right.push(SetPutRight { cause, of, was, now });
        let over = self.sets_put_right.len().saturating_sub(KEPT);
        self.sets_put_right.drain(..over);
    }

    /// What message `cause` put right is again as it was before.
    pub(super) fn take_back_sets_put_right(&mut self, cause: u64) {
        while let Some(at) = self.sets_put_right.iter().rposition(|right| right.cause == cause) {
            let SetPutRight { of, was, now, .. } = self.sets_put_right.remove(at);
            self.exchange_set(of, &now, &was);
        }
    }

    /// Takes back what message `cause` told of their swimming.
    pub(super) fn withdraw_results(&mut self, cause: u64) {
        self.tests.withdraw(cause);
        self.sets.withdraw(cause);
        self.swims.withdraw(cause);
        self.other.withdraw(cause);
        self.presence.withdraw(cause);
        self.sets_put_right.retain(|right| right.of != cause);
    }

    fn exchange_set(&mut self, of: u64, was: &SetSwum, now: &SetSwum) -> bool {
        let found = self.sets.of_cause_mut(of).find(|kept| kept.what == *was);
        found.is_some_and(|kept| {
            kept.what.clone_from(now);
            true
        })
    }
}
