//! Who waits to be written to the folder, and what goes into one step. Knows nothing of
//! how it is written.

use std::collections::VecDeque;
use std::sync::PoisonError;
use std::time::{Duration, Instant};

use super::ticket::Promise;
use super::waiters::{Waiters, Waits, refuse};
use super::{Entry, JournalError, Seq, Ticket};

/// A batch takes no more once it holds this many bytes of bodies (ours: what a
/// disk writes, or a line to a database carries, in some milliseconds).
pub(super) const BATCH: usize = 1024 * 1024;

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
pub(super) type Queue = Waiters<Line>;

/// See [`Queue`].
#[derive(Debug, Default)]
pub(super) struct Line {
    jobs: VecDeque<Job>,
    /// When the latest came, oldest first.
    came: VecDeque<Instant>,
}

impl Queue {
    /// Puts an entry at the end, or refuses it if nothing may be written.
    pub(super) fn push(&self, entry: Entry) -> Ticket {
        self.put(|line, promise| {
            line.jobs.push_back(Job { entry, promise });
            if line.came.len() == LATELY {
                line.came.pop_front();
            }
            line.came.push_back(Instant::now());
            // Whoever takes one takes all.
            matches!(line.jobs.len(), 1 | ENOUGH)
        })
    }

    /// Waits for work and takes what goes into one batch: all that waits, up
    /// to a bound. `None` once the queue is closed and empty.
    fn next_batch(&self) -> Option<Vec<Job>> {
        let mut state = self.lock();
        while state.waiting.jobs.is_empty() {
            if state.closed {
                return None;
            }
            state = self.changed.wait(state).unwrap_or_else(PoisonError::into_inner);
        }
        if state.waiting.more_come() {
            let few = |state: &mut Waits<Line>| state.waiting.jobs.len() < ENOUGH && !state.closed;
            let waited = self.changed.wait_timeout_while(state, PATIENCE, few);
            state = waited.unwrap_or_else(PoisonError::into_inner).0;
        }
        let waiting = &mut state.waiting.jobs;
        let mut batch = Vec::with_capacity(waiting.len());
        let mut bytes = 0;
        while let Some(job) = waiting.front() {
            bytes += job.entry.body.len();
            if bytes > BATCH && !batch.is_empty() {
                break;
            }
            batch.extend(waiting.pop_front());
        }
        Some(batch)
    }

    /// Has batches written until the queue is closed and empty, and tells those who wait
    /// what became of theirs. `write` gives the places of a batch's entries, or why there
    /// are none and who waits beside them, as [`fail`](Self::fail) says.
    pub(super) fn serve(&self, write: impl Fn(&[Job]) -> Result<Vec<Seq>, (JournalError, Line)>) {
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
                        refuse(job.promise, &reason);
                    }
                }
            }
        }
    }

    /// From now on nothing may be written, for this reason; those who waited are told so.
    pub(super) fn stop(&self, reason: &JournalError) {
        self.fail(reason.clone()).into_iter().for_each(|job| refuse(job.promise, reason));
    }
}

impl Line {
    /// True where many came lately.
    fn more_come(&self) -> bool {
        let oldest = self.came.front().filter(|_| self.came.len() == LATELY);
        oldest.is_some_and(|oldest| oldest.elapsed() < WITHIN)
    }
}

impl IntoIterator for Line {
    type Item = Job;
    type IntoIter = std::collections::vec_deque::IntoIter<Job>;

    fn into_iter(self) -> Self::IntoIter {
        self.jobs.into_iter()
    }
}
