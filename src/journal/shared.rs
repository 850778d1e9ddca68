//! What the committer, the callers and whoever looks after the store share: the
//! open log, the open snapshots, and whether anything may be written.

use std::path::PathBuf;
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError, RwLock, RwLockReadGuard, RwLockWriteGuard};

use super::aside::{self, Aside};
use super::embedded::Store;
use super::folder::Folder;
use super::high_water::HighWater;
use super::log::Log;
use super::opening;
use super::queue::Queue;
use super::writer::Writer;
use super::{JournalError, State};

/// A log that is open.
#[derive(Debug)]
pub(super) struct Opened {
    pub log: Arc<Log>,
    pub water: Arc<HighWater>,
    pub aside: Aside,
}

/// See the module.
#[derive(Debug)]
pub(super) struct Shared {
    folder: Mutex<Option<Folder>>,
    /// Where it is kept how far the log was acknowledged.
    mark: PathBuf,
    /// `None` after a failed reopen, and once closed.
    opened: RwLock<Option<Opened>>,
    writer: Mutex<Option<Writer>>,
    snapshots: RwLock<Option<Store>>,
    /// Held while snapshots or old entries change: one at a time.
    upkeep: Mutex<()>,
    /// Why the journal can only be read, if that is so.
    wrong: RwLock<Option<String>>,
    pub(super) queue: Queue,
    /// The place of the last durable entry: what lies after it is not shown.
    pub(super) last: AtomicU64,
}

impl Shared {
    /// Opens the log and the snapshots in a folder.
    ///
    /// # Errors
    /// They can't be read or made.
    pub(super) fn open(folder: Folder, mark: PathBuf) -> Result<Shared, JournalError> {
        let shared = Shared {
            folder: Mutex::new(None),
            mark,
            opened: RwLock::new(None),
            writer: Mutex::new(None),
            snapshots: RwLock::new(None),
            upkeep: Mutex::new(()),
            wrong: RwLock::new(None),
            queue: Queue::default(),
            last: AtomicU64::new(0),
        };
        shared.open_in(
            &folder,
            &mut shared.writer(),
            &mut shared.changing_log(),
            &mut shared.changing_snapshots(),
        )?;
        *shared.folder() = Some(folder);
        Ok(shared)
    }

    fn open_in(
        &self,
        folder: &Folder,
        writer: &mut Option<Writer>,
        opened: &mut Option<Opened>,
        snapshots: &mut Option<Store>,
    ) -> Result<(), JournalError> {
        let (water, acknowledged) = HighWater::open(&self.mark, folder.id())?;
        let water = Arc::new(water);
        let found = opening::open(folder, acknowledged)?;
        let aside = Aside::begin(Arc::clone(&found.log), Arc::clone(&water))?;
        *snapshots = Some(Store::open(&folder.store())?);
        match found.active.filter(|_| found.faults.is_empty()) {
            Some(active) => {
                water.note(found.reach)?;
                water.sync()?;
                if folder.is_unfinished()? {
                    folder.finish()?;
                }
                if active.runs_short() {
                    aside.write_ahead(&active);
                }
                found.unsealed.into_iter().for_each(|segment| aside.seal(segment));
                *writer = Some(Writer::new(Arc::clone(&found.log), active, found.reach.mark));
                self.queue.recover();
            }
            None => {
                let why = told(&found.faults);
                tracing::error!(%why, "the journal can only be read");
                *self.wrong.write().unwrap_or_else(PoisonError::into_inner) = Some(why.clone());
                self.queue.stop(&JournalError::ReadOnly(why));
            }
        }
        self.last.store(found.reach.place, Ordering::Release);
        *opened = Some(Opened { log: found.log, water, aside });
        Ok(())
    }

    /// The open log.
    pub(super) fn opened(&self) -> RwLockReadGuard<'_, Option<Opened>> {
        self.opened.read().unwrap_or_else(PoisonError::into_inner)
    }

    fn changing_log(&self) -> RwLockWriteGuard<'_, Option<Opened>> {
        self.opened.write().unwrap_or_else(PoisonError::into_inner)
    }

    /// The log, which stays as it is for as long as it is held.
    ///
    /// # Errors
    /// It is closed, or could not be opened again.
    pub(super) fn log(&self) -> Result<Arc<Log>, JournalError> {
        let opened = self.opened();
        opened.as_ref().map(|opened| Arc::clone(&opened.log)).ok_or_else(|| self.refusal())
    }

    /// Whoever adds to the log.
    pub(super) fn writer(&self) -> MutexGuard<'_, Option<Writer>> {
        self.writer.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Held while snapshots or old entries change.
    pub(super) fn upkeep(&self) -> MutexGuard<'_, ()> {
        self.upkeep.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Reads from the snapshots, none of which changes meanwhile.
    ///
    /// # Errors
    /// What `read` failed with; they are closed.
    pub(super) fn reading<T>(
        &self,
        read: impl FnOnce(&Store) -> Result<T, JournalError>,
    ) -> Result<T, JournalError> {
        let snapshots = self.snapshots.read().unwrap_or_else(PoisonError::into_inner);
        snapshots.as_ref().map_or_else(|| Err(self.refusal()), read)
    }

    /// The snapshots, to be changed or exchanged.
    pub(super) fn changing_snapshots(&self) -> RwLockWriteGuard<'_, Option<Store>> {
        self.snapshots.write().unwrap_or_else(PoisonError::into_inner)
    }

    /// The folder, while it is ours.
    pub(super) fn folder(&self) -> MutexGuard<'_, Option<Folder>> {
        self.folder.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Why nothing may be read or written.
    pub(super) fn refusal(&self) -> JournalError {
        self.queue.refusal().unwrap_or(JournalError::Closed)
    }

    /// Why the journal can only be read, if that is so.
    pub(super) fn wrong(&self) -> Option<String> {
        self.wrong.read().unwrap_or_else(PoisonError::into_inner).clone()
    }

    /// Whether anything can be appended.
    pub(super) fn state(&self) -> State {
        match (self.wrong(), self.queue.refusal()) {
            (Some(why), _) => State::ReadOnly(why),
            (None, Some(why)) => State::Stopped(why),
            (None, None) => State::Writable,
        }
    }

    /// Drops every handle and opens all again.
    ///
    /// # Errors
    /// The disk is still full, or it can't be opened.
    pub(super) fn reopen(&self) -> Result<(), JournalError> {
        let _upkeep = self.upkeep();
        let folder = self.folder();
        let Some(folder) = folder.as_ref().filter(|_| !self.queue.is_closed()) else {
            return Err(JournalError::Closed);
        };
        // On a full disk the journal would not open again, and what can still be
        // read would be lost as well: keep it as it is.
        folder.has_room()?;
        // Nothing is written or read meanwhile.
        let mut writer = self.writer();
        let mut opened = self.changing_log();
        let mut snapshots = self.changing_snapshots();
        let_go(&mut writer, &mut opened, &mut snapshots);
        let reopened = Store::let_go_of(&folder.store())
            .and_then(|()| folder.settle())
            .and_then(|()| self.open_in(folder, &mut writer, &mut opened, &mut snapshots));
        if let Err(error) = &reopened {
            self.queue.stop(error);
        }
        reopened
    }

    /// Lets go of all, for good.
    pub(super) fn close(&self) {
        let _upkeep = self.upkeep();
        let_go(&mut self.writer(), &mut self.changing_log(), &mut self.changing_snapshots());
        *self.folder() = None;
    }

    /// Forgets ids that are too old by now.
    pub(super) fn forget_old_ids(&self) {
        if let Ok(log) = self.log() {
            let latest = log.segments().iter().map(|segment| segment.newest()).max();
            aside::forget_old_ids(&log, latest.unwrap_or_default());
        }
    }
}

/// Drops every handle.
fn let_go(writer: &mut Option<Writer>, opened: &mut Option<Opened>, snapshots: &mut Option<Store>) {
    *writer = None;
    if let Some(opened) = opened.take() {
        opened.aside.end();
    }
    *snapshots = None;
}

/// The first faults in words, and how many more there are.
fn told(faults: &[String]) -> String {
    const TOLD: usize = 3;
    let first = faults.iter().take(TOLD).map(String::as_str).collect::<Vec<_>>().join("; ");
    match faults.len().saturating_sub(TOLD) {
        0 => first,
        more => format!("{first}; and {more} more"),
    }
}
