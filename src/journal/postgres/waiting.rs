//! Who waits for the committer: entries to be written, and those who want to know all
//! that others wrote. Knows no database.

use std::collections::VecDeque;
use std::sync::{Condvar, Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};

use crate::journal::ticket::Promise;
use crate::journal::{Basis, Entry, JournalError, Ticket};

/// One entry to be written and who waits for it.
#[derive(Debug)]
pub(super) struct Job {
    pub entry: Entry,
    /// What it was decided on; whatever there is, where that isn't said.
    pub basis: Option<Basis>,
    pub promise: Promise,
}

/// What is to be done in one go.
#[derive(Debug, Default)]
pub(super) struct Work {
    pub jobs: Vec<Job>,
    /// Those who want to know what there is.
    pub looks: Vec<Promise>,
}

/// Those who wait, in the order in which they came.
#[derive(Debug, Default)]
pub(super) struct Waiting {
    state: Mutex<State>,
    changed: Condvar,
}

#[derive(Debug, Default)]
struct State {
    work: Work,
    failed: Option<JournalError>,
    closed: bool,
}

impl Waiting {
    /// Puts an entry at the end, or refuses it if nothing may be written.
    pub(super) fn push(&self, entry: Entry, basis: Option<Basis>) -> Ticket {
        self.put(|work, promise| work.jobs.push(Job { entry, basis, promise }))
    }

    /// Waits for all that others have written by now.
    pub(super) fn look(&self) -> Ticket {
        self.put(|work, promise| work.looks.push(promise))
    }

    fn put(&self, put: impl FnOnce(&mut Work, Promise)) -> Ticket {
        let mut state = self.state();
        if let Some(reason) = state.refusal() {
            return Ticket::refused(reason);
        }
        let (promise, ticket) = Ticket::pair();
        put(&mut state.work, promise);
        drop(state);
        self.changed.notify_one();
        ticket
    }

    /// Waits for work, at most so long, and takes all there is; `None` once it is closed
    /// and nobody waits.
    pub(super) fn next(&self, at_most: Duration) -> Option<Work> {
        let until = Instant::now() + at_most;
        let mut state = self.state();
        while state.work.is_empty() {
            if state.closed {
                return None;
            }
            let left = until.saturating_duration_since(Instant::now());
            if left.is_zero() {
                break;
            }
            let waited = self.changed.wait_timeout(state, left);
            state = waited.unwrap_or_else(PoisonError::into_inner).0;
        }
        Some(std::mem::take(&mut state.work))
    }

    /// From now on nothing may be written, for this reason; those who waited are told so.
    pub(super) fn fail(&self, reason: &JournalError) {
        let work = {
            let mut state = self.state();
            state.failed = Some(reason.clone());
            std::mem::take(&mut state.work)
        };
        work.tell(reason);
    }

    /// From now on writing is allowed again; true where it was not.
    pub(super) fn recover(&self) -> bool {
        self.state().failed.take().is_some()
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
    fn refusal(&self) -> Option<JournalError> {
        if self.closed { Some(JournalError::Closed) } else { self.failed.clone() }
    }
}

impl Work {
    fn is_empty(&self) -> bool {
        self.jobs.is_empty() && self.looks.is_empty()
    }

    fn tell(self, reason: &JournalError) {
        let promises = self.jobs.into_iter().map(|job| job.promise).chain(self.looks);
        for promise in promises {
            // Whoever dropped the ticket does not want to know.
            let _ = promise.send(Err(reason.clone()));
        }
    }
}

/// Those that can go in one step, and those that go behind it: because it is enough, or
/// because what one changes the other may stand on.
pub(super) fn apart(jobs: VecDeque<Job>) -> (Vec<Job>, VecDeque<Job>) {
    /// A step takes no more once it holds this many bytes of bodies (ours: what goes over
    /// a line in some milliseconds).
    const STEP: usize = 1024 * 1024;
    /// Or so many: fewer than are read at a time.
    const MOST: usize = 400;
    let (mut together, mut later) = (Vec::with_capacity(jobs.len()), VecDeque::new());
    let (mut bytes, mut full) = (0, false);
    let mut taken = std::collections::HashSet::new();
    for job in jobs {
        bytes += job.entry.body.len();
        full = full || together.len() == MOST || (bytes > STEP && !together.is_empty());
        let on = job.basis.as_ref().map(|basis| basis.on.as_slice()).unwrap_or_default();
        if full || on.iter().any(|(topic, _)| taken.contains(topic)) {
            later.push_back(job);
            continue;
        }
        taken.extend(on.iter().map(|(topic, _)| *topic));
        together.push(job);
    }
    (together, later)
}

#[cfg(test)]
mod tests {
    use jiff::Timestamp;

    use super::*;
    use crate::journal::{StreamId, Topic};

    fn job(on: &[&str], bytes: usize) -> Job {
        let stream = StreamId("s/dusk".into());
        let entry = Entry { stream, key: None, at: Timestamp::UNIX_EPOCH, body: vec![7; bytes] };
        let on = on.iter().map(|name| (Topic::of("squad", name), 1)).collect();
        let basis = Some(Basis { on, changes: vec![] });
        Job { entry, basis, promise: Ticket::pair().0 }
    }

    #[test]
    fn what_may_stand_on_another_goes_behind_it() {
        let jobs = [job(&["dusk"], 1), job(&["dawn"], 1), job(&["dusk", "noon"], 1)];
        let (together, later) = apart(jobs.into());
        assert_eq!((together.len(), later.len()), (2, 1));
        let (together, later) = apart(later);
        assert_eq!((together.len(), later.len()), (1, 0));
    }

    #[test]
    fn a_step_is_bounded_and_takes_one_however_long() {
        let most = 1024 * 1024;
        let (together, later) = apart([job(&[], most + 1), job(&[], 1)].into());
        assert_eq!((together.len(), later.len()), (1, 1));
        let (together, later) = apart([job(&[], most), job(&[], 1), job(&[], 1)].into());
        assert_eq!((together.len(), later.len()), (1, 2), "none overtakes");
    }
}
