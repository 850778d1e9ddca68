//! The one thread that writes: it takes all that waits, makes it durable in
//! one step, and only then tells those who wait.

use std::sync::Arc;
use std::sync::atomic::Ordering;

use super::high_water::Reach;
use super::queue::{Job, Line};
use super::shared::Shared;
use super::{Entry, JournalError, Seq};

/// Writes batches until the queue is closed and empty.
pub(super) fn run(shared: &Arc<Shared>) {
    shared.queue.serve(|jobs| write(shared, jobs));
}

/// Makes a batch durable, and then known.
fn write(shared: &Shared, jobs: &[Job]) -> Result<Vec<Seq>, (JournalError, Line)> {
    let entries: Vec<&Entry> = jobs.iter().map(|job| &job.entry).collect();
    let mut writer = shared.writer();
    let opened = shared.opened();
    let written = match (writer.as_mut(), opened.as_ref()) {
        (Some(writer), Some(opened)) => writer.write(&entries, &opened.aside).and_then(|places| {
            let place = places.last().map_or(0, |place| place.number());
            opened.water.note(Reach { place, mark: writer.mark() })?;
            opened.aside.noted();
            shared.last.store(place, Ordering::Release);
            Ok(places)
        }),
        _ => Err(shared.queue.refusal().unwrap_or(JournalError::Closed)),
    };
    written.map_err(|reason| {
        tracing::error!(%reason, "the journal has stopped; it must be reopened");
        // Before the log can be reopened by someone else, or the failure would
        // outlive its cure.
        let waiting = shared.queue.fail(reason.clone());
        (reason, waiting)
    })
}
