//! A journal from a copy in one file. Works with any [`Journal`].

use std::collections::BTreeMap;
use std::fs::File;
use std::io::{self, BufReader, Read};
use std::path::Path;

use super::backup::{self, Copied, PartOf, Totals};
use super::frame::{self, LONGEST_BODY};
use super::{Journal, JournalError, Mark, Part, Placed, StreamId};

/// How many bytes of entries are written in one step.
const STEP: usize = 1024 * 1024;

/// Puts the entries and the snapshots of a backup into an empty journal; the
/// entries get the places and marks they had. The file is read through once
/// before anything is written, and `look` is shown every entry and part then.
/// Blocks: not for use inside an async runtime.
///
/// # Errors
/// The journal is not empty or can't be written, the backup is not whole, or
/// `look` refused something in words.
pub fn restore(
    from: &Path,
    journal: &dyn Journal,
    look: &mut dyn FnMut(Restored<'_>) -> Result<(), String>,
) -> Result<Copied, JournalError> {
    if let Some(last) = journal.last() {
        return Err(JournalError::NotEmpty(last.number()));
    }
    let bad = |why: String| JournalError::BadBackup { path: from.to_owned(), why };
    let copied = read_through(from, &mut |item| match item {
        Item::Part(part) => look(Restored::Part(&part.stream, &part.part)).map_err(bad),
        Item::Entry(placed) => look(Restored::Entry(&placed)).map_err(bad),
    })?;
    let mut snapshots: BTreeMap<(StreamId, u64), Vec<Part>> = BTreeMap::new();
    let mut waiting: Vec<Placed> = Vec::new();
    let mut bytes = 0;
    read_through(from, &mut |item| {
        match item {
            Item::Part(part) => {
                snapshots.entry((part.stream, part.through)).or_default().push(part.part);
            }
            Item::Entry(placed) => {
                bytes += placed.entry.body.len();
                waiting.push(placed);
                if bytes > STEP {
                    journal.take_over(&std::mem::take(&mut waiting))?;
                    bytes = 0;
                }
            }
        }
        Ok(())
    })?;
    journal.take_over(&waiting)?;
    for ((stream, through), parts) in snapshots {
        journal.checkpoint(&stream, None, through, parts)?;
    }
    Ok(copied)
}

/// What is restored.
pub enum Restored<'a> {
    /// A part of a stream's snapshot.
    Part(&'a StreamId, &'a Part),
    /// An entry.
    Entry(&'a Placed),
}

enum Item {
    Part(PartOf),
    Entry(Placed),
}

/// Reads a backup to its end, item by item.
fn read_through(
    from: &Path,
    take: &mut dyn FnMut(Item) -> Result<(), JournalError>,
) -> Result<Copied, JournalError> {
    let of_file = |error: io::Error| JournalError::of_file(from, &error);
    let bad = |why: &str| JournalError::BadBackup { path: from.to_owned(), why: why.to_owned() };
    let mut file = BufReader::new(File::open(from).map_err(of_file)?);
    let mut title = Vec::new();
    (&mut file).take(backup::TITLE.len() as u64).read_to_end(&mut title).map_err(of_file)?;
    if title != backup::TITLE {
        return Err(bad("it does not begin as a backup of this format does"));
    }
    let mut copied = Copied { entries: 0, parts: 0 };
    let mut last = (0, Mark::default());
    loop {
        let bytes =
            read_frame(&mut file).map_err(of_file)?.ok_or_else(|| bad("it is cut short"))?;
        if let Some((content, _)) = backup::read_small(backup::PART, &bytes) {
            copied.parts += 1;
            let part = PartOf::read(content).ok_or_else(|| bad("a part has no name"))?;
            take(Item::Part(part))?;
        } else if let Some((content, _)) = backup::read_small(backup::END, &bytes) {
            let totals = Totals { copied, mark: last.1 };
            return match Totals::read(content) {
                Some(said) if said == totals => Ok(copied),
                _ => Err(bad("it has not as many entries as it says")),
            };
        } else {
            let after = last.0;
            let wrong = |why: String| bad(&format!("what follows entry {after}: {why}"));
            let read = frame::read(&bytes).map_err(wrong)?;
            if !read.bears_its_mark() {
                return Err(wrong("it is not what its mark was made from".into()));
            }
            let placed = read.entry().map_err(wrong)?;
            let place = placed.place.number();
            if place <= after || (place == after + 1 && placed.before != last.1) {
                return Err(wrong(format!("entry {place} does not follow it")));
            }
            last = (place, placed.tip.mark);
            copied.entries += 1;
            take(Item::Entry(placed))?;
        }
    }
}

/// The bytes of the next frame of whatever kind; `None` if the file ends before
/// the frame does.
fn read_frame(file: &mut impl Read) -> io::Result<Option<Vec<u8>>> {
    let mut frame = Vec::new();
    file.take(8).read_to_end(&mut frame)?;
    let Some((kind, length)) = frame.split_first_chunk::<4>() else { return Ok(None) };
    let Some(length) = length.first_chunk::<4>() else { return Ok(None) };
    let length = u64::from(u32::from_le_bytes(*length));
    // A damaged length must not make us read for ever.
    if length > (LONGEST_BODY + 1024 * 1024) as u64 {
        return Ok(None);
    }
    let head = if *kind == frame::MAGIC { frame::HEAD as u64 } else { 12 };
    let rest = head - 8 + length;
    let read = file.take(rest).read_to_end(&mut frame)? as u64;
    Ok((read == rest).then_some(frame))
}
