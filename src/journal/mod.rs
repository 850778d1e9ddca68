//! The durable store: an append-only log of entries, found again by the key
//! of the message that left them, each in a stream, with a snapshot a stream so
//! that what a stream adds up to is known without reading all of it.
//!
//! Knows nothing of swimmers, coaching or HTTP: an entry's body and a
//! snapshot's parts are opaque bytes. What [`Journal`] promises is written
//! there; [`SledJournal`] keeps it in one folder of one machine,
//! [`PostgresJournal`] in a database (`postgres`).
//!
//! In the folder, the entries lie in files of the log's own (`segment`, one after the other, of
//! frames, `frame`; beside each ended one a `table` of what lies where), the
//! snapshots in an embedded store (`embedded`, `snapshots`). How the log is
//! written: `queue` (who waits), `committer` (one thread, one step for all who
//! wait), `writer` (the log's end), `aside` and `preallocated` (what nobody waits for). How loss is
//! noticed: `high_water` (how far it was acknowledged), `walk` (what is in a
//! file), `opening` (at a start), `check` (all of it). How it is mended:
//! `repair`. How it is erased from: `revise`. What a journal that several processes write to
//! asks of them: `following`.

mod aside;
mod backup;
mod check;
mod committer;
mod contract;
mod embedded;
mod entry;
mod error;
mod folder;
mod following;
mod frame;
mod high_water;
mod log;
mod machine;
mod opening;
mod postgres;
mod preallocated;
mod queue;
mod repair;
mod restore;
mod revise;
mod scan;
mod seen_ids;
mod segment;
mod shared;
mod sled_journal;
mod slowly;
mod snapshots;
mod table;
mod ticket;
mod waiters;
mod walk;
mod writer;

pub use backup::{Copied, backup};
pub use check::Checked;
pub use contract::{Change, Entries, Journal, State};
pub use entry::{Entry, Mark, MessageKey, Part, Placed, Seq, Snapshot, StreamId, Tip};
pub use error::JournalError;
pub use folder::FORMAT;
pub use following::{Basis, Follower, Topic};
pub use machine::Machine;
pub use postgres::{DatabaseUrl, NotADatabaseUrl, PostgresJournal, grants};
pub use repair::{Lost, Missing, Repaired, repair};
pub use restore::{Restored, restore};
pub use sled_journal::SledJournal;
pub use ticket::Ticket;
