//! How far the log was acknowledged, kept outside the store: what the store says
//! of itself must not fall short of it.
//!
//! Two slots are written in turn, each with a checksum, so that a cut in the
//! middle of one leaves the other. The file is written once what it speaks of is
//! on the disk and before anybody is told of it, so a kill can't leave it behind;
//! it is synced a moment later, so after a power cut it may be behind by that
//! moment, never ahead.

use std::fs::File;
use std::io::ErrorKind;
use std::os::unix::fs::FileExt;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};

use super::folder::{self, StoreId};
use super::{JournalError, Mark};

const TITLE: &[u8; 8] = b"lwmark 2";
const SLOT: usize = 64;
/// Slots lie a page apart, so that no torn page takes both.
const APART: u64 = 4096;

/// How far a log was acknowledged.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Reach {
    /// The place of the last entry; 0 for none.
    pub place: u64,
    /// That entry's mark.
    pub mark: Mark,
}

/// The file that keeps it.
#[derive(Debug)]
pub(super) struct HighWater {
    path: PathBuf,
    file: File,
    store: StoreId,
    turn: AtomicU64,
    unsynced: AtomicBool,
}

/// What such a file says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Read {
    /// There is none.
    Missing,
    /// There is one in which no slot is whole.
    Damaged,
    /// It is another store's.
    Anothers,
    /// This.
    Reach(Reach),
}

impl HighWater {
    /// Opens the file, making it if there is none, and says what it held.
    ///
    /// # Errors
    /// It can't be made or read.
    pub(super) fn open(path: &Path, store: StoreId) -> Result<(HighWater, Read), JournalError> {
        let of_file = |error: std::io::Error| JournalError::of_file(path, &error);
        let bytes = match std::fs::read(path) {
            Ok(bytes) => Some(bytes),
            Err(error) if error.kind() == ErrorKind::NotFound => None,
            Err(error) => return Err(of_file(error)),
        };
        let (read, turn) = match &bytes {
            None => (Read::Missing, 0),
            Some(bytes) => judge(bytes, store),
        };
        let mut options = File::options();
        options.read(true).write(true).create(true).truncate(false);
        std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
        let file = options.open(path).map_err(of_file)?;
        if bytes.is_none_or(|bytes| bytes.len() < APART as usize + SLOT) {
            file.set_len(APART + SLOT as u64).map_err(of_file)?;
            file.sync_all().map_err(of_file)?;
            path.parent().map_or(Ok(()), folder::sync_folder)?;
        }
        let water = HighWater {
            path: path.to_owned(),
            file,
            store,
            turn: AtomicU64::new(turn),
            unsynced: AtomicBool::new(false),
        };
        Ok((water, read))
    }

    /// Writes how far the log goes now.
    ///
    /// # Errors
    /// It can't be written.
    pub(super) fn note(&self, reach: Reach) -> Result<(), JournalError> {
        let turn = self.turn.fetch_add(1, Ordering::AcqRel) + 1;
        let mut slot = Vec::with_capacity(SLOT);
        slot.extend_from_slice(TITLE);
        slot.extend_from_slice(&self.store.0);
        slot.extend_from_slice(&turn.to_le_bytes());
        slot.extend_from_slice(&reach.place.to_le_bytes());
        slot.extend_from_slice(&reach.mark.0);
        let check = crc32fast::hash(&slot);
        slot.extend_from_slice(&check.to_le_bytes());
        let at = (turn % 2) * APART;
        self.file
            .write_all_at(&slot, at)
            .map_err(|error| JournalError::of_file(&self.path, &error))?;
        self.unsynced.store(true, Ordering::Release);
        Ok(())
    }

    /// True if all that was written is durable.
    #[cfg(test)]
    pub(super) fn is_synced(&self) -> bool {
        !self.unsynced.load(Ordering::Acquire)
    }

    /// Makes durable what was written since the last time.
    ///
    /// # Errors
    /// It can't be.
    pub(super) fn sync(&self) -> Result<(), JournalError> {
        if !self.unsynced.swap(false, Ordering::AcqRel) {
            return Ok(());
        }
        self.file.sync_data().map_err(|error| JournalError::of_file(&self.path, &error))
    }
}

/// Whose the file at a path is; nothing where it isn't whole, or isn't there.
pub(super) fn whose(path: &Path) -> Option<StoreId> {
    latest(&std::fs::read(path).ok()?).map(|(of, ..)| of)
}

/// The later of the slots that are whole.
fn latest(bytes: &[u8]) -> Option<(StoreId, u64, Reach)> {
    let slots = [0, APART as usize].map(|at| slot(bytes.get(at..)?));
    slots.into_iter().flatten().max_by_key(|(_, turn, _)| *turn)
}

/// What the slots say, and the turn of the later one.
fn judge(bytes: &[u8], store: StoreId) -> (Read, u64) {
    match latest(bytes) {
        None => (Read::Damaged, 0),
        Some((of, turn, _)) if of != store => (Read::Anothers, turn),
        Some((_, turn, reach)) => (Read::Reach(reach), turn),
    }
}

fn slot(bytes: &[u8]) -> Option<(StoreId, u64, Reach)> {
    let (slot, rest) = bytes.split_at_checked(SLOT - 8)?;
    let check = u32::from_le_bytes(*rest.first_chunk()?);
    if !slot.starts_with(TITLE) || crc32fast::hash(slot) != check {
        return None;
    }
    let number = |at: usize| Some(u64::from_le_bytes(*slot.get(at..)?.first_chunk()?));
    let reach = Reach { place: number(32)?, mark: Mark(*slot.get(40..)?.first_chunk()?) };
    Some((StoreId(*slot.get(8..)?.first_chunk()?), number(24)?, reach))
}

#[cfg(test)]
mod tests {
    use super::*;

    const STORE: StoreId = StoreId([1; 16]);

    fn reach(place: u64) -> Reach {
        Reach { place, mark: Mark([place as u8; 16]) }
    }

    #[test]
    fn the_last_word_holds_and_a_torn_one_leaves_the_one_before() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("high-water");
        let (water, read) = HighWater::open(&path, STORE).unwrap();
        assert_eq!(read, Read::Missing);
        for place in 1..=9 {
            water.note(reach(place)).unwrap();
            let now = HighWater::open(&path, STORE).unwrap().1;
            assert_eq!(now, Read::Reach(reach(place)));
        }
        let mut bytes = std::fs::read(&path).unwrap();
        bytes[APART as usize + 36] ^= 1;
        assert_eq!(judge(&bytes, STORE).0, Read::Reach(reach(8)));
        bytes[36] ^= 1;
        assert_eq!(judge(&bytes, STORE).0, Read::Damaged);
        assert_eq!(HighWater::open(&path, StoreId([2; 16])).unwrap().1, Read::Anothers);
    }
}
