//! One file of the log: a title, then frames one after the other, then zeros
//! written ahead. Knows nothing of the files beside it.

use std::collections::HashMap;
use std::fs::{self, File};
use std::io;
use std::os::unix::fs::FileExt;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError, RwLock, RwLockReadGuard};

use super::folder::{self, StoreId};
use super::frame::{self, Frame};
use super::preallocated::Preallocated;
use super::table::{Row, Summary, Table};
use super::walk::Walk;
use super::{JournalError, Mark, Placed, slowly};

const TITLE: &[u8; 8] = b"lwlog  2";

/// How long the title is, in bytes.
pub(super) const TITLE_LENGTH: u64 = 64;

/// How much is written ahead at least and at most, in bytes: syncing what lies
/// within a file's length costs the file system no change of its own.
pub(super) const AHEAD: (u64, u64) = (64 * 1024, 2 * 1024 * 1024);

/// What the title of a file says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Title {
    /// Whose log.
    pub store: StoreId,
    /// The place of the first entry.
    pub first: u64,
    /// The mark of the entry before it.
    pub before: Mark,
    /// Which writing of the file this is: drawn anew each time.
    pub generation: u64,
}

/// A file of the log, open.
#[derive(Debug)]
pub(super) struct Segment {
    pub title: Title,
    pub path: PathBuf,
    file: File,
    /// How many entries it has.
    count: AtomicU64,
    /// Where the last frame ends.
    end: AtomicU64,
    newest: AtomicU64,
    mark: Mutex<Mark>,
    /// Its rows, while entries are added; sealed, they lie in a file.
    rows: RwLock<Option<Table>>,
    /// Which streams are in it, from which number to which.
    streams: RwLock<HashMap<u64, (u64, u64)>>,
    /// Up to where the file is written, with zeros too.
    written: Mutex<u64>,
}

impl Title {
    /// The title as bytes.
    pub(super) fn write(&self) -> Vec<u8> {
        let mut out = Vec::with_capacity(TITLE_LENGTH as usize);
        out.extend_from_slice(TITLE);
        out.extend_from_slice(&self.store.0);
        out.extend_from_slice(&self.first.to_le_bytes());
        out.extend_from_slice(&self.before.0);
        out.extend_from_slice(&self.generation.to_le_bytes());
        let check = crc32fast::hash(&out);
        out.extend_from_slice(&check.to_le_bytes());
        out.resize(TITLE_LENGTH as usize, 0);
        out
    }

    /// The title that a file begins with, if it is whole.
    pub(super) fn read(bytes: &[u8]) -> Option<Title> {
        let (title, check) = bytes.get(..60)?.split_last_chunk::<4>()?;
        let whole = crc32fast::hash(title) == u32::from_le_bytes(*check);
        if !whole || !title.starts_with(TITLE) {
            return None;
        }
        let number = |at: usize| Some(u64::from_le_bytes(*title.get(at..)?.first_chunk()?));
        Some(Title {
            store: StoreId(*title.get(8..)?.first_chunk()?),
            first: number(24)?,
            before: Mark(*title.get(32..)?.first_chunk()?),
            generation: number(48)?,
        })
    }
}

/// A number that no other writing of a file has.
///
/// # Errors
/// The system has no randomness.
pub(super) fn generation() -> Result<u64, JournalError> {
    Ok(u64::from_le_bytes(*StoreId::draw()?.0.first_chunk().unwrap_or(&[0; 8])))
}

/// What a file of the log with its first entry at `first` is called.
pub(super) fn name(first: u64) -> String {
    format!("{first:020}.log")
}

/// The place of the first entry of the file with this name, if it is one.
pub(super) fn first_of(name: &str) -> Option<u64> {
    let digits = name.strip_suffix(".log").filter(|digits| digits.len() == 20)?;
    digits.parse().ok().filter(|first| *first > 0)
}

impl Segment {
    /// Makes an empty file.
    ///
    /// # Errors
    /// It can't be made there.
    pub(super) fn make(folder: &Path, title: Title) -> Result<Segment, JournalError> {
        let path = folder.join(name(title.first));
        let of_file = |error: io::Error| JournalError::of_file(&path, &error);
        let mut options = File::options();
        options.read(true).write(true).create(true).truncate(true);
        std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
        let new = path.with_extension("new");
        let file = options.open(&new).map_err(of_file)?;
        Self::of_preallocated(folder, title, Preallocated { file, path: new, length: TITLE_LENGTH })
    }

    /// A file written full of zeros beforehand, put to use. Under its name it has its title:
    /// whoever syncs another file may bring a name to the disk long before what is in it.
    ///
    /// # Errors
    /// It can't be.
    pub(super) fn of_preallocated(
        folder: &Path,
        title: Title,
        preallocated: Preallocated,
    ) -> Result<Segment, JournalError> {
        let path = folder.join(name(title.first));
        let of_file = |error: io::Error| JournalError::of_file(&path, &error);
        preallocated.file.write_all_at(&title.write(), 0).map_err(of_file)?;
        preallocated.file.sync_all().map_err(of_file)?;
        fs::rename(&preallocated.path, &path).map_err(of_file)?;
        folder::sync_folder(folder)?;
        let walked = Walk::empty(title.before);
        Ok(Self::with(title, path.clone(), preallocated.file, preallocated.length, walked))
    }

    /// A file as a walk through it found it, to be added to.
    pub(super) fn walked(
        title: Title,
        path: PathBuf,
        file: File,
        length: u64,
        walk: Walk,
    ) -> Segment {
        Self::with(title, path, file, length, walk)
    }

    /// A file whose table lies beside it.
    pub(super) fn sealed(
        title: Title,
        path: PathBuf,
        file: File,
        summary: &Summary,
        table: &Table,
    ) -> Segment {
        let walk = Walk {
            table: table.clone(),
            end: summary.end,
            newest: summary.newest,
            mark: summary.mark,
            ..Walk::empty(title.before)
        };
        let segment = Self::with(title, path, file, summary.end, walk);
        segment.forget_rows();
        segment
    }

    fn with(title: Title, path: PathBuf, file: File, length: u64, walk: Walk) -> Segment {
        let mut streams = HashMap::new();
        walk.table.rows().for_each(|row| row.note_in(&mut streams));
        Segment {
            title,
            path,
            file,
            count: AtomicU64::new(walk.table.len() as u64),
            end: AtomicU64::new(walk.end),
            newest: AtomicU64::new(walk.newest.cast_unsigned()),
            mark: Mutex::new(walk.mark),
            rows: RwLock::new(Some(walk.table)),
            streams: RwLock::new(streams),
            written: Mutex::new(length),
        }
    }

    /// The place after its last entry.
    pub(super) fn next(&self) -> u64 {
        self.title.first + self.count.load(Ordering::Acquire)
    }

    /// Where its last frame ends.
    pub(super) fn end(&self) -> u64 {
        self.end.load(Ordering::Acquire)
    }

    /// When its newest entry came, in seconds since 1970.
    pub(super) fn newest(&self) -> i64 {
        self.newest.load(Ordering::Acquire).cast_signed()
    }

    /// What its table's file is called.
    pub(super) fn table_path(&self) -> PathBuf {
        self.path.with_extension("table")
    }

    /// Which streams are in it, from which number to which.
    pub(super) fn streams(&self) -> RwLockReadGuard<'_, HashMap<u64, (u64, u64)>> {
        self.streams.read().unwrap_or_else(PoisonError::into_inner)
    }

    /// Writes frames at the end and syncs them; they count once
    /// [`add`](Self::add) says so.
    ///
    /// # Errors
    /// They are not certain to be durable.
    pub(super) fn write(&self, frames: &[u8]) -> Result<(), JournalError> {
        let (from, to) = (self.end(), self.end() + frames.len() as u64);
        {
            let mut written = self.written();
            *written = to.max(*written);
        }
        self.file
            .write_all_at(frames, from)
            .and_then(|()| self.file.sync_data())
            .map_err(|error| JournalError::of_file(&self.path, &error))
    }

    /// Counts the entries of frames that were written at the end.
    pub(super) fn add(&self, rows: &[Row], length: u64, newest: i64, mark: Mark) {
        {
            let mut table = self.rows.write().unwrap_or_else(PoisonError::into_inner);
            let mut streams = self.streams.write().unwrap_or_else(PoisonError::into_inner);
            for row in rows {
                table.as_mut().into_iter().for_each(|table| table.push(*row));
                row.note_in(&mut streams);
            }
        }
        *self.mark.lock().unwrap_or_else(PoisonError::into_inner) = mark;
        self.newest.store(self.newest().max(newest).cast_unsigned(), Ordering::Release);
        self.end.fetch_add(length, Ordering::AcqRel);
        self.count.fetch_add(rows.len() as u64, Ordering::AcqRel);
    }

    /// True where little is left of what was written ahead.
    pub(super) fn runs_short(&self) -> bool {
        *self.written() < self.end() + self.step() / 2
    }

    /// Writes zeros ahead.
    ///
    /// # Errors
    /// The disk is full, or fails.
    pub(super) fn write_ahead(&self) -> io::Result<()> {
        let mut written = self.written();
        let (from, to) = (*written, self.end() + self.step());
        if to <= from {
            return Ok(());
        }
        let zeros = usize::try_from(to - from).unwrap_or_default();
        self.file.write_all_at(&vec![0; zeros], from)?;
        *written = to;
        drop(written);
        self.file.sync_data()
    }

    fn step(&self) -> u64 {
        self.end().clamp(AHEAD.0, AHEAD.1)
    }

    fn written(&self) -> MutexGuard<'_, u64> {
        self.written.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Writes the table beside the file and cuts off what was written ahead: no
    /// more is added.
    ///
    /// # Errors
    /// The disk is full, or fails.
    pub(super) fn seal(&self) -> Result<(), JournalError> {
        if !self.is_open() {
            return Ok(());
        }
        folder::replace_file(&self.table_path(), &self.written_table())?;
        let of_file = |error: io::Error| JournalError::of_file(&self.path, &error);
        self.file.set_len(self.end()).and_then(|()| self.file.sync_all()).map_err(of_file)?;
        self.forget_rows();
        Ok(())
    }

    /// The table of its rows as a file; an empty one where they are not in memory.
    pub(super) fn written_table(&self) -> Vec<u8> {
        let rows = self.rows.read().unwrap_or_else(PoisonError::into_inner);
        rows.as_ref().map(|table| table.write(&self.summary())).unwrap_or_default()
    }

    /// Lets its rows be read from their file from now on.
    pub(super) fn forget_rows(&self) {
        *self.rows.write().unwrap_or_else(PoisonError::into_inner) = None;
    }

    pub(super) fn summary(&self) -> Summary {
        Summary {
            generation: self.title.generation,
            first: self.title.first,
            count: self.count.load(Ordering::Acquire),
            end: self.end(),
            newest: self.newest(),
            mark: *self.mark.lock().unwrap_or_else(PoisonError::into_inner),
        }
    }

    /// The rows, from memory or from their file; made anew where that is not
    /// whole.
    ///
    /// # Errors
    /// The file of the log itself can't be read.
    pub(super) fn table(&self) -> Result<Arc<Table>, JournalError> {
        {
            let rows = self.rows.read().unwrap_or_else(PoisonError::into_inner);
            if let Some(table) = rows.as_ref() {
                return Ok(Arc::new(table.clone()));
            }
        }
        let read = fs::read(self.table_path()).ok().and_then(|bytes| Table::read(&bytes));
        if let Some((of, table)) = read
            && of == self.summary()
        {
            return Ok(Arc::new(table));
        }
        let bytes = self.bytes()?;
        Ok(Arc::new(Walk::through(&bytes, self.title.first, self.title.before, false).table))
    }

    /// True while entries may be added: its rows are in memory.
    pub(super) fn is_open(&self) -> bool {
        self.rows.read().unwrap_or_else(PoisonError::into_inner).is_some()
    }

    /// The row of a place, where the rows are in memory.
    pub(super) fn row_in_memory(&self, index: usize) -> Option<(Row, u64)> {
        let rows = self.rows.read().unwrap_or_else(PoisonError::into_inner);
        let table = rows.as_ref()?;
        Some((table.row(index)?, table.end_of(index).unwrap_or(self.end())))
    }

    /// All bytes of the file, up to the end of the last frame.
    ///
    /// # Errors
    /// It can't be read.
    pub(super) fn bytes(&self) -> Result<Vec<u8>, JournalError> {
        slowly::read(&self.path, self.end()).map_err(|e| JournalError::of_file(&self.path, &e))
    }

    /// The entry of `place` in the frame at `offset`, which ends by `end`.
    ///
    /// # Errors
    /// It can't be read, or isn't whole, or is another's.
    pub(super) fn entry(&self, place: u64, offset: u64, end: u64) -> Result<Placed, JournalError> {
        let wrong = |why: &str| JournalError::Damaged(format!("entry {place}: {why}"));
        if offset < TITLE_LENGTH {
            return Err(wrong("it is missing"));
        }
        let length = usize::try_from(end.saturating_sub(offset)).unwrap_or_default();
        let mut bytes = vec![0; length];
        self.file.read_exact_at(&mut bytes, offset).map_err(|error| match error.kind() {
            io::ErrorKind::UnexpectedEof => wrong("its file is cut short"),
            _ => JournalError::of_file(&self.path, &error),
        })?;
        let read = frame::read(&bytes).map_err(|why| wrong(&why))?;
        entry_of(&read, place)
    }
}

/// The entry in a frame that must be that of `place`.
fn entry_of(frame: &Frame<'_>, place: u64) -> Result<Placed, JournalError> {
    let wrong = |why: &str| JournalError::Damaged(format!("entry {place}: {why}"));
    if frame.head.place != place {
        return Err(wrong(&format!("entry {} stands there", frame.head.place)));
    }
    // Whether it bears its mark too is for a check to find out: its checksum holds.
    frame.entry().map_err(|why| wrong(&why))
}
