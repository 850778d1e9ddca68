//! A copy of a journal in one file. Works with any [`Journal`]; knows nothing of
//! how one is stored.
//!
//! The file is a line that says what it is and then frames: the snapshots' parts,
//! the entries as in the log itself, and a last one that says how much there
//! was. A part's frame and the last one are built as an entry's is: four bytes
//! that tell what it is, its length, its checksum (CRC-32), its content.

use std::fs::{self, File};
use std::io::{self, BufWriter, Write};
use std::path::{Path, PathBuf};

use serde::{Deserialize, Serialize};

use super::{Journal, JournalError, Mark, Part, StreamId, folder, frame};
use crate::background;

/// How the file begins.
pub(super) const TITLE: &[u8] = b"lapwing backup 2\n";

/// What a frame of a part begins with.
pub(super) const PART: [u8; 4] = *b"lwp2";
/// What the last frame begins with.
pub(super) const END: [u8; 4] = *b"lwz2";

/// So many bytes are written before they are synced: all at the end, and whoever waits
/// for the log's next step would wait for the whole copy to reach the disk (ours).
const STEP: usize = 256 * 1024;

/// How much was copied.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Copied {
    /// How many entries.
    pub entries: u64,
    /// How many parts of snapshots.
    pub parts: u64,
}

/// A part of a snapshot in a backup.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct PartOf {
    pub stream: StreamId,
    /// How far the snapshot goes that it is of.
    pub through: u64,
    pub part: Part,
}

/// How much a backup holds, as its last frame says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Totals {
    pub copied: Copied,
    pub mark: Mark,
}

/// Copies a journal, which may be in use, into the file `to`: all that was
/// durable when the copy reached its end, and each snapshot as it was when the
/// copy came by. The file appears under its name only when it is whole and on
/// the disk, takes the place of one that was there, and is its owner's alone.
///
/// # Errors
/// The journal can't be read or the file can't be written.
pub fn backup(journal: &dyn Journal, to: &Path) -> Result<Copied, JournalError> {
    let of_file = |error: io::Error| JournalError::of_file(to, &error);
    let unfinished = unfinished_name(to);
    let file = InSteps { file: private_file(&unfinished).map_err(of_file)?, unsynced: 0 };
    let mut out = BufWriter::new(file);
    let written = copy_out(journal, &mut out, &of_file);
    let copied = written.and_then(|copied| {
        out.flush().map_err(of_file)?;
        out.get_ref().file.sync_all().map_err(of_file)?;
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

fn copy_out(
    journal: &dyn Journal,
    out: &mut impl Write,
    of_file: &impl Fn(io::Error) -> JournalError,
) -> Result<Copied, JournalError> {
    out.write_all(TITLE).map_err(of_file)?;
    let mut copied = Copied { entries: 0, parts: 0 };
    // The snapshots first: every entry they speak of is then durable, and copied.
    for stream in journal.streams()?.into_iter().chain([StreamId::all()]) {
        let snapshot = journal.snapshot(&stream)?;
        for part in snapshot.parts {
            let part = PartOf { stream: stream.clone(), through: snapshot.through, part };
            out.write_all(&small(PART, &part.write())).map_err(of_file)?;
            copied.parts += 1;
            background::rest();
        }
    }
    let mut mark = Mark::default();
    let mut bytes = Vec::new();
    for entry in journal.entries_of(&StreamId::all(), 0) {
        let entry = entry?;
        bytes.clear();
        frame::write_again(&mut bytes, &entry, entry.place.number());
        out.write_all(&bytes).map_err(of_file)?;
        mark = entry.tip.mark;
        copied.entries += 1;
        background::rest();
    }
    out.write_all(&small(END, &Totals { copied, mark }.write())).map_err(of_file)?;
    Ok(copied)
}

/// A frame that holds no entry.
fn small(kind: [u8; 4], content: &[u8]) -> Vec<u8> {
    let length = u32::try_from(content.len()).unwrap_or(u32::MAX).to_le_bytes();
    let check = crc32fast::hash(content).to_le_bytes();
    [&kind[..], &length, &check, content].concat()
}

/// The content of such a frame at the start of `bytes`, and its length.
pub(super) fn read_small(kind: [u8; 4], bytes: &[u8]) -> Option<(&[u8], usize)> {
    let (length, rest) = bytes.strip_prefix(&kind)?.split_first_chunk::<4>()?;
    let (check, rest) = rest.split_first_chunk::<4>()?;
    let content = rest.get(..u32::from_le_bytes(*length) as usize)?;
    let whole = crc32fast::hash(content) == u32::from_le_bytes(*check);
    whole.then_some((content, 12 + content.len()))
}

impl PartOf {
    fn write(&self) -> Vec<u8> {
        let length = |text: &str| [u8::try_from(text.len()).unwrap_or(u8::MAX)];
        let (stream, name) = (&self.stream.0, &self.part.name);
        let through = self.through.to_le_bytes();
        let head = [&length(stream), stream.as_bytes(), &through[..], &length(name)].concat();
        [&head, name.as_bytes(), &self.part.bytes].concat()
    }

    pub(super) fn read(content: &[u8]) -> Option<PartOf> {
        let text = |bytes: &[u8]| String::from_utf8(bytes.to_vec()).ok();
        let (&length, rest) = content.split_first()?;
        let (stream, rest) = rest.split_at_checked(usize::from(length))?;
        let (through, rest) = rest.split_first_chunk::<8>()?;
        let (&length, rest) = rest.split_first()?;
        let (name, bytes) = rest.split_at_checked(usize::from(length))?;
        Some(PartOf {
            stream: StreamId(text(stream)?),
            through: u64::from_le_bytes(*through),
            part: Part { name: text(name)?, bytes: bytes.to_vec() },
        })
    }
}

impl Totals {
    fn write(&self) -> Vec<u8> {
        let (entries, parts) = (self.copied.entries.to_le_bytes(), self.copied.parts.to_le_bytes());
        [&entries[..], &parts, &self.mark.0].concat()
    }

    pub(super) fn read(content: &[u8]) -> Option<Totals> {
        let (entries, rest) = content.split_first_chunk::<8>()?;
        let (parts, mark) = rest.split_first_chunk::<8>()?;
        let (entries, parts) = (u64::from_le_bytes(*entries), u64::from_le_bytes(*parts));
        Some(Totals { copied: Copied { entries, parts }, mark: Mark(mark.try_into().ok()?) })
    }
}

fn unfinished_name(to: &Path) -> PathBuf {
    let mut name = to.as_os_str().to_owned();
    name.push(".unfinished");
    name.into()
}

/// A file that is synced as it grows.
struct InSteps {
    file: File,
    unsynced: usize,
}

impl Write for InSteps {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        let written = self.file.write(bytes)?;
        self.unsynced += written;
        if self.unsynced >= STEP {
            self.file.sync_data()?;
            self.unsynced = 0;
        }
        Ok(written)
    }

    fn flush(&mut self) -> io::Result<()> {
        self.file.flush()
    }
}

fn private_file(path: &Path) -> io::Result<File> {
    let mut options = File::options();
    options.write(true).create(true).truncate(true);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    options.open(path)
}
