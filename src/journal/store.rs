//! The embedded store itself: opening it, and writing one batch so that it
//! survives a power cut. Knows nothing of queues, threads or tickets.
//!
//! The store's own flush hands pages to the disk but does not make the file's
//! length durable, so every batch is followed by a sync of the file through a
//! handle of our own. Its flush in the background is off: nothing is written
//! but what the committer writes.

use std::collections::{BTreeMap, HashSet};
use std::fs::{File, TryLockError};
use std::io::ErrorKind;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::Path;
use std::thread;
use std::time::{Duration, Instant};

use sled::Batch;

use super::folder::{self, Folder};
use super::record::{self, Pack};
use super::{Entry, JournalError, Part, Seq, layout};

/// How much of the store is kept in memory at most, in bytes. Ours: the
/// store's own default is a gibibyte.
const CACHE: u64 = 64 * 1024 * 1024;

/// How long a store that was just dropped may take to let go of its file.
const PATIENCE: Duration = Duration::from_secs(5);

const TITLE: &[u8] = b"lapwing journal ";

/// One thing to be written.
#[derive(Debug)]
pub(super) enum Work {
    /// An entry at the end of the log.
    Append(Entry),
    /// A snapshot's changed parts, and how far the snapshot then goes.
    Checkpoint { through: Seq, parts: Vec<Part> },
}

/// An open store.
#[derive(Debug)]
pub(super) struct Store {
    pub(super) tree: sled::Tree,
    db: sled::Db,
    file: File,
}

impl Store {
    /// Opens the store in a folder, making it if the folder is new.
    ///
    /// # Errors
    /// It can't be opened, is damaged, or holds no journal.
    pub(super) fn open(folder: &Folder) -> Result<Self, JournalError> {
        let path = folder.store();
        let store = Self::at(&path)?;
        store.know_format(folder)?;
        // What opening has tidied up becomes durable before anything relies on it.
        store.sync()?;
        folder::sync_folder(&path)?;
        Ok(store)
    }

    /// Begins a store of our format in an empty folder.
    ///
    /// # Errors
    /// It can't be made there.
    pub(super) fn begin(path: &Path) -> Result<Self, JournalError> {
        let store = Self::at(path)?;
        store.write_format(path)?;
        Ok(store)
    }

    /// Returns once no thread of a store that was dropped has its file open.
    ///
    /// # Errors
    /// It is still open after some seconds, or can't be looked at.
    pub(super) fn let_go_of(path: &Path) -> Result<(), JournalError> {
        let data = path.join("db");
        let begun = Instant::now();
        loop {
            let file = match File::open(&data) {
                Ok(file) => file,
                Err(error) if error.kind() == ErrorKind::NotFound => return Ok(()),
                Err(error) => return Err(JournalError::of_file(&data, &error)),
            };
            match file.try_lock() {
                Ok(()) => return Ok(()),
                Err(TryLockError::WouldBlock) if begun.elapsed() < PATIENCE => {
                    thread::sleep(Duration::from_millis(5));
                }
                Err(TryLockError::WouldBlock) => {
                    return Err(JournalError::Locked(path.to_owned()));
                }
                Err(TryLockError::Error(error)) => {
                    return Err(JournalError::of_file(&data, &error));
                }
            }
        }
    }

    fn at(path: &Path) -> Result<Self, JournalError> {
        let db = guarded(|| {
            open_patiently(
                &sled::Config::new().path(path).cache_capacity(CACHE).flush_every_ms(None),
            )
        })?;
        let tree = guarded(|| Ok(db.open_tree(layout::TREE)?))?;
        let data = path.join("db");
        let file = File::options()
            .read(true)
            .write(true)
            .open(&data)
            .map_err(|error| JournalError::of_file(&data, &error))?;
        Ok(Self { tree, db, file })
    }

    /// Writes everything in `work`, in this order and as one step, after the
    /// entry `last`. On return it is durable. Gives each one's place.
    ///
    /// # Errors
    /// It is not certain to be durable; the store must be opened again.
    pub(super) fn commit(&self, last: u64, work: &[&Work]) -> Result<Vec<Seq>, JournalError> {
        guarded(|| {
            let mut draft = Draft::after(last);
            let places = work
                .iter()
                .map(|work| match work {
                    Work::Append(entry) => draft.append(self, entry),
                    Work::Checkpoint { through, parts } => draft.checkpoint(self, *through, parts),
                })
                .collect::<Result<Vec<_>, _>>()?;
            self.tree.apply_batch(draft.finish())?;
            self.sync()?;
            Ok(places)
        })
    }

    fn sync(&self) -> Result<(), JournalError> {
        guarded(|| Ok(self.db.flush()?))?;
        self.file.sync_data().map_err(|error| JournalError::of_file(Path::new("db"), &error))
    }

    /// Checks that this is the store the folder's marker speaks of. A store
    /// opened by another version of itself looks like an empty one.
    fn know_format(&self, folder: &Folder) -> Result<(), JournalError> {
        let ours = format();
        match guarded(|| Ok(self.tree.get(layout::FORMAT)?))? {
            Some(found) if *found == *ours => {}
            Some(_) => {
                return Err(JournalError::Damaged(
                    "the store and its folder differ in format".into(),
                ));
            }
            None if folder.is_unfinished()? => self.write_format(&folder.store())?,
            None => {
                return Err(JournalError::Damaged(
                    "the folder is marked as a journal, but the store in it is empty".into(),
                ));
            }
        }
        if folder.is_unfinished()? { folder.finish() } else { Ok(()) }
    }

    fn write_format(&self, path: &Path) -> Result<(), JournalError> {
        guarded(|| Ok(self.tree.insert(layout::FORMAT, format())?))?;
        self.sync()?;
        // The store never syncs its settings itself.
        let settings = path.join("conf");
        File::open(&settings)
            .and_then(|file| file.sync_all())
            .map_err(|error| JournalError::of_file(&settings, &error))?;
        folder::sync_folder(path)
    }
}

fn format() -> Vec<u8> {
    [TITLE, folder::FORMAT.to_string().as_bytes()].concat()
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

/// A batch in the making.
struct Draft {
    batch: Batch,
    next: u64,
    pack: Pack,
    pack_from: u64,
    indexed: HashSet<[u8; 17]>,
}

impl Draft {
    fn after(last: u64) -> Self {
        Self {
            batch: Batch::default(),
            next: last + 1,
            pack: Pack::new(),
            pack_from: last + 1,
            indexed: HashSet::new(),
        }
    }

    fn append(&mut self, store: &Store, entry: &Entry) -> Result<Seq, JournalError> {
        let seq = self.next;
        self.next += 1;
        let frame = record::frame(&seq.to_be_bytes(), &record::entry_content(entry));
        if !Pack::can_ever_take(&frame) {
            self.end_pack();
            for (piece, record) in (0..).zip(record::pieces(&frame)) {
                self.batch.insert(&layout::entry_key(seq, piece), record);
            }
            self.pack_from = self.next;
        } else {
            if !self.pack.has_room_for(&frame) {
                self.end_pack();
                self.pack_from = seq;
            }
            self.pack.add(&frame);
        }
        if let Some(key) = &entry.key {
            let key = layout::index_key(key);
            // The first entry keeps the key, so that what a repeat finds never changes.
            if self.indexed.insert(key) && !store.tree.contains_key(key)? {
                self.batch.insert(&key, &seq.to_be_bytes());
            }
        }
        Ok(Seq::new(seq))
    }

    fn checkpoint(
        &mut self,
        store: &Store,
        through: Seq,
        parts: &[Part],
    ) -> Result<Seq, JournalError> {
        let parts: BTreeMap<_, _> = parts.iter().map(|part| (&part.name, &part.bytes)).collect();
        for (name, bytes) in parts {
            let mut written = 0;
            for record in record::pieces(&record::frame(name.as_bytes(), bytes)) {
                self.batch.insert(layout::part_key(name, written), record);
                written += 1;
            }
            // A longer one before it leaves pieces over.
            let rest = layout::part_key(name, written)..=layout::part_key(name, u32::MAX);
            for key in store.tree.range(rest).keys() {
                self.batch.remove(key?);
            }
        }
        self.batch.insert(layout::THROUGH, &through.number().to_be_bytes());
        Ok(through)
    }

    fn end_pack(&mut self) {
        if !self.pack.is_empty() {
            self.batch.insert(&layout::entry_key(self.pack_from, 0), self.pack.take());
        }
    }

    fn finish(mut self) -> Batch {
        self.end_pack();
        self.batch
    }
}
