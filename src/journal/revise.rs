//! Writing entries anew, so that what is left out is in no file of the journal
//! any more, while others read and write.
//!
//! Only the files in which something changes are written anew, one after the
//! other, each beside the one that it then replaces by one rename. Places, marks
//! and numbers stay. Knows nothing of what is to go.

use std::fs::{self, File};
use std::io::Write;
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

/// How much is written before it is synced, in bytes: whoever writes entries
/// meanwhile shares the disk.
const STEP: usize = 512 * 1024;

/// What the file is called that keeps which entries were changed, for whoever
/// puts a log together from several copies. It holds places only.
pub(super) const CHANGED: &str = "changed";

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
    end_file(shared)?;
    let segments = log.segments();
    let ended = segments.split_last().map_or(&[][..], |(_, ended)| ended);
    for segment in ended {
        let concerned = tags.iter().any(|tag| segment.streams().contains_key(tag));
        if concerned {
            revise_file(&log, segment, &tags, change)?;
        }
    }
    revise_snapshots(shared, &tags)
}

/// Ends the file that is added to, so that all there is lies in files nobody
/// adds to.
fn end_file(shared: &Shared) -> Result<(), JournalError> {
    let mut writer = shared.writer();
    let opened = shared.opened();
    let (Some(writer), Some(opened)) = (writer.as_mut(), opened.as_ref()) else {
        return Err(shared.refusal());
    };
    writer.begin_next(&opened.aside)?;
    opened.aside.settle();
    Ok(())
}

fn revise_file(
    log: &Log,
    segment: &Arc<Segment>,
    tags: &[u64],
    change: &mut Change<'_>,
) -> Result<(), JournalError> {
    let bytes = segment.bytes()?;
    let walk = Walk::through(&bytes, segment.title.first, segment.title.before, false);
    if let Some(fault) = walk.faults.first() {
        return Err(damaged(fault.clone()));
    }
    let mut instead: Vec<(usize, Entry)> = Vec::new();
    for (index, row) in walk.table.rows().enumerate() {
        if !tags.contains(&row.tag) {
            continue;
        }
        let placed = frame::read(&bytes[row.offset as usize..]).and_then(|frame| frame.entry());
        let placed = placed.map_err(damaged)?;
        if let Some(entry) = change(&placed)? {
            frame::fits(&entry)?;
            if entry.stream != placed.entry.stream {
                return Err(damaged("an entry can't go to another stream"));
            }
            instead.push((index, entry));
        }
    }
    if instead.is_empty() {
        return Ok(());
    }
    note_changed(log, segment.title.first, &instead)?;
    let title = Title { generation: segment::generation()?, ..segment.title };
    let (revised, table) = frames(&bytes, &walk, title, &instead)?;
    exchange(log, segment, title, &revised, table, &walk)
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
        let frame = frame::read(&bytes[row.offset as usize..]).map_err(damaged)?;
        let offset = u32::try_from(out.len()).map_err(|_| damaged("a file grew too long"))?;
        let key = match instead.next_if(|(at, _)| *at == index) {
            Some((_, entry)) => {
                frame::write_changed(&mut out, frame.head, entry);
                entry.key.as_ref().map_or(0, key_of)
            }
            None => {
                let from = row.offset as usize;
                out.extend_from_slice(&bytes[from..from + frame.length]);
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

fn note_changed(log: &Log, first: u64, entries: &[(usize, Entry)]) -> Result<(), JournalError> {
    let path = log.folder.join(CHANGED);
    let of_file = |error: std::io::Error| JournalError::of_file(&path, &error);
    let places: Vec<u8> =
        entries.iter().flat_map(|(at, _)| (first + *at as u64).to_le_bytes()).collect();
    let mut file = File::options().create(true).append(true).open(&path).map_err(of_file)?;
    file.write_all(&places).and_then(|()| file.sync_all()).map_err(of_file)?;
    folder::sync_folder(&log.folder)
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
