//! The durable store: an append-only log of entries, found again by the key
//! of the message that left them, with snapshots so that a start need not read
//! the whole log.
//!
//! Knows nothing of swimmers, coaching or HTTP: an entry's body and a
//! snapshot's parts are opaque bytes. What [`Journal`] promises is written
//! there; [`SledJournal`] keeps it in one folder of one machine.
//!
//! How it is laid out on disk: `layout` (which record lies under which key)
//! and `record` (what is in one). How it is written: `queue` (who waits) and
//! `committer` (one thread, one batch, one flush for all who wait).

mod backup;
mod check;
mod committer;
mod contract;
mod entry;
mod error;
mod folder;
mod layout;
mod queue;
mod reader;
mod record;
mod rewrite;
mod sled_journal;
mod store;
mod ticket;

pub use backup::{Copied, backup, restore};
pub use check::Checked;
pub use contract::{Change, Entries, Journal, Parts};
pub use entry::{Entry, MessageKey, Part, Seq, Snapshot};
pub use error::JournalError;
pub use sled_journal::SledJournal;
pub use ticket::Ticket;
