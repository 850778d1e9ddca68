//! The journal on real disks, on a real database server and in real processes: what
//! it promises, what a kill or a full disk leaves, what it refuses. The power cut
//! has its own driver in `tests/power_cut`.

#![expect(clippy::unwrap_used, reason = "a test that can't go on has failed")]

mod backup;
mod damage;
mod figures;
mod folder;
#[cfg(target_os = "linux")]
mod full_disk;
mod home;
mod kill;
mod log;
mod model;
mod postgres;
mod revise;
mod server;
mod several;
mod tls;
mod workload;

use std::path::Path;

use jiff::Timestamp;
use lapwing::journal::{
    Change, Entry, Journal, JournalError, MessageKey, Part, Placed, Seq, SledJournal, State,
    StreamId,
};

/// The stream that most entries of these tests are in.
fn dusk() -> StreamId {
    StreamId("s/dusk".into())
}

/// An entry without a key.
fn unkeyed(body: &[u8]) -> Entry {
    let at = Timestamp::from_second(1_772_400_000).unwrap();
    Entry { stream: dusk(), key: None, at, body: body.to_vec() }
}

/// The key of message `id` by text.
fn key(id: &str) -> MessageKey {
    MessageKey { channel: "sms".into(), id: id.into() }
}

fn keyed(id: &str, body: &[u8]) -> Entry {
    Entry { key: Some(key(id)), ..unkeyed(body) }
}

fn part(name: &str, bytes: &[u8]) -> Part {
    Part { name: name.into(), bytes: bytes.to_vec() }
}

/// Every durable entry in order, the first error ending it.
fn all(journal: &dyn Journal) -> Result<Vec<(Seq, Entry)>, JournalError> {
    let entries = journal.entries_of(&StreamId::all(), 0);
    entries.map(|placed| placed.map(|placed| (placed.place, placed.entry))).collect()
}

/// The entry that a message left, and its place.
fn found(journal: &dyn Journal, id: &str) -> Result<Option<(Seq, Entry)>, JournalError> {
    let found = journal.find(&key(id))?;
    Ok(found.map(|placed| (placed.place, placed.entry)))
}

/// The files of the log, oldest first.
fn log_files(folder: &Path) -> Vec<std::path::PathBuf> {
    let files = std::fs::read_dir(folder.join("log")).unwrap().map(|file| file.unwrap().path());
    let mut files: Vec<_> =
        files.filter(|path| path.extension().is_some_and(|e| e == "log")).collect();
    files.sort();
    files
}

/// The side files of the store, which are never synced: there must be none.
fn assert_no_blobs(folder: &Path) {
    let blobs: Vec<_> = std::fs::read_dir(folder.join("sled/blobs")).unwrap().collect();
    assert!(blobs.is_empty(), "{blobs:?}");
}

/// Copies a folder with all in it: what is asked of it first first, so that the
/// copy of one in use is as a kill would leave it.
fn copy_folder(from: &Path, to: &Path) {
    std::fs::create_dir_all(to).unwrap();
    let mut paths: Vec<_> =
        std::fs::read_dir(from).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.sort();
    for path in paths {
        let name = to.join(path.file_name().unwrap());
        match path.is_dir() {
            true => copy_folder(&path, &name),
            false => drop(std::fs::copy(&path, &name).unwrap()),
        }
    }
}
