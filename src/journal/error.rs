//! What can go wrong with the store, told so that whoever runs it knows what
//! to do. Knows nothing of who asked.

use std::io;
use std::path::{Path, PathBuf};

/// Why a journal did not do what was asked.
///
/// An append that fails may or may not be found in the log after the next
/// [`reopen`](crate::journal::Journal::reopen): it was never acknowledged, and
/// whoever folds the log must read on from what is there.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum JournalError {
    /// The disk or a quota is full. Free some space, then reopen.
    #[error(
        "the disk is full ({detail}); nothing is stored until space is freed and the journal reopened"
    )]
    Full {
        /// What the system said.
        detail: String,
    },
    /// Something in the store can't be read as it was written.
    #[error("the journal is damaged: {0}")]
    Damaged(String),
    /// Another process, or another handle in this one, has the folder open.
    #[error("the journal in {} is open in another process", .0.display())]
    Locked(PathBuf),
    /// The folder holds something that no journal of ours wrote.
    #[error("{} is not a journal folder: {why}", folder.display())]
    NotOurs {
        /// The folder that was to be opened.
        folder: PathBuf,
        /// What was found there.
        why: String,
    },
    /// The folder was written by a newer version of this program.
    #[error("{} has journal format {found}; this program knows {known}", folder.display())]
    Newer {
        /// The folder that was to be opened.
        folder: PathBuf,
        /// The format in the folder's marker.
        found: u32,
        /// The newest format this program can read.
        known: u32,
    },
    /// The folder was written by an earlier version of this program, in a format
    /// that this one doesn't read.
    #[error(
        "{} has journal format {found}; this program writes {known}: make a backup with the \
         program that wrote it, and restore that into a new folder", folder.display()
    )]
    Older {
        /// The folder that was to be opened.
        folder: PathBuf,
        /// The format in the folder's marker.
        found: u32,
        /// The format that this program writes.
        known: u32,
    },
    /// What the journal holds is not whole, or not what was acknowledged.
    #[error("the journal takes nothing more until it is repaired: {0}")]
    ReadOnly(String),
    /// A key, name or body is longer than the format can hold.
    #[error("{what} is {length} bytes long; at most {most} can be stored")]
    TooLong {
        /// What was too long.
        what: &'static str,
        /// How long it was, in bytes.
        length: usize,
        /// How long it may be, in bytes.
        most: usize,
    },
    /// A checkpoint claims entries that are not durable.
    #[error("a checkpoint through {through} is ahead of its stream, which ends at {last}")]
    Ahead {
        /// How far the checkpoint was to go.
        through: u64,
        /// The number of the stream's last durable entry, 0 where it has none.
        last: u64,
    },
    /// A checkpoint changes a snapshot that isn't there.
    #[error("there is no snapshot through {0} to change")]
    NoBase(u64),
    /// Others have changed what this stands on, so it was not stored: it is to be decided
    /// again.
    #[error("others have changed what this stands on: it is to be decided again")]
    Moved,
    /// The journal was closed.
    #[error("the journal is closed")]
    Closed,
    /// Any other failure to read or write.
    #[error("the journal can't be read or written: {0}")]
    Storage(String),
    /// A backup can't be read, or is not whole.
    #[error("the backup {} can't be used: {why}", path.display())]
    BadBackup {
        /// The file that was to be restored.
        path: PathBuf,
        /// What was wrong with it.
        why: String,
    },
    /// A restore into a journal that already has entries.
    #[error("a backup can only be restored into an empty journal; this one has {0} entries")]
    NotEmpty(u64),
}

impl JournalError {
    /// The error of a system call on `path`.
    pub(super) fn of_file(path: &Path, error: &io::Error) -> Self {
        Self::of_io(error, &format!("{}: {error}", path.display()))
    }

    fn of_io(error: &io::Error, detail: &str) -> Self {
        match error.kind() {
            io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded => {
                Self::Full { detail: detail.to_owned() }
            }
            _ => Self::Storage(detail.to_owned()),
        }
    }
}

/// The error of something damaged, said in words.
pub(super) fn damaged(what: impl Into<String>) -> JournalError {
    JournalError::Damaged(what.into())
}

impl From<sled::Error> for JournalError {
    fn from(error: sled::Error) -> Self {
        match error {
            sled::Error::Io(io) => Self::of_io(&io, &io.to_string()),
            sled::Error::Corruption { .. } => Self::Damaged(error.to_string()),
            other => Self::Storage(other.to_string()),
        }
    }
}
