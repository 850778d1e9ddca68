//! Putting a log together again from what can be read: its own files, whatever
//! state they are in, and copies of it. What can't be found is written down as
//! lost, so that the history that goes on from there says so.
//!
//! The files that were there are kept beside the new ones. Decides nothing about
//! what an entry means.

use std::collections::{BTreeMap, HashMap, HashSet};
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use jiff::Timestamp;
use serde::{Deserialize, Serialize};

use super::aside::Aside;
use super::error::damaged;
use super::folder::{self, Folder, StoreId};
use super::frame::Kind;
use super::high_water::{self, HighWater, Reach, Read};
use super::log::Log;
use super::revise;
use super::scan::{Sighting, Source};
use super::segment::{self, Segment, Title};
use super::writer::Writer;
use super::{JournalError, Mark, Placed, StreamId};

/// How many bytes of entries are written in one step.
const STEP: usize = 1024 * 1024;

/// What a repair found.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Repaired {
    /// How many entries are there now.
    pub entries: u64,
    /// How many of them only a copy still had.
    pub from_copies: u64,
    /// What is gone, in the order of the log.
    pub lost: Vec<Lost>,
    /// Which streams miss entries, as far as their numbers tell.
    pub missing: Vec<Missing>,
    /// Where the files are that were there before.
    pub kept: PathBuf,
}

/// Entries in a row that are gone.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Lost {
    /// The place of the first.
    pub first: u64,
    /// The place of the last.
    pub last: u64,
    /// When the entry before them came.
    pub after: Option<Timestamp>,
    /// When the entry after them came.
    pub before: Option<Timestamp>,
}

/// Entries in a row that a stream misses.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Missing {
    /// The stream's name.
    pub stream: String,
    /// The number of the first.
    pub first: u64,
    /// The number of the last.
    pub last: u64,
}

/// Mends the log in a folder, of which nobody else may have it open, from its own
/// files and from those copies.
///
/// # Errors
/// Nothing of a log is there, or the files can't be read or written.
pub fn repair(
    at: &Path,
    high_water: Option<&Path>,
    copies: &[PathBuf],
) -> Result<Repaired, JournalError> {
    let mark = high_water.map_or_else(|| folder::high_water(at), Path::to_owned);
    let folder = Folder::take_to_mend(at, |at, said| own_id(at, said, &mark))?;
    let (water, acknowledged) = HighWater::open(&mark, folder.id())?;
    let mut sources = own_files(&folder)?;
    let own = sources.len();
    for copy in copies {
        sources.push(Source::open(copy)?);
    }
    let mut candidates = Candidates::default();
    for (index, source) in sources.iter().enumerate() {
        let anothers = source.title().is_some_and(|title| title.store != folder.id());
        if anothers {
            tracing::warn!(file = %source.path.display(), "passed over: it is another journal's");
            continue;
        }
        for seen in source.sightings()? {
            candidates.add(seen, index, index < own);
        }
    }
    let reach = match acknowledged {
        Read::Reach(reach) => Some(reach),
        Read::Missing | Read::Damaged | Read::Anothers => None,
    };
    let erased = erased_places(&folder, &sources);
    let chosen = candidates.choose(reach, &erased);
    if chosen.is_empty() && reach.is_none_or(|reach| reach.place == 0) {
        return Err(damaged("no entry of a log can be read there"));
    }
    let written = write_anew(&folder, &sources, &chosen, reach)?;
    let kept = exchange(&folder, &erased)?;
    for _ in 0..2 {
        // Both slots.
        water.note(written.reach)?;
    }
    water.sync()?;
    folder.finish()?;
    let from_copies = chosen.values().filter(|one| one.source >= own).count() as u64;
    let entries = chosen.len() as u64;
    Ok(Repaired { entries, from_copies, lost: written.lost, missing: written.missing, kept })
}

/// Whose log the files in a folder are: as the marker said, unless no file there is
/// that one's and the mark beside them speaks for the files (a bit of the marker may
/// have changed); without a marker as most files say.
fn own_id(at: &Path, said: Option<StoreId>, mark: &Path) -> Option<StoreId> {
    let mut counts: HashMap<[u8; 16], usize> = HashMap::new();
    for path in files_under(at) {
        if let Some(title) = Source::open(&path).ok().and_then(|source| source.title()) {
            *counts.entry(title.store.0).or_default() += 1;
        }
    }
    if said.is_some_and(|said| counts.contains_key(&said.0)) {
        return said;
    }
    let most = counts.into_iter().max_by_key(|(_, count)| *count).map(|(id, _)| StoreId(id));
    match said {
        None => most,
        Some(said) => most.filter(|most| high_water::whose(mark) == Some(*most)).or(Some(said)),
    }
}

/// All files there are: a file of the log may stand under another's name.
fn own_files(folder: &Folder) -> Result<Vec<Source>, JournalError> {
    files_under(folder.path()).iter().map(|path| Source::open(path)).collect()
}

/// The log's folder, and those that earlier repairs kept or did not finish.
fn log_folders(at: &Path) -> Result<Vec<PathBuf>, JournalError> {
    let of_file = |error: std::io::Error| JournalError::of_file(at, &error);
    let mut folders = Vec::new();
    for entry in fs::read_dir(at).map_err(of_file)? {
        let path = entry.map_err(of_file)?.path();
        let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
        if path.is_dir() && (name == "log" || name.starts_with("log.")) {
            folders.push(path);
        }
    }
    folders.sort();
    Ok(folders)
}

fn files_under(folder: &Path) -> Vec<PathBuf> {
    let mut files = Vec::new();
    for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
        let path = entry.path();
        match path.is_dir() {
            true => files.append(&mut files_under(&path)),
            false => files.push(path),
        }
    }
    files.sort();
    files
}

/// The places of entries that were erased; copies hold what they were.
fn erased_places(folder: &Folder, sources: &[Source]) -> HashSet<u64> {
    let mut places = HashSet::new();
    for log in log_folders(folder.path()).unwrap_or_default() {
        let files: Vec<Title> = sources
            .iter()
            .filter(|file| file.path.parent() == Some(&*log))
            .filter(|file| file.path.extension().is_some_and(|end| end == "log"))
            .filter_map(Source::title)
            .collect();
        let has = |generation| files.iter().any(|title| title.generation == generation);
        places.extend(revise::changed_places(&log, has));
    }
    places
}

/// An entry that could stand at a place.
#[derive(Debug, Clone, Copy)]
struct Candidate {
    seen: Sighting,
    source: usize,
    own: bool,
}

#[derive(Default)]
struct Candidates(BTreeMap<u64, Vec<Candidate>>);

impl Candidates {
    fn add(&mut self, seen: Sighting, source: usize, own: bool) {
        if seen.head.kind != Kind::Lost {
            self.0.entry(seen.head.place).or_default().push(Candidate { seen, source, own });
        }
    }

    /// One entry a place, from the last back to the first: the one that the next
    /// was made to follow.
    fn choose(&self, reach: Option<Reach>, erased: &HashSet<u64>) -> BTreeMap<u64, Candidate> {
        let mut chosen: BTreeMap<u64, Candidate> = BTreeMap::new();
        for (&place, all) in self.0.iter().rev() {
            let wanted = match (chosen.first_key_value(), reach) {
                (Some((&next, one)), _) if next == place + 1 => Some(one.seen.head.before),
                (_, Some(reach)) if reach.place == place => Some(reach.mark),
                _ => None,
            };
            let fits = |one: &&Candidate| wanted.is_none_or(|mark| mark == one.seen.head.mark);
            let follows = |one: &Candidate| {
                let before = self.0.get(&place.saturating_sub(1)).into_iter().flatten();
                place == 1 || before.into_iter().any(|it| it.seen.head.mark == one.seen.head.before)
            };
            // What was erased stays so; our own files know best; then whatever goes on.
            let rank =
                |one: &&Candidate| (one.seen.head.kind == Kind::Changed, one.own, follows(one));
            let Some(best) = all.iter().filter(fits).max_by_key(rank) else { continue };
            let comes_back = best.seen.head.kind == Kind::Whole && erased.contains(&place);
            if !comes_back {
                chosen.insert(place, *best);
            }
        }
        chosen
    }
}

struct Written {
    reach: Reach,
    lost: Vec<Lost>,
    missing: Vec<Missing>,
}

/// Writes the chosen entries into a new folder beside the log's.
fn write_anew(
    folder: &Folder,
    sources: &[Source],
    chosen: &BTreeMap<u64, Candidate>,
    reach: Option<Reach>,
) -> Result<Written, JournalError> {
    let path = folder.new_log()?;
    let (before, generation) = (Mark::default(), segment::generation()?);
    let title = Title { store: folder.id(), first: 1, before, generation };
    let first = Arc::new(Segment::make(&path, title)?);
    let log = Arc::new(Log::of(folder.id(), path.clone(), vec![Arc::clone(&first)]));
    let nowhere = HighWater::open(&path.join("high-water"), folder.id())?.0;
    let aside = Aside::begin(Arc::clone(&log), Arc::new(nowhere))?;
    let mut writer = Writer::new(Arc::clone(&log), first, Mark::default());
    let mut telling = Telling::default();
    let mut waiting: Vec<Placed> = Vec::new();
    let mut bytes = 0;
    for candidate in chosen.values() {
        #[expect(clippy::indexing_slicing, reason = "it was seen in one of these sources")]
        let placed = sources[candidate.source].entry(&candidate.seen)?;
        telling.note(&placed);
        bytes += placed.entry.body.len();
        waiting.push(placed);
        if bytes > STEP {
            writer.take_over(&std::mem::take(&mut waiting), &aside)?;
            bytes = 0;
        }
    }
    writer.take_over(&waiting, &aside)?;
    let last = chosen.last_key_value().map_or(0, |(place, _)| *place);
    let reach = match reach.filter(|reach| reach.place > last) {
        Some(reach) => {
            writer.lose(reach, &aside)?;
            telling.lose(last + 1, reach.place);
            reach
        }
        None => Reach { place: last, mark: writer.mark() },
    };
    aside.settle();
    aside.end();
    fs::remove_file(path.join("high-water")).map_err(|e| JournalError::of_file(&path, &e))?;
    folder::sync_folder(&path)?;
    Ok(Written { reach, lost: telling.lost, missing: telling.missing })
}

/// Puts the new log in the old one's place; gives where the old one is kept.
fn exchange(folder: &Folder, erased: &HashSet<u64>) -> Result<PathBuf, JournalError> {
    let (log, new) = (folder.log(), folder.path().join(folder::NEW_LOG));
    let kept = (1..)
        .map(|number| folder.path().join(format!("log.kept-{number}")))
        .find(|path| !path.exists())
        .unwrap_or_else(|| folder.path().join("log.kept"));
    let of_file = |error: std::io::Error| JournalError::of_file(&log, &error);
    if !erased.is_empty() {
        revise::write_changed(&new, erased)?;
    }
    if log.exists() {
        fs::rename(&log, &kept).map_err(of_file)?;
    }
    fs::rename(&new, &log).map_err(of_file)?;
    folder::sync_folder(folder.path())?;
    Ok(kept)
}

/// Works out what is gone.
#[derive(Default)]
struct Telling {
    lost: Vec<Lost>,
    missing: Vec<Missing>,
    last: u64,
    at: Option<Timestamp>,
    numbers: HashMap<StreamId, u64>,
}

impl Telling {
    fn note(&mut self, placed: &Placed) {
        let place = placed.place.number();
        let at = Some(placed.entry.at);
        if place > self.last + 1 {
            let (first, last, after) = (self.last + 1, place - 1, self.at);
            self.lost.push(Lost { first, last, after, before: at });
        }
        let number = self.numbers.entry(placed.entry.stream.clone()).or_default();
        if placed.tip.number > *number + 1 {
            let stream = placed.entry.stream.0.clone();
            let (first, last) = (*number + 1, placed.tip.number - 1);
            self.missing.push(Missing { stream, first, last });
        }
        *number = placed.tip.number;
        (self.last, self.at) = (place, at);
    }

    fn lose(&mut self, first: u64, last: u64) {
        self.lost.push(Lost { first, last, after: self.at, before: None });
    }
}
