//! The one thread that writes: it takes all that waits, makes it durable in
//! one step, and only then tells those who wait.

use std::sync::Arc;
use std::sync::atomic::Ordering;

use super::JournalError;
use super::queue::Job;
use super::sled_journal::Shared;
use super::store::Work;

/// Writes batches until the queue is closed and empty.
pub(super) fn run(shared: &Arc<Shared>) {
    while let Some(jobs) = shared.queue.next_batch() {
        commit(shared, jobs);
    }
}

fn commit(shared: &Shared, jobs: Vec<Job>) {
    let work: Vec<&Work> = jobs.iter().map(|job| &job.work).collect();
    let store = shared.store();
    let written = match store.as_ref() {
        Some(store) => {
            // Nobody may read some parts from before a checkpoint and some from after.
            let _parts = jobs
                .iter()
                .any(|job| matches!(job.work, Work::Checkpoint { .. }))
                .then(|| shared.changing_parts());
            store.commit(shared.last.load(Ordering::Acquire), &work)
        }
        None => Err(shared.queue.refusal().unwrap_or(JournalError::Closed)),
    };
    match written {
        Ok(places) => {
            let appended = work.iter().filter(|work| matches!(work, Work::Append(_))).count();
            shared.last.fetch_add(appended as u64, Ordering::AcqRel);
            drop(store);
            for (job, place) in jobs.into_iter().zip(places) {
                // Whoever dropped the ticket does not want to know.
                let _ = job.promise.send(Ok(place));
            }
        }
        Err(reason) => {
            tracing::error!(%reason, "the journal has stopped; it must be reopened");
            // Before the store can be reopened by someone else, or the failure
            // would outlive its cure.
            let waiting = shared.queue.fail(reason.clone());
            drop(store);
            for job in jobs.into_iter().chain(waiting) {
                let _ = job.promise.send(Err(reason.clone()));
            }
        }
    }
}
