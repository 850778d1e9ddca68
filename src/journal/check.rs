//! Reading everything once, to know that it can be read. Knows nothing of what
//! the bodies mean.

use std::fs;
use std::sync::Arc;
use std::thread;
use std::time::Duration;

use serde::{Deserialize, Serialize};

use super::contract::State;
use super::log::Log;
use super::seen_ids;
use super::segment::{Segment, Title};
use super::table::Table;
use super::walk::Walk;
use super::{Journal, JournalError, Mark, SledJournal, StreamId};
use crate::background;

/// How many kinds of damage are told in full.
const TOLD: usize = 20;

/// How often a file with a fault is read again, and how long after.
const AGAIN: usize = 3;
const A_MOMENT: Duration = Duration::from_millis(100);

/// What a check found.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
pub struct Checked {
    /// How many entries were read whole.
    pub entries: u64,
    /// How long they are together, in bytes.
    pub bytes: u64,
    /// How many parts the snapshots have.
    pub parts: usize,
    /// How many entries were lost before, and told of by a repair.
    #[serde(default)]
    pub lost: u64,
    /// How many things are wrong; 0 in a sound journal.
    pub faults: u64,
    /// The first twenty of them, in words.
    pub damage: Vec<String>,
}

impl Checked {
    /// Whether nothing was found wrong.
    pub fn is_sound(&self) -> bool {
        self.faults == 0
    }

    /// Takes what was found in another part.
    fn add(&mut self, other: Checked) {
        self.entries += other.entries;
        self.bytes += other.bytes;
        self.parts += other.parts;
        self.lost += other.lost;
        self.faults += other.faults;
        self.damage.extend(other.damage);
        self.damage.truncate(TOLD);
    }

    /// Notes something that is wrong, in words.
    pub fn fault(&mut self, what: String) {
        self.faults += 1;
        if self.damage.len() < TOLD {
            self.damage.push(what);
        }
    }
}

impl SledJournal {
    /// See [`Journal::check`].
    pub(super) fn check_all(&self) -> Result<Checked, JournalError> {
        let mut checked = Checked::default();
        if let State::ReadOnly(why) = self.state() {
            checked.fault(why);
        }
        let log = self.shared.log()?;
        let mut next = 1;
        let mut mark = Some(Mark::default());
        let segments = log.segments();
        for (at, segment) in segments.iter().enumerate() {
            if segment.title.first != next {
                let from = segment.title.first;
                checked.fault(format!("entries {next} to {} are missing", from.saturating_sub(1)));
                mark = None;
            }
            let is_last = at + 1 == segments.len();
            let (found, last) = check_current(&log, segment, mark, is_last)?;
            checked.add(found);
            next = segment.next();
            mark = last;
        }
        self.check_snapshots(&mut checked)?;
        Ok(checked)
    }

    fn check_snapshots(&self, checked: &mut Checked) -> Result<(), JournalError> {
        let mut streams = self.streams().unwrap_or_default();
        streams.push(StreamId::all());
        for stream in streams {
            let tag = stream.tag();
            let found = self.shared.reading(|store| {
                let Some(list) = store.list(tag)? else { return Ok(None) };
                store.parts(tag, &list)?;
                Ok(Some(list))
            });
            match found {
                Ok(None) => {}
                Ok(Some(list)) => {
                    checked.parts += list.len();
                    if self.snapshot(&stream)?.through != list.through {
                        checked.fault(format!("the snapshot of `{stream}` does not fit the log"));
                    }
                }
                Err(error) => checked.fault(format!("the snapshot of `{stream}`: {error}")),
            }
        }
        Ok(())
    }
}

/// Checks a file as [`check_file`] does; where it is written anew meanwhile, since somebody
/// in it is forgotten, the one that took its place.
fn check_current(
    log: &Log,
    segment: &Arc<Segment>,
    before: Option<Mark>,
    is_last: bool,
) -> Result<(Checked, Option<Mark>), JournalError> {
    let mut segment = Arc::clone(segment);
    let mut again = AGAIN;
    loop {
        let mut found = Checked::default();
        let last = check_file(log, &segment, before, is_last, &mut found)?;
        if found.is_sound() || again == 0 {
            return Ok((found, last));
        }
        again -= 1;
        // The name is changed a moment before the file behind it counts.
        thread::sleep(A_MOMENT);
        let first = segment.title.first;
        segment =
            log.segments().into_iter().find(|one| one.title.first == first).unwrap_or(segment);
    }
}

/// Checks one file after the entry with this mark; gives the mark of its last.
fn check_file(
    log: &Log,
    segment: &Segment,
    before: Option<Mark>,
    is_last: bool,
    checked: &mut Checked,
) -> Result<Option<Mark>, JournalError> {
    // Entries come in meanwhile: those that are known now must be in what is read next.
    let known = segment.next();
    let bytes = segment.bytes()?;
    let Title { first, before: said, .. } = segment.title;
    let shown = segment.path.file_name().unwrap_or_default().to_string_lossy();
    if Title::read(&bytes) != Some(segment.title) {
        checked.fault(format!("the beginning of `{shown}` is not what it was"));
    }
    if before.is_some_and(|before| before != said) {
        checked.fault(format!("`{shown}` does not follow what comes before it"));
    }
    let walk = Walk::through_slowly(&bytes, first, said, true, background::rest);
    let there = walk.table.rows().filter(|row| row.offset > 0).count() as u64;
    checked.entries += there - walk.lost.min(there);
    checked.lost += walk.lost;
    checked.bytes += walk.end;
    walk.faults.iter().for_each(|fault| checked.fault(fault.clone()));
    if (walk.table.len() as u64) < known - first {
        let from = first + walk.table.len() as u64;
        checked.fault(format!("`{shown}`: entry {from} and what follows it are missing"));
    }
    check_ids(log, segment, known, &walk.table, checked);
    if !is_last && !segment.is_open() {
        let table = fs::read(segment.table_path()).ok().and_then(|bytes| Table::read(&bytes));
        if table.is_none_or(|(of, table)| {
            of != segment.summary() || !table.rows().eq(walk.table.rows())
        }) {
            checked.fault(format!("the table beside `{shown}` does not fit it"));
        }
    }
    Ok(Some(walk.mark).filter(|mark| *mark != Mark::default() || first == 1))
}

/// Whether the key of each entry leads to it, or to an earlier one.
fn check_ids(log: &Log, segment: &Segment, known: u64, table: &Table, checked: &mut Checked) {
    let first = segment.title.first;
    let latest = log.segments().iter().map(|one| one.newest()).max().unwrap_or_default();
    if seen_ids::is_forgotten(segment.newest(), latest) || !log.seen_ids.files().contains(&first) {
        return;
    }
    for (place, row) in (first..known).zip(table.rows()) {
        background::rest();
        if row.key == 0 {
            continue;
        }
        match log.place_of(row.key) {
            Ok(found) if found.is_none_or(|found| found > place) => {
                checked.fault(format!("entry {place}: its message's key does not lead to it"));
            }
            Ok(_) => {}
            Err(error) => checked.fault(error.to_string()),
        }
    }
}
