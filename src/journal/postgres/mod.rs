//! The journal in a PostgreSQL database, which may have standbys on other
//! machines.
//!
//! It is the same log as in a folder: one order, places without holes, each entry
//! marked by a digest over the one before it, and the same frames, one a row
//! (`schema`). Where it ends is a row of its own. One process writes at a time:
//! whoever has the lock (`pen`), and every append moves the end from where that
//! process knew it to be, in one statement, or does nothing. So nobody adds to a
//! history that he does not know, whatever became of the lock.
//!
//! An append whose outcome is unknown, since the line broke, is settled on the
//! next line: the end is where it would be, or where it was.
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
mod line;
mod parts;
mod pen;
mod postgres_journal;
mod reader;
mod reading;
mod revising;
mod schema;
mod shared;
mod tls;

pub use address::{DatabaseUrl, NotADatabaseUrl};
pub use postgres_journal::PostgresJournal;
pub use schema::grants;
