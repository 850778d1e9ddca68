//! What every journal promises, wherever it keeps its bytes. Knows no store.

use std::sync::{Arc, Weak};

use super::{
    Basis, Checked, Entry, Follower, JournalError, Machine, MessageKey, Part, Placed, Seq,
    Snapshot, StreamId, Ticket, Tip,
};

/// Entries, read one after the other in their order.
pub type Entries<'a> = Box<dyn Iterator<Item = Result<Placed, JournalError>> + Send + 'a>;

/// What is to stand in an entry's place; `None` where it stays as it is.
pub type Change<'a> = dyn FnMut(&Placed) -> Result<Option<Entry>, JournalError> + Send + 'a;

/// Whether a journal takes anything.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum State {
    /// It does.
    Writable,
    /// What it holds is not whole, or not what was acknowledged: it can be read as
    /// far as it can, and takes nothing more until somebody has looked.
    ReadOnly(String),
    /// A write failed: nothing is taken until it is reopened.
    Stopped(JournalError),
}

/// A durable, append-only log with an index of messages, in which every entry
/// belongs to a stream, and a snapshot a stream.
///
/// Nothing is acknowledged that a power cut could take back, and nothing is
/// shown by the reading methods that has not been acknowledged. After a failed
/// write every waiting and later ticket fails until [`reopen`](Self::reopen); one that
/// is [shared](Self::is_shared) goes on by itself once it can.
///
/// The entries are the truth. Snapshots only save reading them: one that is
/// lost, or does not fit the log, is as if it had never been.
///
/// All methods but [`append`](Self::append) may wait for the disk.
pub trait Journal: Send + Sync + 'static {
    /// Puts the entry in the queue: the order of calls is the order of the
    /// log, and within each stream that of the stream. The ticket resolves, with
    /// the entry's place, once the entry is durable.
    ///
    /// Two entries with the same key are both kept; [`find`](Self::find) gives
    /// the first.
    fn append(&self, entry: Entry) -> Ticket;

    /// Whether other processes may append too. Where that is so, `append` puts an entry
    /// behind whatever is there; what was decided on what was folded is for
    /// [`append_on`](Self::append_on), and is folded when the [`Follower`] is handed it.
    fn is_shared(&self) -> bool {
        false
    }

    /// Hands everything that is appended to this follower from now on, by whomever.
    fn follow(&self, _follower: Weak<dyn Follower>) {}

    /// Puts an entry in the queue that was decided on something. The ticket fails with
    /// [`JournalError::Moved`], and nothing is stored, where others have changed since what
    /// it stands on; then, and once it is stored, the follower has been handed all that came
    /// before. Of two that don't stand on the same, either may come first.
    fn append_on(&self, entry: Entry, _basis: Basis) -> Ticket {
        self.append(entry)
    }

    /// The ticket resolves once the follower has been handed all that was durable when this
    /// was called.
    fn catch_up(&self) -> Ticket {
        Ticket::resolved(self.last().unwrap_or(Seq::new(0)))
    }

    /// Seeks from now on to be the one process that does what one alone does: sending
    /// letters, for example.
    fn lead(&self) {}

    /// Tells the others that serve over the same journal how to reach this one, from when
    /// it [seeks to lead](Self::lead) until it is closed.
    fn announce(&self, _own: Machine) {}

    /// Those that serve, as far as is known: this one among them where it was announced.
    fn machines(&self) -> Arc<[Machine]> {
        Arc::default()
    }

    /// Whether it is that one. For some seconds two may hold themselves for it.
    fn leads(&self) -> bool {
        true
    }

    /// The entry that the message left, if it left one within the last fourteen
    /// days and it is durable.
    ///
    /// # Errors
    /// The store can't be read, or what it holds is damaged.
    fn find(&self, key: &MessageKey) -> Result<Option<Placed>, JournalError>;

    /// The durable entry at a place, if the log goes so far.
    ///
    /// # Errors
    /// The store can't be read, or what it holds there is damaged.
    fn entry(&self, place: Seq) -> Result<Option<Placed>, JournalError>;

    /// The durable entries of a stream after its entry of that number (0 for
    /// all), in its order. It ends after its first error.
    fn entries_of(&self, stream: &StreamId, after: u64) -> Entries<'_>;

    /// The names of the streams that have entries, in no order.
    ///
    /// # Errors
    /// The store can't be read.
    fn streams(&self) -> Result<Vec<StreamId>, JournalError>;

    /// How far a stream goes, as far as that is durable; `None` for one without
    /// entries.
    ///
    /// # Errors
    /// The store can't be read, or what it holds is damaged.
    fn tip(&self, stream: &StreamId) -> Result<Option<Tip>, JournalError>;

    /// The place of the last durable entry; `None` in an empty log.
    fn last(&self) -> Option<Seq>;

    /// Replaces the named parts of a stream's snapshot and says that it now holds
    /// everything up to the stream's entry `through`, which must be durable, as
    /// one step that happens whole or not at all. `from` is how far the snapshot
    /// goes that the parts change; `None` says that they are all there is.
    ///
    /// # Errors
    /// [`JournalError::Ahead`] where the stream does not go so far,
    /// [`JournalError::NoBase`] where the snapshot doesn't go to `from`; the store
    /// can't be written.
    fn checkpoint(
        &self,
        of: &StreamId,
        from: Option<u64>,
        through: u64,
        parts: Vec<Part>,
    ) -> Result<(), JournalError>;

    /// A stream's snapshot as of one checkpoint, all its parts from the same one
    /// or unchanged since an earlier one. An empty one where there is none that
    /// is whole and fits the log.
    ///
    /// # Errors
    /// The store can't be read.
    fn snapshot(&self, of: &StreamId) -> Result<Snapshot, JournalError>;

    /// Writes the durable entries of these streams anew, in the background of
    /// whatever else goes on: `change` is given each in the order of the log and
    /// says what stands in its place from then on, with the same stream and mark.
    /// The streams' snapshots are dropped. On return nothing that was left out can
    /// be read from the journal; a store that keeps old forms of what it holds says
    /// for how long. A cut leaves some entries changed and others not: then it is to
    /// be done again.
    ///
    /// # Errors
    /// What `change` failed with, or the store.
    fn revise(&self, streams: &[StreamId], change: &mut Change<'_>) -> Result<(), JournalError>;

    /// Reads the whole journal: that every entry is whole, bears the mark made
    /// from it and follows the one before it, that every message's key leads to
    /// the first entry that bears it, that the snapshots are whole and fit the
    /// log, and that all is there that was acknowledged. The journal may be in use
    /// meanwhile.
    ///
    /// # Errors
    /// Only where nothing could be checked: what is damaged is in the answer.
    fn check(&self) -> Result<Checked, JournalError>;

    /// Writes entries as they stood in another log, at the end of this one, in one
    /// step: with their places, numbers and marks. Of those between that aren't
    /// there it is written that they were lost. On return they are durable.
    ///
    /// # Errors
    /// The store can't be written; or they don't follow what it holds.
    fn take_over(&self, entries: &[Placed]) -> Result<(), JournalError>;

    /// Whether anything can be appended.
    fn state(&self) -> State;

    /// Drops every handle and opens the store again: the cure after a full
    /// disk. Tickets that still wait fail with the reason for which the journal
    /// stopped, or are written first if it had not.
    ///
    /// # Errors
    /// The disk is still full, or the store can't be opened; the journal goes
    /// on refusing to write, and `reopen` may be tried again.
    fn reopen(&self) -> Result<(), JournalError>;

    /// Writes what waits, then stops. Later calls fail with
    /// [`JournalError::Closed`]. A second call does nothing.
    fn close(&self);
}
