//! What every journal promises, wherever it keeps its bytes. Knows no store.

use super::{Entry, JournalError, MessageKey, Part, Seq, Snapshot, Ticket};

/// The entries of a log, read one after the other in its order.
pub type Entries<'a> = Box<dyn Iterator<Item = Result<(Seq, Entry), JournalError>> + Send + 'a>;

/// What is to stand in an entry's place.
pub type Change<'a> = dyn FnMut(Seq, Entry) -> Result<Entry, JournalError> + Send + 'a;

/// All parts of a new snapshot.
pub type Parts<'a> = dyn FnMut() -> Result<Vec<Part>, JournalError> + Send + 'a;

/// A durable, append-only log with an index of messages and one snapshot.
///
/// Nothing is acknowledged that a power cut could take back, and nothing is
/// shown by the reading methods that has not been acknowledged. After a failed
/// write every waiting and later ticket fails, and reading may fail with the
/// same reason, until [`reopen`](Self::reopen).
pub trait Journal: Send + Sync + 'static {
    /// Puts the entry in the queue: the order of calls is the order of the
    /// log. Never blocks on the disk. The ticket resolves, with the entry's
    /// place, once the entry is durable.
    ///
    /// Two entries with the same key are both kept; [`find`](Self::find) gives
    /// the later one.
    fn append(&self, entry: Entry) -> Ticket;

    /// The entry that the message left, if it left one and it is durable.
    ///
    /// # Errors
    /// The store can't be read, or what it holds is damaged.
    fn find(&self, key: &MessageKey) -> Result<Option<(Seq, Entry)>, JournalError>;

    /// Puts the changed parts of a snapshot in the queue, and with them, as
    /// one step that happens whole or not at all, that the snapshot now holds
    /// everything up to `through`. The ticket resolves with `through`.
    ///
    /// `through` must be durable: the place from a resolved ticket.
    fn checkpoint(&self, through: Seq, parts: Vec<Part>) -> Ticket;

    /// The snapshot as of one checkpoint, all its parts from the same one or
    /// unchanged since an earlier one.
    ///
    /// # Errors
    /// The store can't be read, or what it holds is damaged.
    fn snapshot(&self) -> Result<Snapshot, JournalError>;

    /// The durable entries after `through`, or all of them for `None`, as of
    /// each step: entries that become durable while the iterator is in use are
    /// still reached. It ends after its first error.
    fn entries_after(&self, through: Option<Seq>) -> Entries<'_>;

    /// The place of the last durable entry; `None` in an empty log.
    fn last(&self) -> Option<Seq>;

    /// Writes the log anew: `change` is given every durable entry in order and
    /// says what stands in its place from then on; `parts`, asked once after the
    /// last, gives the whole snapshot, through that entry. On return nothing
    /// that was left out is in any file of the store. A cut leaves either the
    /// log as it was or the new one, whole. Blocks, and nobody reads or writes
    /// meanwhile.
    ///
    /// # Errors
    /// What `change` or `parts` failed with, or the store: then the log is as
    /// it was, or the journal is to be [reopened](Self::reopen) and is either.
    fn rewrite(&self, change: &mut Change<'_>, parts: &mut Parts<'_>) -> Result<(), JournalError>;

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
