//! Those who wait for the thread that writes, and whether anything may be written. Knows
//! nothing of what is waited for.

use std::sync::{Condvar, Mutex, MutexGuard, PoisonError};

use super::ticket::Promise;
use super::{JournalError, Ticket};

/// Those who wait, as a `T`.
#[derive(Debug, Default)]
pub(super) struct Waiters<T> {
    state: Mutex<Waits<T>>,
    /// Told when somebody comes, and when it is closed.
    pub(super) changed: Condvar,
}

/// How things stand with them.
#[derive(Debug, Default)]
pub(super) struct Waits<T> {
    pub(super) waiting: T,
    failed: Option<JournalError>,
    pub(super) closed: bool,
}

impl<T: Default> Waiters<T> {
    /// Has somebody wait, or refuses it if nothing may be written. `put` says whether the
    /// thread that writes is to be told.
    pub(super) fn put(&self, put: impl FnOnce(&mut T, Promise) -> bool) -> Ticket {
        let mut state = self.lock();
        if let Some(reason) = state.refusal() {
            return Ticket::refused(reason);
        }
        let (promise, ticket) = Ticket::pair();
        let tells = put(&mut state.waiting, promise);
        drop(state);
        if tells {
            self.changed.notify_one();
        }
        ticket
    }

    /// From now on nothing may be written, for this reason. Gives those who
    /// waited.
    pub(super) fn fail(&self, reason: JournalError) -> T {
        let mut state = self.lock();
        state.failed = Some(reason);
        std::mem::take(&mut state.waiting)
    }

    /// From now on writing is allowed again; true where it was not.
    pub(super) fn recover(&self) -> bool {
        self.lock().failed.take().is_some()
    }

    /// From now on nothing new is taken; what waits may still be written.
    pub(super) fn close(&self) {
        self.lock().closed = true;
        self.changed.notify_all();
    }

    /// Why nothing may be written, if nothing may.
    pub(super) fn refusal(&self) -> Option<JournalError> {
        self.lock().refusal()
    }

    /// Whether [`close`](Self::close) was called.
    pub(super) fn is_closed(&self) -> bool {
        self.lock().closed
    }

    /// Those who wait, to be changed.
    pub(super) fn lock(&self) -> MutexGuard<'_, Waits<T>> {
        self.state.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

impl<T> Waits<T> {
    fn refusal(&self) -> Option<JournalError> {
        if self.closed { Some(JournalError::Closed) } else { self.failed.clone() }
    }
}

/// Tells somebody what became of theirs; whoever dropped the ticket does not want to know.
pub(super) fn refuse(promise: Promise, reason: &JournalError) {
    let _ = promise.send(Err(reason.clone()));
}
