//! Finding entries in a file of which nothing else can be relied on: a file of a
//! log, or a backup, damaged or not. Holds no more of it in memory than one entry
//! takes.

use std::fs::File;
use std::io::{self, Read};
use std::os::unix::fs::FileExt;
use std::path::{Path, PathBuf};

use super::frame::{self, HEAD, Head};
use super::segment::Title;
use super::{JournalError, Placed};

/// How much is read at once, in bytes.
const READ: usize = 4 * 1024 * 1024;

/// A whole entry in a file.
#[derive(Debug, Clone, Copy)]
pub(super) struct Sighting {
    pub head: Head,
    pub offset: u64,
    pub length: usize,
}

/// A file that is looked through.
#[derive(Debug)]
pub(super) struct Source {
    pub path: PathBuf,
    file: File,
}

impl Source {
    /// Opens a file.
    ///
    /// # Errors
    /// It can't be opened.
    pub(super) fn open(path: &Path) -> Result<Source, JournalError> {
        let file = File::open(path).map_err(|error| JournalError::of_file(path, &error))?;
        Ok(Source { path: path.to_owned(), file })
    }

    /// What its title says, if it begins with that of a file of a log.
    pub(super) fn title(&self) -> Option<Title> {
        let mut bytes = [0; 64];
        self.file.read_exact_at(&mut bytes, 0).ok()?;
        Title::read(&bytes)
    }

    /// Every whole entry in it, in the order of the file.
    ///
    /// # Errors
    /// It can't be read.
    pub(super) fn sightings(&self) -> Result<Vec<Sighting>, JournalError> {
        let mut found = Vec::new();
        self.look(&mut found).map_err(|error| JournalError::of_file(&self.path, &error))?;
        Ok(found)
    }

    fn look(&self, found: &mut Vec<Sighting>) -> io::Result<()> {
        let mut window = Window { file: &self.file, bytes: Vec::new(), offset: 0, ended: false };
        let mut at = 0;
        loop {
            window.hold(at, HEAD)?;
            let Some(next) = frame::find_magic(&window.bytes, at - window.base()) else {
                if window.ended {
                    return Ok(());
                }
                // A beginning may lie across the end of what was read.
                at = (window.offset - 3).max(at);
                window.read()?;
                continue;
            };
            at = window.base() + next;
            window.hold(at, HEAD)?;
            if let Some(length) = frame::claimed_length(window.from(at)) {
                window.hold(at, length)?;
            }
            match frame::read(window.from(at)) {
                Ok(frame) if frame.bears_its_mark() => {
                    let (head, length) = (frame.head, frame.length);
                    found.push(Sighting { head, offset: at as u64, length });
                    at += length;
                }
                _ => at += 1,
            }
        }
    }

    /// The entry that was seen there.
    ///
    /// # Errors
    /// It can't be read any more.
    pub(super) fn entry(&self, seen: &Sighting) -> Result<Placed, JournalError> {
        let mut bytes = vec![0; seen.length];
        self.file
            .read_exact_at(&mut bytes, seen.offset)
            .map_err(|error| JournalError::of_file(&self.path, &error))?;
        frame::read(&bytes)
            .and_then(|frame| frame.entry())
            .map_err(|why| JournalError::Damaged(format!("{}: {why}", self.path.display())))
    }
}

/// A stretch of a file.
struct Window<'a> {
    file: &'a File,
    bytes: Vec<u8>,
    /// Where what was read ends.
    offset: usize,
    ended: bool,
}

impl Window<'_> {
    fn base(&self) -> usize {
        self.offset - self.bytes.len()
    }

    /// What is held from a place in the file on.
    fn from(&self, at: usize) -> &[u8] {
        self.bytes.get(at - self.base()..).unwrap_or_default()
    }

    /// Reads on until so many bytes from `at` on are held, or the file ends; drops
    /// what lies before.
    fn hold(&mut self, at: usize, length: usize) -> io::Result<()> {
        while !self.ended && self.offset < at + length {
            self.read()?;
        }
        let over = at.saturating_sub(self.base());
        if over > READ {
            self.bytes.drain(..over);
        }
        Ok(())
    }

    fn read(&mut self) -> io::Result<()> {
        let mut file = self.file;
        let read = file.by_ref().take(READ as u64).read_to_end(&mut self.bytes)?;
        self.offset += read;
        self.ended = read == 0;
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use jiff::Timestamp;

    use super::*;
    use crate::journal::{Entry, Mark, StreamId};

    /// Entries of every length around what is read at once, among rubbish.
    #[test]
    fn whole_entries_are_found_wherever_they_lie() {
        let mut bytes = b"lwelwe2lwe2".to_vec();
        let mut at = Vec::new();
        for (place, length) in (1..).zip([10, READ - 500, 3, 2 * READ, 40, READ, 7, 9]) {
            at.push(bytes.len() as u64);
            let entry = Entry {
                stream: StreamId("s/1".into()),
                key: None,
                at: Timestamp::UNIX_EPOCH,
                body: vec![0x6C; length],
            };
            let head = frame::Head::new(Mark::default(), place, place, 1, entry.at);
            frame::write(&mut bytes, head, &entry);
            bytes.extend_from_slice(b"lwe2rubbish");
        }
        let path = tempfile::NamedTempFile::new().unwrap();
        std::fs::write(path.path(), &bytes).unwrap();
        let source = Source::open(path.path()).unwrap();
        let found = source.sightings().unwrap();
        assert_eq!(found.iter().map(|one| one.offset).collect::<Vec<_>>(), at);
        assert_eq!(source.entry(&found[3]).unwrap().entry.body.len(), 2 * READ);
    }
}
