//! Writing entries anew, so that what is left out is in no file of the journal
//! any more, while others read and write.
//!
//! Only the files in which something changes are written anew, one after the
//! other, each beside the one that it then replaces by one rename. Places, marks
//! and numbers stay. Knows nothing of what is to go.

use std::collections::HashSet;
use std::fs::{self, File};
use std::io::Write;
use std::path::Path;
use std::sync::Arc;

use super::contract::Change;
use super::embedded::Store;
use super::error::damaged;
use super::folder;
use super::frame;
use super::log::Log;
use super::segment::{self, Segment, Title};
use super::shared::Shared;
use super::table::{Row, Table};
use super::walk::{Walk, key_of};
use super::{Entry, JournalError, StreamId};
use crate::background;

/// How much is written before it is synced, in bytes: whoever writes entries
/// meanwhile shares the disk.
const STEP: usize = 256 * 1024;

/// What the file is called that keeps which entries were changed, for whoever
/// puts a log together from several copies. It holds places only.
const CHANGED: &str = "changed";

/// What the file is called that keeps which entries are being changed, behind the
/// generation of the file that will hold them: without such a file in the log they
/// stand as they were.
const CHANGING: &str = "changing";

/// Writes the entries of these streams anew.
///
/// # Errors
/// What `change` failed with, or the disk; some entries may have changed.
pub(super) fn revise(
    shared: &Shared,
    streams: &[StreamId],
    change: &mut Change<'_>,
) -> Result<(), JournalError> {
    let _upkeep = shared.upkeep();
    if let Some(wrong) = shared.wrong() {
        return Err(JournalError::ReadOnly(wrong));
    }
    let log = shared.log()?;
    let tags: Vec<u64> = streams.iter().map(StreamId::tag).collect();
    settle_changing(&log)?;
    let begun = end_file(shared)?;
    for segment in log.segments().iter().filter(|one| one.title.first < begun) {
        // Whoever opens the log again waits for the end of this, which can be done anew.
        if let Some(reason) = shared.queue.refusal() {
            return Err(reason);
        }
        let concerned = tags.iter().any(|tag| segment.streams().contains_key(tag));
        if concerned {
            revise_file(&log, segment, &tags, change)?;
        }
    }
    revise_snapshots(shared, &tags)
}

/// Ends the file that is added to, so that all there is lies in files nobody
/// adds to; gives the place with which the next begins.
fn end_file(shared: &Shared) -> Result<u64, JournalError> {
    let opened = shared.opened();
    let opened = opened.as_ref().ok_or_else(|| shared.refusal())?;
    // Whoever writes waits while a file is ended: where many do, neither for the next to be
    // made nor, later, for it to grow; and never for this one to be sealed.
    if background::requests_come() {
        opened.aside.await_next();
    }
    let begun = {
        let mut writer = shared.writer();
        let writer = writer.as_mut().ok_or_else(|| shared.refusal())?;
        writer.begin_next(&opened.aside)?;
        writer.next()
    };
    opened.aside.settle();
    Ok(begun)
}

fn revise_file(
    log: &Log,
    segment: &Arc<Segment>,
    tags: &[u64],
    change: &mut Change<'_>,
) -> Result<(), JournalError> {
    let mut instead: Vec<(usize, Entry)> = Vec::new();
    let table = segment.table()?;
    for (index, row) in table.rows().enumerate().filter(|(_, row)| holds_one_of(tags, row)) {
        background::rest();
        let (place, offset) = (segment.title.first + index as u64, row.offset.into());
        let placed = segment.entry(place, offset, table.end_of(index).unwrap_or(segment.end()))?;
        if let Some(entry) = change(&placed)? {
            frame::fits(&entry)?;
            if entry.stream != placed.entry.stream {
                return Err(damaged("an entry can't go to another stream"));
            }
            instead.push((index, entry));
        }
    }
    // Most files hold nothing that is to go.
    if instead.is_empty() {
        return Ok(());
    }
    let bytes = segment.bytes()?;
    let Title { first, before, .. } = segment.title;
    let walk = Walk::through_slowly(&bytes, first, before, false, background::rest);
    if let Some(fault) = walk.faults.first() {
        return Err(damaged(fault.clone()));
    }
    let title = Title { generation: segment::generation()?, ..segment.title };
    note_changing(log, title, &instead)?;
    let (revised, table) = frames(&bytes, &walk, title, &instead)?;
    exchange(log, segment, title, &revised, table, &walk)?;
    settle_changing(log)
}

/// True of an entry in one of these streams; what was lost holds nothing.
fn holds_one_of(tags: &[u64], row: &Row) -> bool {
    row.offset > 0 && row.tag != StreamId::all().tag() && tags.contains(&row.tag)
}

/// The frames of a file with other entries in the place of some.
fn frames(
    bytes: &[u8],
    walk: &Walk,
    title: Title,
    instead: &[(usize, Entry)],
) -> Result<(Vec<u8>, Table), JournalError> {
    let mut out = title.write();
    let mut table = Table::default();
    let mut instead = instead.iter().peekable();
    for (index, row) in walk.table.rows().enumerate() {
        background::rest();
        let here = bytes.get(row.offset as usize..).unwrap_or_default();
        let frame = frame::read(here).map_err(damaged)?;
        let offset = u32::try_from(out.len()).map_err(|_| damaged("a file grew too long"))?;
        let key = match instead.next_if(|(at, _)| *at == index) {
            Some((_, entry)) => {
                frame::write_changed(&mut out, frame.head, entry);
                entry.key.as_ref().map_or(0, key_of)
            }
            None => {
                out.extend(here.iter().take(frame.length));
                row.key
            }
        };
        table.push(Row { offset, key, ..row });
    }
    Ok((out, table))
}

/// Puts a file in the place of another.
fn exchange(
    log: &Log,
    segment: &Arc<Segment>,
    title: Title,
    revised: &[u8],
    table: Table,
    walk: &Walk,
) -> Result<(), JournalError> {
    let draft = segment.path.with_extension("draft");
    let of_file = |error: std::io::Error| JournalError::of_file(&draft, &error);
    let mut options = File::options();
    options.read(true).write(true).create(true).truncate(true);
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    let mut file = options.open(&draft).map_err(of_file)?;
    for step in revised.chunks(STEP) {
        file.write_all(step).and_then(|()| file.sync_data()).map_err(of_file)?;
        background::rest();
    }
    file.sync_all().map_err(of_file)?;
    let walk = Walk { table, end: revised.len() as u64, ..walk.clone() };
    let path = segment.path.clone();
    let with = Segment::walked(title, path, file, revised.len() as u64, walk);
    // A table that does not fit its file is made anew, so it may come first.
    folder::replace_file(&with.table_path(), &with.written_table())?;
    fs::rename(&draft, &with.path).map_err(of_file)?;
    folder::sync_folder(&log.folder)?;
    with.forget_rows();
    log.exchange(Arc::new(with));
    Ok(())
}

fn note_changing(log: &Log, title: Title, entries: &[(usize, Entry)]) -> Result<(), JournalError> {
    let places = entries.iter().map(|(at, _)| title.first + *at as u64);
    let numbers = [title.generation].into_iter().chain(places);
    let bytes: Vec<u8> = numbers.flat_map(u64::to_le_bytes).collect();
    folder::replace_file(&log.folder.join(CHANGING), &bytes)
}

/// Counts as changed what was being changed, if that came to its end.
fn settle_changing(log: &Log) -> Result<(), JournalError> {
    let (changing, changed) = (log.folder.join(CHANGING), log.folder.join(CHANGED));
    if !changing.exists() {
        return Ok(());
    }
    let of_file = |error: std::io::Error| JournalError::of_file(&changed, &error);
    let is_there = |generation| log.segments().iter().any(|one| one.title.generation == generation);
    let places = came_to_its_end(&log.folder, is_there);
    let bytes: Vec<u8> = places.into_iter().flat_map(u64::to_le_bytes).collect();
    let mut file = File::options().create(true).append(true).open(&changed).map_err(of_file)?;
    file.write_all(&bytes).and_then(|()| file.sync_all()).map_err(of_file)?;
    folder::sync_folder(&log.folder)?;
    fs::remove_file(&changing).map_err(of_file)?;
    folder::sync_folder(&log.folder)
}

/// The places of the entries of a log that were changed, given which generations of
/// files it has.
pub(super) fn changed_places(log: &Path, has: impl Fn(u64) -> bool) -> Vec<u64> {
    let mut places = numbers_in(&log.join(CHANGED));
    places.extend(came_to_its_end(log, has));
    places
}

fn came_to_its_end(log: &Path, has: impl Fn(u64) -> bool) -> Vec<u64> {
    match numbers_in(&log.join(CHANGING)).split_first() {
        Some((generation, places)) if has(*generation) => places.to_vec(),
        _ => Vec::new(),
    }
}

fn numbers_in(path: &Path) -> Vec<u64> {
    let bytes = fs::read(path).unwrap_or_default();
    bytes.as_chunks::<8>().0.iter().map(|bytes| u64::from_le_bytes(*bytes)).collect()
}

/// Writes down which entries were changed, for a log that is put together.
pub(super) fn write_changed(log: &Path, places: &HashSet<u64>) -> Result<(), JournalError> {
    let mut places: Vec<u64> = places.iter().copied().collect();
    places.sort_unstable();
    let bytes: Vec<u8> = places.into_iter().flat_map(u64::to_le_bytes).collect();
    folder::replace_file(&log.join(CHANGED), &bytes)
}

/// Writes the snapshots anew without those of these streams.
fn revise_snapshots(shared: &Shared, tags: &[u64]) -> Result<(), JournalError> {
    let folder = shared.folder();
    let folder = folder.as_ref().ok_or_else(|| shared.refusal())?;
    let draft = folder.new_draft()?;
    shared.reading(|store| store.copy_without(tags, &draft))?;
    let mut snapshots = shared.changing_snapshots();
    *snapshots = None;
    let opened = Store::let_go_of(&folder.store())
        .and_then(|()| folder.adopt_draft())
        .and_then(|()| Store::open(&folder.store()))?;
    *snapshots = Some(opened);
    Ok(())
}
