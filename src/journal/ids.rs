//! Which entry each message of the last fortnight left: in memory, so that a new
//! message asks no disk whether it is one.

use std::collections::{BTreeSet, HashMap};
use std::hash::{BuildHasherDefault, Hasher};
use std::sync::{Mutex, PoisonError};

use super::table::Table;

/// For how long a message's id is known, in seconds: fourteen days, and one for
/// files that end on the way.
const KNOWN: i64 = 15 * 24 * 3600;

/// Beginnings of digests spread by themselves.
#[derive(Default)]
struct AsItIs(u64);

impl Hasher for AsItIs {
    fn finish(&self) -> u64 {
        self.0
    }

    fn write(&mut self, bytes: &[u8]) {
        self.0 = bytes.first_chunk().map_or(0, |bytes| u64::from_le_bytes(*bytes));
    }

    fn write_u64(&mut self, number: u64) {
        self.0 = number;
    }
}

type Places = HashMap<u64, u64, BuildHasherDefault<AsItIs>>;

/// Places by the beginning of a key's digest.
#[derive(Default)]
pub(super) struct Ids {
    places: Mutex<Places>,
    /// The files whose ids are known, by the place of the first entry.
    files: Mutex<BTreeSet<u64>>,
}

impl std::fmt::Debug for Ids {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Ids").finish_non_exhaustive()
    }
}

/// True where ids that came by then are known no more, seen from `latest`.
pub(super) fn is_forgotten(newest: i64, latest: i64) -> bool {
    newest < latest.saturating_sub(KNOWN)
}

impl Ids {
    /// The place of the entry with this key's digest, if one is known.
    pub(super) fn place(&self, key: u64) -> Option<u64> {
        self.places().get(&key).copied()
    }

    /// Notes an entry's key; the first entry keeps it.
    pub(super) fn note(&self, key: u64, place: u64) {
        if key != 0 {
            self.places().entry(key).or_insert(place);
        }
    }

    /// The files whose ids are known, by the place of the first entry.
    pub(super) fn files(&self) -> BTreeSet<u64> {
        self.files.lock().unwrap_or_else(PoisonError::into_inner).clone()
    }

    /// Notes that ids of a file are known.
    pub(super) fn note_file(&self, first: u64) {
        self.files.lock().unwrap_or_else(PoisonError::into_inner).insert(first);
    }

    /// Notes all keys of a table whose first row is that of `first`.
    pub(super) fn note_all(&self, first: u64, table: &Table) {
        self.note_file(first);
        let mut places = self.places();
        for (place, row) in (first..).zip(table.rows()).filter(|(_, row)| row.key != 0) {
            places.entry(row.key).or_insert(place);
        }
    }

    /// Forgets the keys of a table whose first row is that of `first`.
    pub(super) fn forget_all(&self, first: u64, table: &Table) {
        self.files.lock().unwrap_or_else(PoisonError::into_inner).remove(&first);
        let mut places = self.places();
        for (place, row) in (first..).zip(table.rows()) {
            if places.get(&row.key) == Some(&place) {
                places.remove(&row.key);
            }
        }
    }

    fn places(&self) -> std::sync::MutexGuard<'_, Places> {
        self.places.lock().unwrap_or_else(PoisonError::into_inner)
    }
}
