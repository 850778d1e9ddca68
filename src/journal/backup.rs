//! A copy of a journal in one file, and a journal from such a copy. Works with
//! any [`Journal`]; knows nothing of how one is stored.
//!
//! The file is a line that says what it is and then frames as in the store
//! itself, each with a checksum, each owned by its number in the file so that
//! none can be missing or out of order: one for the snapshot's reach, one a
//! part, one an entry, and a last one that says how many entries there were.

use std::collections::VecDeque;
use std::fs::{self, File};
use std::io::{self, BufReader, BufWriter, Read, Write};
use std::path::{Path, PathBuf};

use serde::{Deserialize, Serialize};

use super::record::{self, LONGEST_BODY, LONGEST_KEY};
use super::{Journal, JournalError, Part, Seq, Ticket, folder};

const TITLE: &[u8] = b"lapwing backup 1\n";

const THROUGH: u8 = b'm';
const PART: u8 = b'p';
const ENTRY: u8 = b'e';
const END: u8 = b'z';

/// How many entries of a restore may wait for the disk at once.
const IN_FLIGHT: usize = 1024;

/// How much was copied.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Copied {
    /// How many entries.
    pub entries: u64,
    /// How many parts of the snapshot.
    pub parts: u64,
}

/// Copies a journal, which may be in use, into the file `to`: all that was
/// durable when the copy reached its end, and the snapshot as it was at the
/// start. The file appears under its name only when it is whole and on the
/// disk, takes the place of one that was there, and is its owner's alone.
///
/// # Errors
/// The journal can't be read or the file can't be written.
pub fn backup(journal: &dyn Journal, to: &Path) -> Result<Copied, JournalError> {
    let of_file = |error: io::Error| JournalError::of_file(to, &error);
    let unfinished = unfinished_name(to);
    let mut writer =
        Writer { out: BufWriter::new(private_file(&unfinished).map_err(of_file)?), frames: 0 };
    let written = copy_out(journal, &mut writer, &of_file);
    let copied = written.and_then(|copied| {
        writer.out.flush().map_err(of_file)?;
        writer.out.get_ref().sync_all().map_err(of_file)?;
        fs::rename(&unfinished, to).map_err(of_file)?;
        to.parent().map_or(Ok(()), folder::sync_folder)?;
        Ok(copied)
    });
    if copied.is_err() {
        // The failure to tell is the first one.
        let _ = fs::remove_file(&unfinished);
    }
    copied
}

/// Puts the entries and the snapshot of a backup into an empty journal; the
/// entries get the places they had. The file is read through once before
/// anything is written. Blocks: not for use inside an async runtime.
///
/// # Errors
/// The journal is not empty or can't be written, or the backup is not whole.
pub fn restore(from: &Path, journal: &dyn Journal) -> Result<Copied, JournalError> {
    if let Some(last) = journal.last() {
        return Err(JournalError::NotEmpty(last.number()));
    }
    let copied = copy_in(from, |_| Ok(()))?;
    let mut through = None;
    let mut parts = Vec::new();
    let mut waiting: VecDeque<(u64, Ticket)> = VecDeque::new();
    let mut settle = |(place, ticket): (u64, Ticket)| match ticket.wait()?.number() {
        same if same == place => Ok(()),
        other => Err(JournalError::NotEmpty(other.saturating_sub(place))),
    };
    let mut next = 1;
    copy_in(from, |item| {
        match item {
            Item::Through(seq) => through = Some(seq),
            Item::Part(part) => parts.push(part),
            Item::Entry(entry) => {
                waiting.push_back((next, journal.append(entry)));
                next += 1;
                if waiting.len() > IN_FLIGHT {
                    waiting.pop_front().map_or(Ok(()), &mut settle)?;
                }
            }
        }
        Ok(())
    })?;
    waiting.into_iter().try_for_each(settle)?;
    if let Some(through) = through {
        journal.checkpoint(through, parts).wait()?;
    }
    Ok(copied)
}

struct Writer {
    out: BufWriter<File>,
    frames: u64,
}

impl Writer {
    fn frame(&mut self, kind: u8, content: &[u8]) -> io::Result<()> {
        let content = [&[kind], content].concat();
        self.out.write_all(&record::frame(&self.frames.to_be_bytes(), &content))?;
        self.frames += 1;
        Ok(())
    }
}

fn copy_out(
    journal: &dyn Journal,
    writer: &mut Writer,
    of_file: &impl Fn(io::Error) -> JournalError,
) -> Result<Copied, JournalError> {
    writer.out.write_all(TITLE).map_err(of_file)?;
    // The snapshot first: every entry it speaks of is then durable, and copied.
    let snapshot = journal.snapshot()?;
    if let Some(through) = snapshot.through {
        writer.frame(THROUGH, &through.number().to_be_bytes()).map_err(of_file)?;
    }
    for part in &snapshot.parts {
        let length = u8::try_from(part.name.len()).unwrap_or(u8::MAX);
        writer
            .frame(PART, &[&[length], part.name.as_bytes(), &part.bytes].concat())
            .map_err(of_file)?;
    }
    let mut entries: u64 = 0;
    for entry in journal.entries_after(None) {
        writer.frame(ENTRY, &record::entry_content(&entry?.1)).map_err(of_file)?;
        entries += 1;
    }
    writer.frame(END, &entries.to_be_bytes()).map_err(of_file)?;
    Ok(Copied { entries, parts: snapshot.parts.len() as u64 })
}

enum Item {
    Through(Seq),
    Part(Part),
    Entry(super::Entry),
}

fn copy_in(
    from: &Path,
    mut take: impl FnMut(Item) -> Result<(), JournalError>,
) -> Result<Copied, JournalError> {
    let of_file = |error: io::Error| JournalError::of_file(from, &error);
    let bad = |why: &str| JournalError::BadBackup { path: from.to_owned(), why: why.to_owned() };
    let mut file = BufReader::new(File::open(from).map_err(of_file)?);
    let mut title = Vec::new();
    (&mut file).take(TITLE.len() as u64).read_to_end(&mut title).map_err(of_file)?;
    if title != TITLE {
        return Err(bad("it does not begin as a backup of this format does"));
    }
    let mut copied = Copied { entries: 0, parts: 0 };
    for number in 0_u64.. {
        let frame =
            read_frame(&mut file).map_err(of_file)?.ok_or_else(|| bad("it is cut short"))?;
        let (content, _) = record::unframe(&number.to_be_bytes(), &frame)
            .map_err(|why| bad(&format!("frame {number}: {why}")))?;
        let (&kind, content) = content.split_first().ok_or_else(|| bad("a frame is empty"))?;
        match kind {
            THROUGH => take(Item::Through(Seq::new(
                number_in(content).ok_or_else(|| bad("a place is no number"))?,
            )))?,
            PART => {
                take(Item::Part(
                    part_in(content).ok_or_else(|| bad("a part of the snapshot has no name"))?,
                ))?;
                copied.parts += 1;
            }
            ENTRY => {
                take(Item::Entry(
                    record::entry_from(content)
                        .map_err(|why| bad(&format!("frame {number}: {why}")))?,
                ))?;
                copied.entries += 1;
            }
            END if number_in(content) == Some(copied.entries) => return Ok(copied),
            END => return Err(bad("it has not as many entries as it says")),
            _ => return Err(bad("it holds something unknown")),
        }
    }
    Err(bad("it has no end"))
}

/// The bytes of the next frame; `None` if the file ends before the frame does.
fn read_frame(file: &mut impl Read) -> io::Result<Option<Vec<u8>>> {
    let mut frame = Vec::new();
    file.take(8).read_to_end(&mut frame)?;
    let Some(length) = frame.first_chunk::<4>() else { return Ok(None) };
    let length = u64::from(u32::from_le_bytes(*length));
    // A damaged length must not make us read for ever.
    if length > (LONGEST_BODY + 3 * LONGEST_KEY) as u64 {
        return Ok(None);
    }
    let read = file.take(length).read_to_end(&mut frame)? as u64;
    Ok((read == length).then_some(frame))
}

fn number_in(content: &[u8]) -> Option<u64> {
    content.try_into().ok().map(u64::from_be_bytes)
}

fn part_in(content: &[u8]) -> Option<Part> {
    let (&length, rest) = content.split_first()?;
    let (name, bytes) = rest.split_at_checked(usize::from(length))?;
    Some(Part { name: String::from_utf8(name.to_vec()).ok()?, bytes: bytes.to_vec() })
}

fn unfinished_name(to: &Path) -> PathBuf {
    let mut name = to.as_os_str().to_owned();
    name.push(".unfinished");
    name.into()
}

fn private_file(path: &Path) -> io::Result<File> {
    let mut options = File::options();
    options.write(true).create(true).truncate(true);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    options.open(path)
}
