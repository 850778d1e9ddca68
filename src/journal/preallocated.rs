//! The next file of a log, written full of zeros before it is needed.
//!
//! A file that grows while it is written to makes whoever writes wait: syncing what lies
//! within its length waits for the change of its length, too. One that was written ahead
//! as a whole, apart from the one in use, keeps nobody waiting.

use std::fs::{self, File};
use std::io;
use std::os::unix::fs::{FileExt, OpenOptionsExt};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::thread::JoinHandle;
use std::time::Duration;

use rustix::fs::statvfs;

use crate::background;

/// So many bytes are written and synced at once, …
const STEP: usize = 256 * 1024;
/// … with so long between, so that whoever syncs the log meanwhile waits for little (ours: of
/// a megabyte at once, four times as rarely, the longest of those waits is about twice as long).
const PAUSE: Duration = Duration::from_millis(5);

/// Where so many files would no longer fit the disk none is prepared: the space is for
/// what is written.
const ROOM_FOR: u64 = 16;

/// What it is called until it is used; a start removes what a cut leaves of it.
const NAME: &str = "spare.new";

/// A file of zeros, on the disk.
#[derive(Debug)]
pub(super) struct Preallocated {
    pub file: File,
    pub path: PathBuf,
    pub length: u64,
}

/// Whoever prepares one.
#[derive(Debug)]
pub(super) struct Preallocator {
    folder: PathBuf,
    length: u64,
    state: Arc<Mutex<State>>,
    ended: Arc<AtomicBool>,
    thread: Mutex<Option<JoinHandle<()>>>,
}

#[derive(Debug, Default)]
enum State {
    #[default]
    Idle,
    Busy,
    Ready(Preallocated),
    /// It could not be written, and is not tried again for this file.
    Failed,
}

impl Preallocator {
    /// For files of so many bytes in a folder; none yet.
    pub(super) fn new(folder: PathBuf, length: u64) -> Preallocator {
        let (state, ended, thread) = (Arc::default(), Arc::default(), Mutex::default());
        Preallocator { folder, length, state, ended, thread }
    }

    /// Has one prepared, if none is there or under way.
    pub(super) fn ask(&self) {
        let mut state = lock(&self.state);
        if !matches!(*state, State::Idle) {
            return;
        }
        let (folder, length) = (self.folder.clone(), self.length);
        let (theirs, ended) = (Arc::clone(&self.state), Arc::clone(&self.ended));
        let work = move || {
            let prepared = prepare(&folder, length, &ended);
            *lock(&theirs) = prepared.map_or_else(
                |error| {
                    tracing::debug!(%error, "no file of the log could be prepared");
                    State::Failed
                },
                State::Ready,
            );
        };
        *state = match background::begin("journal-spare", work) {
            Ok(thread) => {
                *self.thread.lock().unwrap_or_else(PoisonError::into_inner) = Some(thread);
                State::Busy
            }
            Err(_) => State::Failed,
        };
    }

    /// Returns once none is under way.
    pub(super) fn settle(&self) {
        while matches!(*lock(&self.state), State::Busy) {
            std::thread::sleep(PAUSE);
        }
    }

    /// The one that is ready, if one is.
    pub(super) fn take(&self) -> Option<Preallocated> {
        let mut state = lock(&self.state);
        match std::mem::take(&mut *state) {
            State::Ready(preallocated) => Some(preallocated),
            State::Busy => {
                *state = State::Busy;
                None
            }
            State::Idle | State::Failed => None,
        }
    }

    /// Ends, and leaves none behind.
    pub(super) fn end(&self) {
        self.ended.store(true, Ordering::Release);
        let thread = self.thread.lock().unwrap_or_else(PoisonError::into_inner).take();
        if thread.is_some_and(|thread| thread.join().is_err()) {
            tracing::error!("whoever prepares files of the log had panicked");
        }
        if let Some(preallocated) = self.take() {
            // A start removes it as well.
            let _ = fs::remove_file(preallocated.path);
        }
    }
}

fn lock(state: &Mutex<State>) -> MutexGuard<'_, State> {
    state.lock().unwrap_or_else(PoisonError::into_inner)
}

fn prepare(folder: &Path, length: u64, ended: &AtomicBool) -> io::Result<Preallocated> {
    let disk = statvfs(folder)?;
    if disk.f_bavail.saturating_mul(disk.f_frsize) < length.saturating_mul(ROOM_FOR) {
        return Err(io::ErrorKind::StorageFull.into());
    }
    let path = folder.join(NAME);
    let mut options = File::options();
    options.read(true).write(true).create(true).truncate(true).mode(0o600);
    let file = options.open(&path)?;
    let filled = fill(&file, length, ended);
    if filled.is_err() {
        fs::remove_file(&path)?;
    }
    filled.map(|()| Preallocated { file, path, length })
}

fn fill(file: &File, length: u64, ended: &AtomicBool) -> io::Result<()> {
    let mut zeros = vec![0; STEP];
    for from in (0..length).step_by(STEP) {
        if ended.load(Ordering::Acquire) {
            return Err(io::ErrorKind::Interrupted.into());
        }
        // The last step may be a shorter one.
        zeros.truncate(usize::try_from(length - from).unwrap_or(STEP));
        file.write_all_at(&zeros, from)?;
        file.sync_data()?;
        std::thread::sleep(PAUSE);
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use std::time::Instant;

    use super::*;

    /// What is ready within a minute.
    fn waited_for(preallocator: &Preallocator) -> Option<Preallocated> {
        let until = Instant::now() + Duration::from_secs(60);
        while Instant::now() < until {
            preallocator.ask();
            if let Some(preallocated) = preallocator.take() {
                return Some(preallocated);
            }
            std::thread::sleep(PAUSE);
        }
        None
    }

    #[test]
    fn one_is_prepared_at_a_time_and_none_is_left() {
        let folder = tempfile::tempdir().unwrap();
        let preallocator = Preallocator::new(folder.path().to_owned(), 2 * STEP as u64 + 7);
        assert!(preallocator.take().is_none());
        let preallocated = waited_for(&preallocator).unwrap();
        assert_eq!(fs::read(&preallocated.path).unwrap(), vec![0; 2 * STEP + 7]);
        fs::rename(&preallocated.path, folder.path().join("used")).unwrap();
        preallocator.ask();
        preallocator.end();
        let left: Vec<_> = fs::read_dir(folder.path()).unwrap().map(|one| one.unwrap()).collect();
        assert_eq!(left.len(), 1, "{left:?}");
    }

    #[test]
    fn a_disk_without_room_for_many_is_left_alone() {
        let folder = tempfile::tempdir().unwrap();
        let ended = AtomicBool::new(false);
        let full = prepare(folder.path(), u64::MAX / ROOM_FOR, &ended).unwrap_err();
        assert_eq!(full.kind(), io::ErrorKind::StorageFull);
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 0);
    }
}
