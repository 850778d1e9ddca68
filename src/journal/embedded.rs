//! The embedded store itself: opening it, and writing to it so that it survives
//! a power cut. Knows nothing of what is kept in it.
//!
//! The store's own flush hands pages to the disk but does not make the file's
//! length durable, so every flush is followed by a sync of the file through a
//! handle of our own. Its flush in the background is off: nothing is written
//! but what we write.
//!
//! All in it can be made again from the log. A store that can't be opened is
//! therefore begun anew.

use std::fs::{File, TryLockError};
use std::io::ErrorKind;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::Path;
use std::thread;
use std::time::{Duration, Instant};

use super::JournalError;
use super::folder;

/// How much of the store is kept in memory at most, in bytes. Ours: the
/// store's own default is a gibibyte.
const CACHE: u64 = 16 * 1024 * 1024;

/// How long a store that was just dropped may take to let go of its file.
const PATIENCE: Duration = Duration::from_secs(5);

/// The one tree that holds everything. The store's unnamed tree is left alone:
/// it doesn't survive a move to the store's next version.
const TREE: &str = "snapshots";

/// An open store.
#[derive(Debug)]
pub(super) struct Store {
    pub(super) tree: sled::Tree,
    db: sled::Db,
    file: File,
}

impl Store {
    /// Opens the store in a folder, or begins it anew where it can't be opened.
    ///
    /// # Errors
    /// It can't be made either: the disk is full, or fails.
    pub(super) fn open(path: &Path) -> Result<Self, JournalError> {
        match Self::at(path) {
            Ok(store) => Ok(store),
            Err(error @ (JournalError::Full { .. } | JournalError::Locked(_))) => Err(error),
            Err(error) => {
                tracing::warn!(%error, "the snapshots can't be opened; they are made anew");
                Self::let_go_of(path)?;
                folder::remove_folder(path)?;
                folder::make_private(path)?;
                Self::begin(path)
            }
        }
    }

    /// Begins a store in an empty folder.
    ///
    /// # Errors
    /// It can't be made there.
    pub(super) fn begin(path: &Path) -> Result<Self, JournalError> {
        let store = Self::at(path)?;
        store.sync()?;
        // The store never syncs its settings itself.
        let settings = path.join("conf");
        File::open(&settings)
            .and_then(|file| file.sync_all())
            .map_err(|error| JournalError::of_file(&settings, &error))?;
        folder::sync_folder(path)?;
        Ok(store)
    }

    /// Returns once no thread of a store that was dropped has its file open.
    ///
    /// # Errors
    /// It is still open after some seconds, or can't be looked at.
    pub(super) fn let_go_of(path: &Path) -> Result<(), JournalError> {
        let data = path.join("db");
        let file = match File::open(&data) {
            Ok(file) => file,
            Err(error) if error.kind() == ErrorKind::NotFound => return Ok(()),
            Err(error) => return Err(JournalError::of_file(&data, &error)),
        };
        folder::lock_within(&file, PATIENCE).map_err(|refused| match refused {
            TryLockError::WouldBlock => JournalError::Locked(path.to_owned()),
            TryLockError::Error(error) => JournalError::of_file(&data, &error),
        })
    }

    fn at(path: &Path) -> Result<Self, JournalError> {
        let db = guarded(|| {
            open_patiently(
                &sled::Config::new().path(path).cache_capacity(CACHE).flush_every_ms(None),
            )
        })?;
        let tree = guarded(|| Ok(db.open_tree(TREE)?))?;
        let data = path.join("db");
        let file = File::options()
            .read(true)
            .write(true)
            .open(&data)
            .map_err(|error| JournalError::of_file(&data, &error))?;
        Ok(Self { tree, db, file })
    }

    /// Makes durable what was written.
    ///
    /// # Errors
    /// It can't be; the store must be opened again.
    pub(super) fn sync(&self) -> Result<(), JournalError> {
        guarded(|| Ok(self.db.flush()?))?;
        self.file.sync_data().map_err(|error| JournalError::of_file(Path::new("db"), &error))
    }
}

/// Runs what may panic inside the store on a damaged file, and makes an error
/// of that.
pub(super) fn guarded<T>(run: impl FnOnce() -> Result<T, JournalError>) -> Result<T, JournalError> {
    catch_unwind(AssertUnwindSafe(run)).unwrap_or_else(|panic| {
        let said = panic
            .downcast_ref::<String>()
            .map(String::as_str)
            .or_else(|| panic.downcast_ref::<&str>().copied());
        Err(JournalError::Damaged(format!(
            "the store gave up: {}",
            said.unwrap_or("no reason given")
        )))
    })
}

/// Opens the store; its threads may hold on to the file for a moment after the
/// last handle is gone, and our own lock already says that nobody else does.
fn open_patiently(config: &sled::Config) -> Result<sled::Db, JournalError> {
    let begun = Instant::now();
    loop {
        match config.open() {
            Err(sled::Error::Io(error))
                if error.to_string().contains("acquire lock") && begun.elapsed() < PATIENCE =>
            {
                thread::sleep(Duration::from_millis(5));
            }
            outcome => return Ok(outcome?),
        }
    }
}
