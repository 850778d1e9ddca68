//! The journal on real disks and in real processes: what it promises, what a
//! kill or a full disk leaves, what it refuses. The power cut has its own
//! driver in `tests/power_cut`.

#![expect(clippy::unwrap_used, reason = "a test that can't go on has failed")]

mod backup;
mod damage;
mod folder;
#[cfg(target_os = "linux")]
mod full_disk;
mod kill;
mod log;
mod model;
mod rewrite;
mod workload;

use std::path::Path;

use lapwing::journal::{Entry, Journal, JournalError, MessageKey, Part, Seq, SledJournal};

/// An entry without a key.
fn unkeyed(body: &[u8]) -> Entry {
    Entry { key: None, body: body.to_vec() }
}

/// The key of message `id` by text.
fn key(id: &str) -> MessageKey {
    MessageKey { channel: "sms".into(), id: id.into() }
}

fn keyed(id: &str, body: &[u8]) -> Entry {
    Entry { key: Some(key(id)), body: body.to_vec() }
}

fn part(name: &str, bytes: &[u8]) -> Part {
    Part { name: name.into(), bytes: bytes.to_vec() }
}

/// Every durable entry in order, the first error ending it.
fn all(journal: &SledJournal) -> Result<Vec<(Seq, Entry)>, JournalError> {
    journal.entries_after(None).collect()
}

/// The side files of the store, which are never synced: there must be none.
fn assert_no_blobs(folder: &Path) {
    let blobs: Vec<_> = std::fs::read_dir(folder.join("sled/blobs")).unwrap().collect();
    assert!(blobs.is_empty(), "{blobs:?}");
}
