//! The journal in a PostgreSQL database, which may have standbys on other
//! machines.
//!
//! It is the same log as in a folder: one order, places without holes, each entry
//! marked by a digest over the one before it, and the same frames, one a row
//! (`schema`). Where it ends is a row of its own. Any number of processes write: each
//! adds behind the end that it knows, in one step that moves the end from there or does
//! nothing, so that nobody adds to a history that he does not know (`pen`). Whoever was
//! too late learns what others added, gives back what stands on what they changed, and
//! puts the rest behind it (`writer`, `learning`, `known`).
//!
//! A step whose outcome is unknown, since the line broke, is settled on the next
//! line: what stands at its place bears its mark, or it did not happen and can't any more.
//!
//! One of the processes leads (`lead`), by a lock on which nothing that is stored hangs.
//!
//! The rows of a log that nobody writes to can be read by anybody, from a standby
//! too. Erased words are gone from what can be read at once; old forms of rows go
//! when the database next cleans its tables, and from its write-ahead log and
//! whatever archive is made of that as those are thrown away.

mod address;
mod batch;
mod checking;
mod committer;
mod engine;
mod hosts;
mod known;
mod lead;
mod learning;
mod line;
mod machines;
mod parts;
mod pen;
mod postgres_journal;
mod reader;
mod reading;
mod revising;
mod schema;
mod shared;
mod tls;
mod waiting;
mod writer;

pub use address::{DatabaseUrl, NotADatabaseUrl};
pub use postgres_journal::PostgresJournal;
pub use schema::grants;
