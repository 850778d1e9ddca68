//! The journal in a database, as a [`Journal`].

use std::sync::atomic::Ordering;
use std::sync::mpsc::{self, RecvTimeoutError, Sender};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread::{self, JoinHandle};
use std::time::Duration;

use super::line::Use;
use super::reading::{self, Reading, Whose};
use super::shared::Shared;
use super::{DatabaseUrl, checking, committer, parts, revising};
use crate::clock::Clock;
use crate::journal::contract::{Change, Entries, Journal, State};
use crate::journal::{
    Checked, Entry, JournalError, MessageKey, Part, Placed, Seq, Snapshot, StreamId, Ticket, Tip,
    frame,
};

/// A [`Journal`] in a PostgreSQL database, 15 or later, which this process alone writes
/// to until it is closed or dropped, or the database has lost it for ten seconds.
///
/// Whatever is asked may be asked on any thread; one of a runtime of several threads is
/// relieved of its other work while it waits.
pub struct PostgresJournal {
    shared: Arc<Shared>,
    committer: Mutex<Option<JoinHandle<()>>>,
    /// Looks whether we may still write; ends with this end of its way.
    watch: Mutex<Option<(Sender<()>, JoinHandle<()>)>>,
}

/// How often it is looked whether we may still write (ours).
const WATCH: Duration = Duration::from_secs(2);

impl PostgresJournal {
    /// Opens the journal in a database to write to it. Tables that are missing, or an
    /// earlier version's, are made and changed. Blocks, for some seconds where no
    /// server takes writes.
    ///
    /// # Errors
    /// [`JournalError::Locked`] if another process writes to it,
    /// [`Newer`](JournalError::Newer) if a later version's process did, and whatever
    /// else keeps it from being reached, believed or read; among that a clock of its
    /// machine that is half a minute off `clock`.
    pub fn open(url: DatabaseUrl, clock: Arc<dyn Clock>) -> Result<PostgresJournal, JournalError> {
        let shared = Arc::new(Shared::open(url, clock, Use::Writing)?);
        let failed = |error| JournalError::Storage(format!("no thread to write with: {error}"));
        let theirs = Arc::clone(&shared);
        let committer = thread::Builder::new()
            .name("journal".into())
            .spawn(move || committer::run(&theirs))
            .map_err(failed)?;
        let (end, ended) = mpsc::channel::<()>();
        let theirs = Arc::clone(&shared);
        let watch = thread::Builder::new()
            .name("journal-watch".into())
            .spawn(move || {
                while ended.recv_timeout(WATCH) == Err(RecvTimeoutError::Timeout) {
                    theirs.look();
                }
            })
            .map_err(failed)?;
        let (committer, watch) = (Mutex::new(Some(committer)), Mutex::new(Some((end, watch))));
        Ok(PostgresJournal { shared, committer, watch })
    }

    /// Opens it to be read, from whichever server answers first, while another process
    /// may write: it is [read only](State::ReadOnly).
    ///
    /// # Errors
    /// It isn't reached, or holds no journal of this version.
    pub fn open_to_read(
        url: DatabaseUrl,
        clock: Arc<dyn Clock>,
    ) -> Result<PostgresJournal, JournalError> {
        let shared = Arc::new(Shared::open(url, clock, Use::Reading)?);
        Ok(PostgresJournal { shared, committer: Mutex::default(), watch: Mutex::default() })
    }
}

impl Journal for PostgresJournal {
    fn append(&self, entry: Entry) -> Ticket {
        if self.shared.what_for() == Use::Reading {
            return Ticket::refused(JournalError::ReadOnly(revising::READING.to_owned()));
        }
        match frame::fits(&entry) {
            Ok(()) => self.shared.queue.push(entry),
            Err(error) => Ticket::refused(error),
        }
    }

    fn find(&self, key: &MessageKey) -> Result<Option<Placed>, JournalError> {
        reading::find(&self.shared, key)
    }

    fn entry(&self, place: Seq) -> Result<Option<Placed>, JournalError> {
        reading::entry(&self.shared, place.number())
    }

    fn entries_of(&self, stream: &StreamId, after: u64) -> Entries<'_> {
        let whose = match *stream == StreamId::all() {
            true => Whose::Everybodys,
            false => Whose::Streams(stream.clone()),
        };
        Box::new(Reading::of(&self.shared, whose, after))
    }

    fn streams(&self) -> Result<Vec<StreamId>, JournalError> {
        reading::streams(&self.shared)
    }

    fn tip(&self, stream: &StreamId) -> Result<Option<Tip>, JournalError> {
        reading::tip(&self.shared, stream)
    }

    fn last(&self) -> Option<Seq> {
        let last = self.shared.last.load(Ordering::Acquire);
        Some(last).filter(|&last| last > 0).map(Seq::new)
    }

    fn checkpoint(
        &self,
        of: &StreamId,
        from: Option<u64>,
        through: u64,
        parts: Vec<Part>,
    ) -> Result<(), JournalError> {
        parts::checkpoint(&self.shared, of, from, through, parts)
    }

    fn snapshot(&self, of: &StreamId) -> Result<Snapshot, JournalError> {
        parts::snapshot(&self.shared, of)
    }

    fn revise(&self, streams: &[StreamId], change: &mut Change<'_>) -> Result<(), JournalError> {
        revising::revise(&self.shared, streams, change)
    }

    fn check(&self) -> Result<Checked, JournalError> {
        checking::check(&self.shared)
    }

    fn take_over(&self, entries: &[Placed]) -> Result<(), JournalError> {
        match self.shared.writer().as_mut() {
            Some(writer) => self.shared.take_over(writer, entries),
            None => Err(self.shared.refusal()),
        }
    }

    fn state(&self) -> State {
        match (self.shared.what_for(), self.shared.queue.refusal()) {
            (Use::Reading, _) => State::ReadOnly(revising::READING.to_owned()),
            (Use::Writing, Some(why)) => State::Stopped(why),
            (Use::Writing, None) => State::Writable,
        }
    }

    fn prepare_to_reopen(&self) -> Result<(), JournalError> {
        self.shared.prepare_to_reopen()
    }

    fn reopen(&self) -> Result<(), JournalError> {
        self.shared.reopen()
    }

    fn close(&self) {
        self.shared.queue.close();
        let watch = self.watch.lock().unwrap_or_else(PoisonError::into_inner).take();
        if let Some((end, thread)) = watch {
            drop(end);
            // What it looks at goes with it.
            let _ = thread.join();
        }
        let committer = self.committer.lock().unwrap_or_else(PoisonError::into_inner).take();
        if committer.is_some_and(|thread| thread.join().is_err()) {
            tracing::error!("the journal's committer had panicked");
        }
        self.shared.close();
    }
}

impl Drop for PostgresJournal {
    fn drop(&mut self) {
        self.close();
    }
}
