//! The log: its files in order, read by place and by stream. Knows nothing of
//! how they are written, or of what may be shown.

use std::collections::HashMap;
use std::path::PathBuf;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError, RwLock};

use super::folder::StoreId;
use super::seen_ids::SeenIds;
use super::segment::Segment;
use super::table::{Row, Table};
use super::{JournalError, Placed, StreamId};

/// How many tables of sealed files are kept in memory.
const TABLES: usize = 16;

/// How far a stream goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Head {
    /// The number of its last entry.
    pub number: u64,
    /// That entry's place.
    pub place: u64,
}

/// All files of a log.
#[derive(Debug)]
pub(super) struct Log {
    pub store: StoreId,
    pub folder: PathBuf,
    segments: RwLock<Vec<Arc<Segment>>>,
    tables: Mutex<Vec<(u64, Arc<Table>)>>,
    heads: RwLock<HashMap<u64, Head>>,
    pub seen_ids: SeenIds,
}

impl Log {
    /// A log of these files, in their order.
    pub(super) fn of(store: StoreId, folder: PathBuf, segments: Vec<Arc<Segment>>) -> Log {
        Log {
            store,
            folder,
            segments: RwLock::new(segments),
            tables: Mutex::default(),
            heads: RwLock::default(),
            seen_ids: SeenIds::default(),
        }
    }

    /// The files as they are now.
    pub(super) fn segments(&self) -> Vec<Arc<Segment>> {
        self.segments.read().unwrap_or_else(PoisonError::into_inner).clone()
    }

    /// Puts a file at the end.
    pub(super) fn push(&self, segment: Arc<Segment>) {
        self.segments.write().unwrap_or_else(PoisonError::into_inner).push(segment);
    }

    /// Puts a file in the place of the one with the same first entry.
    pub(super) fn exchange(&self, with: Arc<Segment>) {
        let mut segments = self.segments.write().unwrap_or_else(PoisonError::into_inner);
        for segment in segments.iter_mut().filter(|one| one.title.first == with.title.first) {
            *segment = Arc::clone(&with);
        }
    }

    /// How far a stream goes.
    pub(super) fn head(&self, tag: u64) -> Option<Head> {
        self.heads.read().unwrap_or_else(PoisonError::into_inner).get(&tag).copied()
    }

    /// The place of the first entry whose message's key begins so, if it is known.
    ///
    /// # Errors
    /// Ids that were let go to the disk can't be read.
    pub(super) fn place_of(&self, key: u64) -> Result<Option<u64>, JournalError> {
        self.seen_ids.place(key).map_err(|error| JournalError::of_file(&self.folder, &error))
    }

    /// Lets ids go to the disk that entries before `place` left.
    pub(super) fn let_ids_go(&self, place: u64) {
        if let Err(error) = self.seen_ids.let_go(&self.folder, place) {
            tracing::warn!(%error, "ids could not be let go to the disk, and stay in memory");
        }
    }

    /// The tags of all streams.
    pub(super) fn tags(&self) -> Vec<(u64, Head)> {
        let heads = self.heads.read().unwrap_or_else(PoisonError::into_inner);
        heads.iter().map(|(tag, head)| (*tag, *head)).collect()
    }

    /// Notes entries that are durable, the first of them at `first`.
    pub(super) fn note(&self, first: u64, rows: impl Iterator<Item = Row>) {
        let mut heads = self.heads.write().unwrap_or_else(PoisonError::into_inner);
        for (place, row) in (first..).zip(rows).filter(|(_, row)| row.offset > 0) {
            let head = heads.entry(row.tag).or_insert(Head { number: 0, place: 0 });
            *head = Head { number: row.number.max(head.number), place };
        }
    }

    /// The entry at a place.
    ///
    /// # Errors
    /// It can't be read, is missing or isn't whole.
    pub(super) fn entry(&self, place: u64) -> Result<Placed, JournalError> {
        let missing = || JournalError::Damaged(format!("entry {place}: it is missing"));
        let segment = self.segment_of(place).ok_or_else(missing)?;
        self.entry_in(&segment, place)
    }

    fn entry_in(&self, segment: &Arc<Segment>, place: u64) -> Result<Placed, JournalError> {
        let missing = || JournalError::Damaged(format!("entry {place}: it is missing"));
        let index = place.checked_sub(segment.title.first).ok_or_else(missing)?;
        let index = usize::try_from(index).map_err(|_| missing())?;
        let (row, end) = match segment.row_in_memory(index) {
            Some(found) => found,
            None => {
                let table = self.table(segment)?;
                let row = table.row(index).ok_or_else(missing)?;
                (row, table.end_of(index).unwrap_or(segment.end()))
            }
        };
        segment.entry(place, row.offset.into(), end)
    }

    /// The places of a stream's entries after a number, in order, file by file.
    pub(super) fn places_of(&self, stream: &StreamId, after: u64) -> PlacesOf {
        let tag = stream.tag();
        let holds = |segment: &Arc<Segment>| {
            segment.streams().get(&tag).is_some_and(|(_, last)| *last > after)
        };
        let segments: Vec<_> = self.segments().into_iter().filter(holds).collect();
        PlacesOf { tag, after, segments: segments.into_iter(), places: Vec::new().into_iter() }
    }

    /// The file that a place lies in.
    pub(super) fn segment_of(&self, place: u64) -> Option<Arc<Segment>> {
        let segments = self.segments.read().unwrap_or_else(PoisonError::into_inner);
        let at = segments.partition_point(|segment| segment.title.first <= place);
        let segment = segments.get(at.checked_sub(1)?)?;
        (place < segment.next()).then(|| Arc::clone(segment))
    }

    /// The rows of a file, from memory where they were read lately.
    ///
    /// # Errors
    /// They can't be read.
    pub(super) fn table(&self, segment: &Segment) -> Result<Arc<Table>, JournalError> {
        let generation = segment.title.generation;
        let known = |tables: &MutexGuard<'_, Vec<(u64, Arc<Table>)>>| {
            let found = tables.iter().find(|(of, _)| *of == generation);
            found.map(|(_, table)| Arc::clone(table))
        };
        if let Some(table) = known(&self.tables()) {
            return Ok(table);
        }
        let is_open = segment.is_open();
        let table = segment.table()?;
        // One that is still added to would be out of date at once.
        if !is_open {
            let mut tables = self.tables();
            if known(&tables).is_none() {
                tables.push((generation, Arc::clone(&table)));
                let over = tables.len().saturating_sub(TABLES);
                tables.drain(..over);
            }
        }
        Ok(table)
    }

    fn tables(&self) -> MutexGuard<'_, Vec<(u64, Arc<Table>)>> {
        self.tables.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// The places of one stream's entries.
pub(super) struct PlacesOf {
    tag: u64,
    after: u64,
    segments: std::vec::IntoIter<Arc<Segment>>,
    places: std::vec::IntoIter<u64>,
}

impl PlacesOf {
    /// The next place.
    pub(super) fn next(&mut self, log: &Log) -> Option<Result<u64, JournalError>> {
        loop {
            if let Some(place) = self.places.next() {
                return Some(Ok(place));
            }
            let segment = self.segments.next()?;
            let table = match log.table(&segment) {
                Ok(table) => table,
                Err(error) => return Some(Err(error)),
            };
            let first = segment.title.first;
            let rows = table.of_stream(self.tag, self.after);
            let places: Vec<u64> = rows.into_iter().map(|at| first + at as u64).collect();
            self.places = places.into_iter();
        }
    }
}
