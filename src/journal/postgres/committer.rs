//! The one thread that writes: it takes all that waits, has it stored in one
//! statement, and only then tells those who wait.

use std::collections::VecDeque;
use std::sync::Arc;

use super::shared::Shared;
use crate::journal::queue::Job;
use crate::journal::{Entry, JournalError, Seq};

/// Writes batches until the queue is closed and empty.
pub(super) fn run(shared: &Arc<Shared>) {
    shared.queue.serve(|jobs| write(shared, jobs));
}

fn write(shared: &Shared, jobs: &[Job]) -> Result<Vec<Seq>, (JournalError, VecDeque<Job>)> {
    let entries: Vec<&Entry> = jobs.iter().map(|job| &job.entry).collect();
    let mut writer = shared.writer();
    let written = match writer.as_mut() {
        Some(writer) => shared.add(writer, &entries).map(|batch| batch.places()),
        None => Err(shared.refusal()),
    };
    written.map_err(|reason| {
        tracing::error!(%reason, "the journal has stopped; it must be reopened");
        // Others may have the lock now.
        *writer = None;
        // Before the journal can be reopened by someone else, or the failure would
        // outlive its cure.
        let waiting = shared.queue.fail(reason.clone());
        (reason, waiting)
    })
}
