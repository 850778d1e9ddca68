//! The journal in a database, as a [`Journal`].

use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{self, Sender};
use std::sync::{Arc, Mutex, PoisonError, Weak};
use std::thread::{self, JoinHandle};

use super::line::Use;
use super::reading::{self, Reading, Whose};
use super::shared::Shared;
use super::{DatabaseUrl, checking, committer, lead, parts, revising};
use crate::clock::Clock;
use crate::journal::contract::{Change, Entries, Journal, State};
use crate::journal::{
    Basis, Checked, Entry, Follower, JournalError, Machine, MessageKey, Part, Placed, Seq,
    Snapshot, StreamId, Ticket, Tip, frame,
};

/// A [`Journal`] in a PostgreSQL database, 15 or later, which any number of processes
/// write to.
///
/// Whatever is asked may be asked on any thread; one of a runtime of several threads is
/// relieved of its other work while it waits.
pub struct PostgresJournal {
    shared: Arc<Shared>,
    committer: Mutex<Option<JoinHandle<()>>>,
    leads: Arc<AtomicBool>,
    /// Seeks to lead; ends with this end of its way.
    leader: Mutex<Option<(Sender<()>, JoinHandle<()>)>>,
}

impl PostgresJournal {
    /// Opens the journal in a database to write to it. Tables that are missing, or an
    /// earlier version's, are made and changed. Blocks, for some seconds where no
    /// server takes writes.
    ///
    /// # Errors
    /// [`JournalError::Newer`] if a later version's process wrote to it, and whatever
    /// else keeps it from being reached, believed or read; among that a clock of its
    /// machine that is half a minute off `clock`.
    pub fn open(url: DatabaseUrl, clock: Arc<dyn Clock>) -> Result<PostgresJournal, JournalError> {
        let shared = Arc::new(Shared::open(url, clock, Use::Writing)?);
        let theirs = Arc::clone(&shared);
        let committer = thread::Builder::new()
            .name("journal".into())
            .spawn(move || committer::run(&theirs))
            .map_err(|error| JournalError::Storage(format!("no thread to write with: {error}")))?;
        Ok(Self::of(shared, Some(committer)))
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
        Ok(Self::of(Arc::new(Shared::open(url, clock, Use::Reading)?), None))
    }

    fn of(shared: Arc<Shared>, committer: Option<JoinHandle<()>>) -> PostgresJournal {
        let (committer, leader) = (Mutex::new(committer), Mutex::default());
        PostgresJournal { shared, committer, leads: Arc::default(), leader }
    }

    fn push(&self, entry: Entry, basis: Option<Basis>) -> Ticket {
        if self.shared.what_for() == Use::Reading {
            return Ticket::refused(JournalError::ReadOnly(revising::READING.to_owned()));
        }
        match frame::fits(&entry) {
            Ok(()) => self.shared.queue.push(entry, basis),
            Err(error) => Ticket::refused(error),
        }
    }
}

impl Journal for PostgresJournal {
    fn append(&self, entry: Entry) -> Ticket {
        self.push(entry, None)
    }

    fn is_shared(&self) -> bool {
        true
    }

    fn follow(&self, follower: Weak<dyn Follower>) {
        let mut writer = self.shared.writer();
        self.shared.follow(follower);
        if let Some(writer) = writer.as_mut() {
            writer.is_followed();
        }
    }

    fn append_on(&self, entry: Entry, basis: Basis) -> Ticket {
        self.push(entry, Some(basis))
    }

    fn catch_up(&self) -> Ticket {
        match self.shared.what_for() {
            Use::Reading => Ticket::resolved(self.last().unwrap_or(Seq::new(0))),
            Use::Writing => self.shared.queue.look(),
        }
    }

    fn lead(&self) {
        let mut leader = self.leader.lock().unwrap_or_else(PoisonError::into_inner);
        if leader.is_some() || self.shared.what_for() == Use::Reading {
            return;
        }
        let (end, ended) = mpsc::channel::<()>();
        let (shared, leads) = (Arc::clone(&self.shared), Arc::clone(&self.leads));
        let begun = thread::Builder::new()
            .name("journal-lead".into())
            .spawn(move || lead::run(&shared, &leads, &ended));
        match begun {
            Ok(thread) => *leader = Some((end, thread)),
            Err(error) => tracing::error!(%error, "no thread to lead with"),
        }
    }

    fn announce(&self, own: Machine) {
        // The first one holds.
        let _ = self.shared.own.set(own);
    }

    fn machines(&self) -> Arc<[Machine]> {
        self.shared.machines()
    }

    fn leads(&self) -> bool {
        self.leads.load(Ordering::Acquire)
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
            Some(writer) => writer.take_over(&self.shared, entries),
            None => Err(JournalError::Closed),
        }
    }

    fn state(&self) -> State {
        match (self.shared.what_for(), self.shared.queue.refusal()) {
            (Use::Reading, _) => State::ReadOnly(revising::READING.to_owned()),
            (Use::Writing, Some(why)) => State::Stopped(why),
            (Use::Writing, None) => State::Writable,
        }
    }

    /// Passes where it can be written: it goes on by itself once it can.
    fn reopen(&self) -> Result<(), JournalError> {
        self.shared.queue.refusal().map_or(Ok(()), Err)
    }

    fn close(&self) {
        self.shared.queue.close();
        let leader = self.leader.lock().unwrap_or_else(PoisonError::into_inner).take();
        let committer = self.committer.lock().unwrap_or_else(PoisonError::into_inner).take();
        let leader = leader.map(|(_end, thread)| thread);
        for thread in leader.into_iter().chain(committer) {
            // One that lets go last of whoever folds the log can't wait for itself.
            let is_this = thread.thread().id() == thread::current().id();
            if !is_this && thread.join().is_err() {
                tracing::error!("a thread of the journal's had panicked");
            }
        }
        self.shared.close();
    }
}

impl Drop for PostgresJournal {
    fn drop(&mut self) {
        self.close();
    }
}
