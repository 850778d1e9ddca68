//! The journal in a folder of this machine, on an embedded store.

use std::path::Path;
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Arc, Mutex, PoisonError, RwLock, RwLockReadGuard, RwLockWriteGuard};
use std::thread::{self, JoinHandle};

use super::contract::{Change, Entries, Journal, Parts};
use super::folder::Folder;
use super::queue::Queue;
use super::store::{Store, Work};
use super::{
    Entry, JournalError, MessageKey, Part, Seq, Snapshot, Ticket, committer, layout, record,
};

/// A [`Journal`] in one folder, which it holds until it is closed or dropped.
///
/// The folder is its own: nothing else may be kept in it.
#[derive(Debug)]
pub struct SledJournal {
    pub(super) shared: Arc<Shared>,
    committer: Mutex<Option<JoinHandle<()>>>,
}

/// What the committer and the callers share.
#[derive(Debug)]
pub(super) struct Shared {
    folder: Mutex<Option<Folder>>,
    /// `None` after a failed reopen, and once closed.
    store: RwLock<Option<Store>>,
    /// Held while the snapshot's parts change.
    parts: RwLock<()>,
    pub(super) queue: Queue,
    /// The place of the last durable entry: what lies after it is not shown.
    pub(super) last: AtomicU64,
}

impl SledJournal {
    /// Opens the journal in `folder`, or begins a new one where there is
    /// nothing or an empty folder. Only its owner gets rights to it.
    ///
    /// # Errors
    /// [`JournalError::Locked`] if it is open elsewhere,
    /// [`NotOurs`](JournalError::NotOurs) or [`Newer`](JournalError::Newer) if
    /// something else or a newer version wrote it, and whatever else keeps it
    /// from being read.
    pub fn open(folder: impl AsRef<Path>) -> Result<Self, JournalError> {
        let folder = Folder::take(folder.as_ref())?;
        let store = Store::open(&folder)?;
        let shared = Arc::new(Shared {
            last: AtomicU64::new(store.last()?),
            folder: Mutex::new(Some(folder)),
            store: RwLock::new(Some(store)),
            parts: RwLock::new(()),
            queue: Queue::default(),
        });
        let theirs = Arc::clone(&shared);
        let committer = thread::Builder::new()
            .name("journal".into())
            .spawn(move || committer::run(&theirs))
            .map_err(|error| JournalError::Storage(format!("no thread to write with: {error}")))?;
        Ok(Self { shared, committer: Mutex::new(Some(committer)) })
    }
}

impl Journal for SledJournal {
    fn append(&self, entry: Entry) -> Ticket {
        match record::fits(&entry) {
            Ok(()) => self.shared.queue.push(Work::Append(entry)),
            Err(error) => Ticket::refused(error),
        }
    }

    fn find(&self, key: &MessageKey) -> Result<Option<(Seq, Entry)>, JournalError> {
        self.shared.reading(|store| {
            let Some(place) = store.place_of(key)? else { return Ok(None) };
            if place > self.shared.last.load(Ordering::Acquire) {
                return Ok(None);
            }
            let found = store.entries_from(place)?.into_iter().next();
            let index = layout::index_key(key);
            Ok(found.filter(|(_, entry)| {
                entry.key.as_ref().is_some_and(|key| layout::index_key(key) == index)
            }))
        })
    }

    fn checkpoint(&self, through: Seq, parts: Vec<Part>) -> Ticket {
        let last = self.shared.last.load(Ordering::Acquire);
        if through.number() > last {
            return Ticket::refused(JournalError::Ahead { through: through.number(), last });
        }
        let fit = parts.iter().try_for_each(|part| {
            record::within("the name of a part", part.name.len(), record::LONGEST_NAME)?;
            record::within("a part", part.bytes.len(), record::LONGEST_BODY)
        });
        match fit {
            Ok(()) => self.shared.queue.push(Work::Checkpoint { through, parts }),
            Err(error) => Ticket::refused(error),
        }
    }

    fn snapshot(&self) -> Result<Snapshot, JournalError> {
        self.shared.reading(|store| {
            let _parts = self.shared.parts.read().unwrap_or_else(PoisonError::into_inner);
            store.snapshot()
        })
    }

    fn entries_after(&self, through: Option<Seq>) -> Entries<'_> {
        let next = through.map_or(1, |through| through.number().saturating_add(1));
        Box::new(Reading {
            shared: &self.shared,
            next,
            read: Vec::new().into_iter(),
            failed: false,
        })
    }

    fn last(&self) -> Option<Seq> {
        Some(self.shared.last.load(Ordering::Acquire)).filter(|&last| last > 0).map(Seq::new)
    }

    fn rewrite(&self, change: &mut Change<'_>, parts: &mut Parts<'_>) -> Result<(), JournalError> {
        let folder = self.shared.folder.lock().unwrap_or_else(PoisonError::into_inner);
        let Some(folder) = folder.as_ref() else { return Err(JournalError::Closed) };
        self.shared.rewrite(folder, change, parts)
    }

    fn reopen(&self) -> Result<(), JournalError> {
        self.shared.reopen()
    }

    fn close(&self) {
        self.shared.queue.close();
        let committer = self.committer.lock().unwrap_or_else(PoisonError::into_inner).take();
        if let Some(committer) = committer
            && committer.join().is_err()
        {
            tracing::error!("the journal's committer had panicked");
        }
        *self.shared.changing_store() = None;
        *self.shared.folder.lock().unwrap_or_else(PoisonError::into_inner) = None;
    }
}

impl Drop for SledJournal {
    fn drop(&mut self) {
        self.close();
    }
}

impl Shared {
    /// The store, which stays open for as long as the guard is held.
    pub(super) fn store(&self) -> RwLockReadGuard<'_, Option<Store>> {
        self.store.read().unwrap_or_else(PoisonError::into_inner)
    }

    /// Keeps others from reading the snapshot's parts.
    pub(super) fn changing_parts(&self) -> RwLockWriteGuard<'_, ()> {
        self.parts.write().unwrap_or_else(PoisonError::into_inner)
    }

    /// Reads from the store if it is open.
    pub(super) fn reading<T>(
        &self,
        read: impl FnOnce(&Store) -> Result<T, JournalError>,
    ) -> Result<T, JournalError> {
        match self.store().as_ref() {
            Some(store) => read(store),
            None => Err(self.queue.refusal().unwrap_or(JournalError::Closed)),
        }
    }

    pub(super) fn changing_store(&self) -> RwLockWriteGuard<'_, Option<Store>> {
        self.store.write().unwrap_or_else(PoisonError::into_inner)
    }

    fn reopen(&self) -> Result<(), JournalError> {
        let folder = self.folder.lock().unwrap_or_else(PoisonError::into_inner);
        let Some(folder) = folder.as_ref().filter(|_| !self.queue.is_closed()) else {
            return Err(JournalError::Closed);
        };
        // On a full disk the store would not open again, and what can still be
        // read would be lost as well: keep it as it is.
        folder.has_room()?;
        // The committer holds the store while it writes, so nothing is under way.
        let mut store = self.changing_store();
        *store = None;
        let opened = Store::let_go_of(&folder.store())
            .and_then(|()| folder.settle())
            .and_then(|()| Store::open(folder))
            .and_then(|opened| Ok((opened.last()?, opened)));
        match opened {
            Ok((last, opened)) => {
                self.last.store(last, Ordering::Release);
                *store = Some(opened);
                self.queue.recover();
                Ok(())
            }
            Err(error) => {
                let waiting = self.queue.fail(error.clone());
                for job in waiting {
                    let _ = job.promise.send(Err(error.clone()));
                }
                Err(error)
            }
        }
    }
}

/// Reads the log record by record, holding nothing in between.
struct Reading<'a> {
    shared: &'a Shared,
    next: u64,
    read: std::vec::IntoIter<(Seq, Entry)>,
    failed: bool,
}

impl Iterator for Reading<'_> {
    type Item = Result<(Seq, Entry), JournalError>;

    fn next(&mut self) -> Option<Self::Item> {
        let last = self.shared.last.load(Ordering::Acquire);
        if self.failed || self.next > last {
            return None;
        }
        if self.read.as_slice().is_empty() {
            match self.shared.reading(|store| store.entries_from(self.next)) {
                Ok(entries) => self.read = entries.into_iter(),
                Err(error) => {
                    self.failed = true;
                    return Some(Err(error));
                }
            }
        }
        let found = self.read.next()?;
        self.next = found.0.number() + 1;
        Some(Ok(found))
    }
}
