//! Opening a log: what is there, whether its files fit together, and whether it
//! is all that was acknowledged.

use std::collections::BTreeMap;
use std::fs::{self, File};
use std::os::unix::fs::FileExt;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::folder::Folder;
use super::high_water::{Reach, Read};
use super::log::Log;
use super::seen_ids;
use super::segment::{self, Segment, TITLE_LENGTH, Title};
use super::table::Table;
use super::walk::Walk;
use super::{JournalError, Mark};

/// A log as it was found.
pub(super) struct Found {
    pub log: Arc<Log>,
    /// The file to add to; none where there is nothing.
    pub active: Option<Arc<Segment>>,
    /// How far it goes.
    pub reach: Reach,
    /// What is wrong, in words; empty where all is well.
    pub faults: Vec<String>,
    /// Files that are ended and were not sealed yet.
    pub unsealed: Vec<Arc<Segment>>,
}

/// Opens the log in a folder, which was acknowledged as far as `acknowledged`.
/// Begins one where the folder is new.
///
/// # Errors
/// The files can't be read; what is wrong with what they hold is in the answer.
pub(super) fn open(folder: &Folder, acknowledged: Read) -> Result<Found, JournalError> {
    let path = folder.log();
    let mut names = names(&path)?;
    if names.is_empty() && folder.is_unfinished()? {
        let (before, generation) = (Mark::default(), segment::generation()?);
        let title = Title { store: folder.id(), first: 1, before, generation };
        drop(Segment::make(&path, title)?);
        names = self::names(&path)?;
    }
    let mut opening = Opening {
        folder,
        acknowledged: match acknowledged {
            Read::Reach(reach) => reach.place,
            Read::Missing | Read::Damaged | Read::Anothers => u64::MAX,
        },
        segments: Vec::new(),
        next: 1,
        mark: Some(Mark::default()),
        faults: Vec::new(),
    };
    if names.is_empty() {
        opening.faults.push("the log has no files".into());
    }
    let firsts: Vec<u64> = names.keys().copied().collect();
    for (at, (first, path)) in names.into_iter().enumerate() {
        opening.take(first, path, firsts.get(at + 1).copied())?;
    }
    opening.end(acknowledged)
}

/// The files of a log's folder by the place of their first entry.
pub(super) fn names(folder: &Path) -> Result<BTreeMap<u64, PathBuf>, JournalError> {
    let of_file = |error: std::io::Error| JournalError::of_file(folder, &error);
    let mut names = BTreeMap::new();
    let files = match fs::read_dir(folder) {
        Ok(files) => files,
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => return Ok(names),
        Err(error) => return Err(of_file(error)),
    };
    for file in files {
        let path = file.map_err(of_file)?.path();
        let first = path.file_name().and_then(|name| segment::first_of(name.to_str()?));
        if let Some(first) = first {
            names.insert(first, path);
        } else if path.extension().is_some_and(|end| end == "draft" || end == "new") {
            // Left by a cut while a file was written anew.
            fs::remove_file(&path).map_err(of_file)?;
        }
    }
    Ok(names)
}

struct Opening<'a> {
    folder: &'a Folder,
    /// The place up to which all was acknowledged.
    acknowledged: u64,
    segments: Vec<Arc<Segment>>,
    next: u64,
    /// The mark of the last entry; `None` where it isn't there.
    mark: Option<Mark>,
    faults: Vec<String>,
}

impl Opening<'_> {
    /// Takes the next file, which another follows or none.
    fn take(&mut self, first: u64, path: PathBuf, then: Option<u64>) -> Result<(), JournalError> {
        let of_file = |error: std::io::Error| JournalError::of_file(&path, &error);
        let file = File::options().read(true).write(true).open(&path).map_err(of_file)?;
        let length = file.metadata().map_err(of_file)?.len();
        let shown = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
        let title = self.title(&file, first, &shown);
        let Some(title) = title else { return Ok(()) };
        if first > self.next {
            self.miss(self.next, first);
        } else if first < self.next {
            self.faults.push(format!("`{shown}` begins before the file before it ends"));
            return Ok(());
        }
        if self.mark.is_some_and(|mark| mark != title.before) {
            self.faults.push(format!("`{shown}` does not follow what comes before it"));
        }
        let segment = match then.and_then(|then| by_table(&path, &title, length, then)) {
            Some((summary, table)) => Segment::sealed(title, path, file, &summary, &table),
            None => self.walk(title, path, file, length, then.is_none())?,
        };
        let summary = segment.summary();
        self.next = segment.next();
        self.mark = (summary.mark != Mark::default() || self.next == 1).then_some(summary.mark);
        self.segments.push(Arc::new(segment));
        Ok(())
    }

    /// The title of a file; one made up where it is damaged, none where the file
    /// is another journal's.
    fn title(&mut self, file: &File, first: u64, shown: &str) -> Option<Title> {
        let mut bytes = [0; TITLE_LENGTH as usize];
        let read = file.read_exact_at(&mut bytes, 0).ok().and_then(|()| Title::read(&bytes));
        let Some(title) = read else {
            self.faults.push(format!("the beginning of `{shown}` is damaged"));
            let before = self.mark.filter(|_| first == self.next).unwrap_or_default();
            return Some(Title { store: self.folder.id(), first, before, generation: 0 });
        };
        if title.store != self.folder.id() {
            self.faults.push(format!("`{shown}` is another journal's"));
            return None;
        }
        if title.first != first {
            let holds = title.first;
            self.faults.push(format!("`{shown}` holds the log from entry {holds} on"));
            return None;
        }
        Some(title)
    }

    /// Walks through a file of which there is no table, or which may be added to.
    fn walk(
        &mut self,
        title: Title,
        path: PathBuf,
        file: File,
        length: u64,
        is_last: bool,
    ) -> Result<Segment, JournalError> {
        let of_file = |error: std::io::Error| JournalError::of_file(&path, &error);
        let mut bytes = fs::read(&path).map_err(of_file)?;
        let mut walk = Walk::through(&bytes, title.first, title.before, false);
        if is_last {
            let torn = walk.gap.filter(|gap| gap.in_one_step && gap.place > self.acknowledged);
            if let Some(gap) = torn {
                bytes.truncate(usize::try_from(gap.offset).unwrap_or(usize::MAX));
                walk = Walk::through(&bytes, title.first, title.before, false);
            }
            if walk.faults.is_empty() && (torn.is_some() || walk.ragged) {
                clear(&file, walk.end, length).map_err(of_file)?;
            }
        }
        self.faults.append(&mut walk.faults);
        Ok(Segment::walked(title, path, file, length, walk))
    }

    fn miss(&mut self, from: u64, to: u64) {
        self.faults.push(match to - from {
            1 => format!("entry {from} is missing"),
            _ => format!("entries {from} to {} are missing", to - 1),
        });
        self.mark = None;
    }

    /// Compares all with what was acknowledged.
    fn end(mut self, acknowledged: Read) -> Result<Found, JournalError> {
        let last = self.next - 1;
        let reach = Reach { place: last, mark: self.mark.unwrap_or_default() };
        let log = Log::of(self.folder.id(), self.folder.log(), self.segments.clone());
        let latest = self.segments.iter().map(|segment| segment.newest()).max();
        let mut unsealed = Vec::new();
        for (at, segment) in self.segments.iter().enumerate() {
            let is_last = at + 1 == self.segments.len();
            if !is_last && segment.is_open() {
                unsealed.push(Arc::clone(segment));
            }
            let table = if self.faults.is_empty() || segment.next() > segment.title.first {
                segment.table()?
            } else {
                Arc::default()
            };
            let first = segment.title.first;
            log.note(first, table.rows());
            if !seen_ids::is_forgotten(segment.newest(), latest.unwrap_or_default()) {
                log.seen_ids.note_all(first, &table);
                if log.seen_ids.are_many() {
                    log.let_ids_go(segment.next());
                }
            }
        }
        match acknowledged {
            Read::Missing if self.folder.is_unfinished()? => {}
            Read::Missing => self.faults.push("the high-water mark is missing".into()),
            Read::Damaged => self.faults.push("the high-water mark is damaged".into()),
            Read::Anothers => self.faults.push(
                "the high-water mark is another journal's: was one put in the place of another?"
                    .into(),
            ),
            Read::Reach(was) if was.place > last => self.faults.push(format!(
                "the log ends at entry {last}, but all up to entry {} was acknowledged: was an \
                 old copy put back?",
                was.place
            )),
            Read::Reach(was) => {
                let there = match was.place {
                    0 => Some(Mark::default()),
                    place if place == last => self.mark,
                    place => log.entry(place).ok().map(|placed| placed.tip.mark),
                };
                if there.is_some_and(|there| there != was.mark) {
                    self.faults.push(format!(
                        "entry {} is not the one that was acknowledged: is this another history?",
                        was.place
                    ));
                }
            }
        }
        let active = self.segments.last().cloned();
        Ok(Found { log: Arc::new(log), active, reach, faults: self.faults, unsealed })
    }
}

/// The table of a file, where it can be relied on.
fn by_table(
    path: &Path,
    title: &Title,
    length: u64,
    then: u64,
) -> Option<(super::table::Summary, Table)> {
    let bytes = fs::read(path.with_extension("table")).ok()?;
    let (summary, table) = Table::read(&bytes)?;
    let fits = summary.generation == title.generation
        && summary.first == title.first
        && summary.end <= length
        && summary.first + summary.count == then;
    fits.then_some((summary, table))
}

/// Writes zeros over what a cut left.
fn clear(file: &File, from: u64, to: u64) -> std::io::Result<()> {
    let zeros = usize::try_from(to.saturating_sub(from)).unwrap_or_default();
    file.write_all_at(&vec![0; zeros], from)?;
    file.sync_data()
}
