//! The one thread that writes, and learns what others write: it takes all that waits, has
//! it stored in one step, and only then tells those who wait.

use std::sync::Arc;
use std::time::Duration;

use super::shared::Shared;
use super::waiting::{Job, Work};
use super::writer::Writer;
use crate::journal::JournalError;

/// How often it is looked what others wrote while nobody here writes (ours): so long after
/// it is known on one machine may it be unknown on the page of another.
const LOOK: Duration = Duration::from_millis(50);
/// How long nothing is asked after no server was reached.
const REST: Duration = Duration::from_secs(1);
/// How often it is looked at the least, whoever writes: among that is the clock.
const AT_LEAST: Duration = Duration::from_secs(1);

/// Writes and looks until the queue is closed and empty.
pub(super) fn run(shared: &Arc<Shared>) {
    let mut pause = LOOK;
    while let Some(Work { jobs, looks }) = shared.queue.next(pause) {
        let mut writer = shared.writer();
        let Some(writer) = writer.as_mut() else { return };
        let done = match jobs.is_empty() {
            true => writer.look(shared, !looks.is_empty()),
            false => put(shared, writer, jobs, !looks.is_empty()),
        };
        match &done {
            Ok(()) if shared.queue.recover() => tracing::info!("the journal can be written again"),
            Ok(()) => {}
            Err(reason) => {
                if shared.queue.refusal().is_none() {
                    tracing::error!(%reason, "nothing can be stored");
                }
                shared.queue.stop(reason);
            }
        }
        pause = if done.is_ok() { LOOK } else { REST };
        for look in looks {
            // Whoever dropped the ticket does not want to know.
            let _ = look.send(done.clone().map(|()| writer.last()));
        }
    }
}

fn put(
    shared: &Shared,
    writer: &mut Writer,
    jobs: Vec<Job>,
    looked_for: bool,
) -> Result<(), JournalError> {
    writer.put(shared, jobs)?;
    match looked_for || writer.has_not_looked_for(AT_LEAST) {
        true => writer.look(shared, looked_for),
        false => Ok(()),
    }
}
