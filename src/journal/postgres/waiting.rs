//! Who waits for the committer: entries to be written, and those who want to know all
//! that others wrote. Knows no database.

use std::collections::VecDeque;
use std::sync::PoisonError;
use std::time::{Duration, Instant};

use crate::journal::queue::BATCH;
use crate::journal::ticket::Promise;
use crate::journal::waiters::{Waiters, refuse};
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
pub(super) type Waiting = Waiters<Work>;

impl Waiting {
    /// Puts an entry at the end, or refuses it if nothing may be written.
    pub(super) fn push(&self, entry: Entry, basis: Option<Basis>) -> Ticket {
        self.put(|work, promise| {
            work.jobs.push(Job { entry, basis, promise });
            true
        })
    }

    /// Waits for all that others have written by now.
    pub(super) fn look(&self) -> Ticket {
        self.put(|work, promise| {
            work.looks.push(promise);
            true
        })
    }

    /// Waits for work, at most so long, and takes all there is; `None` once it is closed
    /// and nobody waits.
    pub(super) fn next(&self, at_most: Duration) -> Option<Work> {
        let until = Instant::now() + at_most;
        let mut state = self.lock();
        while state.waiting.is_empty() {
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
        Some(std::mem::take(&mut state.waiting))
    }

    /// From now on nothing may be written, for this reason; those who waited are told so.
    pub(super) fn stop(&self, reason: &JournalError) {
        let Work { jobs, looks } = self.fail(reason.clone());
        let promises = jobs.into_iter().map(|job| job.promise).chain(looks);
        promises.for_each(|promise| refuse(promise, reason));
    }
}

impl Work {
    fn is_empty(&self) -> bool {
        self.jobs.is_empty() && self.looks.is_empty()
    }
}

/// Those that can go in one step, and those that go behind it: because it is enough, or
/// because what one changes the other may stand on.
pub(super) fn apart(jobs: VecDeque<Job>) -> (Vec<Job>, VecDeque<Job>) {
    /// A step takes so many at most: fewer than are read at a time.
    const MOST: usize = 400;
    let (mut together, mut later) = (Vec::with_capacity(jobs.len()), VecDeque::new());
    let (mut bytes, mut full) = (0, false);
    let mut taken = std::collections::HashSet::new();
    for job in jobs {
        bytes += job.entry.body.len();
        full = full || together.len() == MOST || (bytes > BATCH && !together.is_empty());
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
