//! The ids of the last fortnight's messages, and which entry each left, so that no message
//! is taken twice and a new one asks no disk whether it is one.
//!
//! The latest are in memory. Where they become many, those whose files have ended are let
//! go to the disk, sorted (`run`): what stays of them in memory is where to look, and a
//! filter that tells nearly all new ids from them. So memory stays what it is however many
//! messages come. The runs have no names and end with the process: a start makes them
//! anew, from the tables beside the log's files.

mod filter;
mod run;
#[cfg(test)]
mod tests;

use std::collections::{BTreeSet, HashMap};
use std::hash::{BuildHasherDefault, Hasher};
use std::io;
use std::path::Path;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError, RwLock, TryLockError};

use self::run::{Pair, Run};
use super::table::Table;

/// For how long a message's id is known, in seconds: fourteen days, and one for
/// files that end on the way.
const KNOWN: i64 = 15 * 24 * 3600;

/// So many are in memory before any are let go (ours: two megabytes, and more than most
/// who run this get in a fortnight).
const RECENT: usize = 65_536;

/// So many are put back at once, so that whoever looks for one waits for little (ours).
const AT_ONCE: usize = 64;

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

/// Those in memory.
#[derive(Default)]
struct Recent {
    places: Places,
    /// Those on their way to the disk. Nobody changes them any more, so that they are sorted
    /// and written without keeping anybody who looks for an id.
    leaving: Arc<Places>,
}

/// Places by the beginning of a key's digest.
#[derive(Default)]
pub(super) struct SeenIds {
    recent: Mutex<Recent>,
    /// Those that were let go, the oldest first.
    runs: RwLock<Arc<[Arc<Run>]>>,
    /// Held while some are let go.
    letting_go: Mutex<()>,
    /// The files whose ids are known, by the place of the first entry.
    files: Mutex<BTreeSet<u64>>,
}

impl std::fmt::Debug for SeenIds {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("SeenIds").finish_non_exhaustive()
    }
}

/// True where ids that came by then are known no more, seen from `latest`.
pub(super) fn is_forgotten(newest: i64, latest: i64) -> bool {
    newest < latest.saturating_sub(KNOWN)
}

impl SeenIds {
    /// The place of the first entry with this key's digest, if one is known.
    ///
    /// # Errors
    /// What was let go to the disk can't be read back as it was written.
    pub(super) fn place(&self, key: u64) -> io::Result<Option<u64>> {
        // Memory first: what is let go is in a run before it leaves it.
        let (leaving, recent) = {
            let recent = self.recent();
            (recent.leaving.get(&key).copied(), recent.places.get(&key).copied())
        };
        for run in self.runs().iter() {
            if let Some(place) = run.place(key)?
                && self.is_known(place)
            {
                return Ok(Some(place));
            }
        }
        Ok(leaving.filter(|place| self.is_known(*place)).or(recent))
    }

    /// Notes an entry's key; the first entry keeps it.
    pub(super) fn note(&self, key: u64, place: u64) {
        if key != 0 {
            self.recent().places.entry(key).or_insert(place);
        }
    }

    /// The files whose ids are known, by the place of the first entry.
    pub(super) fn files(&self) -> BTreeSet<u64> {
        self.known_files().clone()
    }

    /// Notes that ids of a file are known.
    pub(super) fn note_file(&self, first: u64) {
        self.known_files().insert(first);
    }

    /// Notes all keys of a table whose first row is that of `first`.
    pub(super) fn note_all(&self, first: u64, table: &Table) {
        self.note_file(first);
        let mut recent = self.recent();
        for (place, row) in (first..).zip(table.rows()).filter(|(_, row)| row.key != 0) {
            recent.places.entry(row.key).or_insert(place);
        }
    }

    /// Forgets the keys of a table whose first row is that of `first`. Those that were let
    /// go are known no more from now on, and leave the disk with the next that are.
    pub(super) fn forget_all(&self, first: u64, table: &Table) {
        self.known_files().remove(&first);
        let mut recent = self.recent();
        for (place, row) in (first..).zip(table.rows()) {
            if recent.places.get(&row.key) == Some(&place) {
                recent.places.remove(&row.key);
            }
        }
    }

    /// True where so many are in memory that some should be let go.
    pub(super) fn are_many(&self) -> bool {
        let recent = self.recent();
        recent.places.len() + recent.leaving.len() > RECENT
    }

    /// Lets those go that entries before `place` left, to files without a name in `folder`.
    /// Nothing is done while others are being let go.
    ///
    /// # Errors
    /// They can't be written there: they stay in memory.
    pub(super) fn let_go(&self, folder: &Path, place: u64) -> io::Result<()> {
        let _turn = match self.letting_go.try_lock() {
            Err(TryLockError::WouldBlock) => return Ok(()),
            turn => turn,
        };
        let mut rows: Vec<Pair> = self.set_aside().iter().map(|(key, at)| (*key, *at)).collect();
        // Few where the file before has just ended.
        let stay: Vec<Pair> = rows.extract_if(.., |(_, at)| *at >= place).collect();
        self.put_back(&stay);
        let written = if rows.is_empty() {
            Ok(())
        } else {
            rows.sort_unstable();
            let run = Run::write(folder, rows.len(), rows.iter().copied().map(Ok));
            run.map(|run| self.change(|runs| runs.push(Arc::new(run))))
        };
        if written.is_err() {
            self.put_back(&rows);
        }
        let left = std::mem::take(&mut self.recent().leaving);
        // Giving back their memory takes a while: not while anybody waits.
        drop(left);
        written?;
        self.join(folder)
    }

    /// Sets all aside, in one step however many there are; gives them.
    fn set_aside(&self) -> Arc<Places> {
        let empty = Places::with_capacity_and_hasher(RECENT, BuildHasherDefault::default());
        let mut recent = self.recent();
        recent.leaving = Arc::new(std::mem::replace(&mut recent.places, empty));
        Arc::clone(&recent.leaving)
    }

    /// Puts those back that were set aside, few at a time, without what was forgotten since.
    fn put_back(&self, pairs: &[Pair]) {
        for some in pairs.chunks(AT_ONCE) {
            let known: Vec<Pair> =
                some.iter().copied().filter(|(_, at)| self.is_known(*at)).collect();
            // They are earlier than what came meanwhile: an earlier entry keeps its key.
            self.recent().places.extend(known);
        }
    }

    /// Joins runs until each is at least twice as long as the next, so that there are few;
    /// without what is forgotten.
    fn join(&self, folder: &Path) -> io::Result<()> {
        loop {
            let oldest = self.known_files().first().copied().unwrap_or(u64::MAX);
            self.change(|runs| runs.retain(|run| run.latest() >= oldest));
            let runs = self.runs();
            let [.., before, last] = &*runs else { return Ok(()) };
            if before.len() >= 2 * last.len() {
                return Ok(());
            }
            let joined = Run::joined(folder, before, last, |place| oldest <= place)?;
            self.change(|runs| {
                runs.truncate(runs.len() - 2);
                runs.push(Arc::new(joined));
            });
        }
    }

    /// True for a place in a file whose ids are known.
    fn is_known(&self, place: u64) -> bool {
        self.known_files().range(..=place).next_back().is_some()
    }

    fn recent(&self) -> MutexGuard<'_, Recent> {
        self.recent.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn known_files(&self) -> MutexGuard<'_, BTreeSet<u64>> {
        self.files.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn runs(&self) -> Arc<[Arc<Run>]> {
        Arc::clone(&self.runs.read().unwrap_or_else(PoisonError::into_inner))
    }

    /// Changes the runs in one step; only whoever lets ids go does.
    fn change(&self, change: impl FnOnce(&mut Vec<Arc<Run>>)) {
        let mut runs = self.runs().to_vec();
        change(&mut runs);
        *self.runs.write().unwrap_or_else(PoisonError::into_inner) = runs.into();
    }
}
