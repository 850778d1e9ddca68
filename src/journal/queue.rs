//! Who waits to be written, and whether anything may be. Knows nothing of how
//! it is written.

use std::collections::VecDeque;
use std::sync::{Condvar, Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};

use super::ticket::Promise;
use super::{Entry, JournalError, Seq, Ticket};

/// A batch takes no more once it holds this many bytes of bodies (ours: what a
/// disk writes in some milliseconds).
const BATCH: usize = 1024 * 1024;

/// Where so many came …
const LATELY: usize = 8;
/// … within this time, more are on their way, …
const WITHIN: Duration = Duration::from_millis(4);
/// … and are waited for so long, unless that many wait already: each step to the disk
/// costs the same, however many it serves (ours; at 1.5 messages a step these were a sixth
/// of a small message's CPU). One that comes alone waits for nobody.
const PATIENCE: Duration = Duration::from_millis(1);
const ENOUGH: usize = 16;

/// One entry to be written and who waits for it.
#[derive(Debug)]
pub(super) struct Job {
    pub(super) entry: Entry,
    pub(super) promise: Promise,
}

/// Jobs in the order in which they came.
#[derive(Debug, Default)]
pub(super) struct Queue {
    state: Mutex<State>,
    changed: Condvar,
}

#[derive(Debug, Default)]
struct State {
    waiting: VecDeque<Job>,
    /// When the latest came, oldest first.
    came: VecDeque<Instant>,
    failed: Option<JournalError>,
    closed: bool,
}

impl Queue {
    /// Puts an entry at the end, or refuses it if nothing may be written.
    pub(super) fn push(&self, entry: Entry) -> Ticket {
        let mut state = self.state();
        if let Some(reason) = state.refusal() {
            return Ticket::refused(reason);
        }
        let (promise, ticket) = Ticket::pair();
        state.waiting.push_back(Job { entry, promise });
        if state.came.len() == LATELY {
            state.came.pop_front();
        }
        state.came.push_back(Instant::now());
        // Whoever takes one takes all.
        let tells = matches!(state.waiting.len(), 1 | ENOUGH);
        drop(state);
        if tells {
            self.changed.notify_one();
        }
        ticket
    }

    /// Waits for work and takes what goes into one batch: all that waits, up
    /// to a bound. `None` once the queue is closed and empty.
    fn next_batch(&self) -> Option<Vec<Job>> {
        let mut state = self.state();
        while state.waiting.is_empty() {
            if state.closed {
                return None;
            }
            state = self.changed.wait(state).unwrap_or_else(PoisonError::into_inner);
        }
        if state.more_come() {
            let few = |state: &mut State| state.waiting.len() < ENOUGH && !state.closed;
            let waited = self.changed.wait_timeout_while(state, PATIENCE, few);
            state = waited.unwrap_or_else(PoisonError::into_inner).0;
        }
        let mut batch = Vec::with_capacity(state.waiting.len());
        let mut bytes = 0;
        while let Some(job) = state.waiting.front() {
            bytes += job.entry.body.len();
            if bytes > BATCH && !batch.is_empty() {
                break;
            }
            batch.extend(state.waiting.pop_front());
        }
        Some(batch)
    }

    /// Has batches written until the queue is closed and empty, and tells those who wait
    /// what became of theirs. `write` gives the places of a batch's entries, or why there
    /// are none and who waits beside them, as [`fail`](Self::fail) says.
    pub(super) fn serve(
        &self,
        write: impl Fn(&[Job]) -> Result<Vec<Seq>, (JournalError, VecDeque<Job>)>,
    ) {
        while let Some(jobs) = self.next_batch() {
            match write(&jobs) {
                Ok(places) => {
                    for (job, place) in jobs.into_iter().zip(places) {
                        // Whoever dropped the ticket does not want to know.
                        let _ = job.promise.send(Ok(place));
                    }
                }
                Err((reason, waiting)) => {
                    for job in jobs.into_iter().chain(waiting) {
                        let _ = job.promise.send(Err(reason.clone()));
                    }
                }
            }
        }
    }

    /// From now on nothing may be written, for this reason. Gives those who
    /// waited.
    pub(super) fn fail(&self, reason: JournalError) -> VecDeque<Job> {
        let mut state = self.state();
        state.failed = Some(reason);
        std::mem::take(&mut state.waiting)
    }

    /// From now on writing is allowed again.
    pub(super) fn recover(&self) {
        self.state().failed = None;
    }

    /// From now on nothing new is taken; what waits may still be written.
    pub(super) fn close(&self) {
        self.state().closed = true;
        self.changed.notify_all();
    }

    /// Why nothing may be written, if nothing may.
    pub(super) fn refusal(&self) -> Option<JournalError> {
        self.state().refusal()
    }

    /// Whether [`close`](Self::close) was called.
    pub(super) fn is_closed(&self) -> bool {
        self.state().closed
    }

    fn state(&self) -> MutexGuard<'_, State> {
        self.state.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

impl State {
    /// True where many came lately.
    fn more_come(&self) -> bool {
        let oldest = self.came.front().filter(|_| self.came.len() == LATELY);
        oldest.is_some_and(|oldest| oldest.elapsed() < WITHIN)
    }

    fn refusal(&self) -> Option<JournalError> {
        if self.closed { Some(JournalError::Closed) } else { self.failed.clone() }
    }
}
