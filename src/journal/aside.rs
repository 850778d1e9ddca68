//! What is done beside the committer, so that nobody who writes waits for it:
//! files written ahead with zeros, ended files sealed, old ids forgotten, the
//! high-water mark synced.

use std::sync::mpsc::{self, RecvTimeoutError, Sender};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread::JoinHandle;
use std::time::{Duration, Instant};

use super::JournalError;
use super::high_water::HighWater;
use super::log::Log;
use super::preallocated::{Preallocated, Preallocator};
use super::seen_ids;
use super::segment::{AHEAD, Segment};
use super::writer::LONGEST;
use crate::background;

/// How long the high-water mark may stay unsynced.
const MOMENT: Duration = Duration::from_millis(20);

enum Task {
    WriteAhead(Arc<Segment>),
    Seal(Arc<Segment>),
    Noted,
    Settle(Sender<()>),
}

/// The thread that does it.
#[derive(Debug)]
pub(super) struct Aside {
    preallocator: Preallocator,
    tasks: Mutex<Option<Sender<Task>>>,
    thread: Mutex<Option<JoinHandle<()>>>,
}

impl Aside {
    /// Begins.
    ///
    /// # Errors
    /// There is no thread to be had.
    pub(super) fn begin(log: Arc<Log>, water: Arc<HighWater>) -> Result<Aside, JournalError> {
        let (tasks, waiting) = mpsc::channel();
        // What is written ahead beside the longest is never run short of.
        let preallocator = Preallocator::new(log.folder.clone(), LONGEST + AHEAD.1);
        let work = move || {
            // When what was noted is to be synced: a moment after the first of it, however
            // much else comes meanwhile.
            let mut due: Option<Instant> = None;
            loop {
                let task = match due {
                    Some(due) => {
                        waiting.recv_timeout(due.saturating_duration_since(Instant::now()))
                    }
                    None => waiting.recv().map_err(|_| RecvTimeoutError::Disconnected),
                };
                if due.is_some_and(|due| due <= Instant::now()) {
                    sync(&water);
                    due = None;
                }
                match task {
                    Ok(Task::Noted) => due = due.or_else(|| Some(Instant::now() + MOMENT)),
                    Ok(Task::WriteAhead(segment)) => {
                        // A full disk is met again by whoever writes what matters.
                        if let Err(error) = segment.write_ahead() {
                            tracing::debug!(%error, "nothing could be written ahead");
                        }
                    }
                    Ok(Task::Seal(segment)) => seal(&log, &segment),
                    Ok(Task::Settle(done)) => drop(done.send(())),
                    Err(RecvTimeoutError::Timeout) => {}
                    Err(RecvTimeoutError::Disconnected) => break,
                }
            }
            sync(&water);
        };
        let thread = std::thread::Builder::new()
            .name("journal-aside".into())
            .spawn(work)
            .map_err(|error| JournalError::Storage(format!("no thread to work with: {error}")))?;
        Ok(Aside { preallocator, tasks: Mutex::new(Some(tasks)), thread: Mutex::new(Some(thread)) })
    }

    /// Has zeros written ahead in a file.
    pub(super) fn write_ahead(&self, segment: &Arc<Segment>) {
        self.give(Task::WriteAhead(Arc::clone(segment)));
    }

    /// Has the file prepared that is to be the next.
    pub(super) fn prepare_next(&self) {
        self.preallocator.ask();
    }

    /// Has it prepared, and returns once it is, or can't be.
    pub(super) fn await_next(&self) {
        self.preallocator.ask();
        self.preallocator.settle();
    }

    /// The file that was prepared, if one is.
    pub(super) fn preallocated(&self) -> Option<Preallocated> {
        self.preallocator.take()
    }

    /// Has a file sealed to which nothing more is added.
    pub(super) fn seal(&self, segment: Arc<Segment>) {
        self.give(Task::Seal(segment));
    }

    /// Has the high-water mark synced in a moment.
    pub(super) fn noted(&self) {
        self.give(Task::Noted);
    }

    /// Returns once all that was asked for before is done.
    pub(super) fn settle(&self) {
        let (done, told) = mpsc::channel();
        self.give(Task::Settle(done));
        // It ends early where the thread is gone.
        let _ = told.recv();
    }

    /// Ends, with all that was asked for done.
    pub(super) fn end(&self) {
        self.tasks.lock().unwrap_or_else(PoisonError::into_inner).take();
        let thread = self.thread.lock().unwrap_or_else(PoisonError::into_inner).take();
        if thread.is_some_and(|thread| thread.join().is_err()) {
            tracing::error!("what is done beside the committer had panicked");
        }
        self.preallocator.end();
    }

    fn give(&self, task: Task) {
        if let Some(tasks) = self.tasks.lock().unwrap_or_else(PoisonError::into_inner).as_ref() {
            // Without the thread it stays undone, and the next start does it.
            let _ = tasks.send(task);
        }
    }
}

fn sync(water: &HighWater) {
    if let Err(error) = water.sync() {
        tracing::error!(%error, "the high-water mark could not be synced");
    }
}

fn seal(log: &Arc<Log>, segment: &Segment) {
    if let Err(error) = segment.seal() {
        tracing::warn!(%error, "a file of the log could not be sealed; the next start does it");
    }
    forget_old_ids(log, segment.newest());
    if log.seen_ids.are_many() {
        let (log, place) = (Arc::clone(log), segment.next());
        // It may take long where there are very many, and the mark must be synced.
        if let Err(error) = background::begin("journal-ids", move || log.let_ids_go(place)) {
            tracing::warn!(%error, "ids stay in memory");
        }
    }
}

/// Forgets the ids in files that are too old by now.
pub(super) fn forget_old_ids(log: &Log, latest: i64) {
    let known = log.seen_ids.files();
    let segments = log.segments().into_iter().filter(|one| known.contains(&one.title.first));
    for segment in segments.filter(|one| seen_ids::is_forgotten(one.newest(), latest)) {
        if let Ok(table) = log.table(&segment) {
            log.seen_ids.forget_all(segment.title.first, &table);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::journal::Mark;
    use crate::journal::folder::StoreId;
    use crate::journal::high_water::Reach;

    #[test]
    fn the_mark_is_synced_however_much_is_noted_meanwhile() {
        const STORE: StoreId = StoreId([1; 16]);
        let folder = tempfile::tempdir().unwrap();
        let (water, _) = HighWater::open(&folder.path().join("high-water"), STORE).unwrap();
        let water = Arc::new(water);
        let log = Arc::new(Log::of(STORE, folder.path().to_owned(), vec![]));
        let aside = Aside::begin(log, Arc::clone(&water)).unwrap();
        water.note(Reach { place: 1, mark: Mark::default() }).unwrap();
        let until = Instant::now() + Duration::from_secs(60);
        while !water.is_synced() && Instant::now() < until {
            aside.noted();
            std::thread::sleep(MOMENT / 20);
        }
        assert!(water.is_synced());
        aside.end();
    }
}
