//! Keys and their places on the disk, sorted, in a file without a name.
//!
//! In memory stay the first key of each page and its checksum, and a filter: to look for a
//! key that is there, or seems to be, reads one page.

use std::fs::{self, File};
use std::io::{self, BufWriter, ErrorKind, Write};
use std::os::unix::fs::{FileExt, OpenOptionsExt};
use std::path::Path;
use std::sync::Arc;

use super::filter::Filter;
use crate::background;

/// One key and its place, in bytes.
const ROW: usize = 16;
/// Rows of a page.
const PAGE: usize = 256;
/// So many bytes are written at once.
const STEP: usize = 256 * 1024;

/// A key and the place of its first entry.
pub(super) type Pair = (u64, u64);

/// Keys with their places.
#[derive(Debug)]
pub(super) struct Run {
    file: File,
    pages: Vec<Page>,
    /// How many keys.
    count: usize,
    /// The greatest place.
    latest: u64,
    filter: Option<Filter>,
}

/// A page of the file.
#[derive(Debug, Clone, Copy)]
struct Page {
    first: u64,
    check: u32,
}

impl Run {
    /// Writes pairs in the order of their keys, so many at most; of those with one key the
    /// first.
    ///
    /// # Errors
    /// What reading them failed with; they can't be written in that folder.
    pub(super) fn write(
        folder: &Path,
        at_most: usize,
        pairs: impl Iterator<Item = io::Result<Pair>>,
    ) -> io::Result<Run> {
        let mut out = BufWriter::with_capacity(STEP, nameless(folder)?);
        let mut filter = Filter::of(at_most);
        let (mut pages, mut count, mut latest) = (Vec::new(), 0, 0);
        let mut page = Vec::with_capacity(PAGE * ROW);
        let mut end_page = |page: &mut Vec<u8>| {
            let Some((first, _)) = rows(page).next() else { return Ok(()) };
            pages.push(Page { first, check: crc32fast::hash(page) });
            out.write_all(page)?;
            page.clear();
            background::rest();
            Ok::<_, io::Error>(())
        };
        let mut before = None;
        for pair in pairs {
            let (key, place) = pair?;
            if before.replace(key) == Some(key) {
                continue;
            }
            page.extend_from_slice(&key.to_le_bytes());
            page.extend_from_slice(&place.to_le_bytes());
            filter.iter_mut().for_each(|filter| filter.add(key));
            count += 1;
            latest = latest.max(place);
            if page.len() == PAGE * ROW {
                end_page(&mut page)?;
            }
        }
        end_page(&mut page)?;
        pages.shrink_to_fit();
        let file = out.into_inner().map_err(io::IntoInnerError::into_error)?;
        Ok(Run { file, pages, count, latest, filter })
    }

    /// Two runs as one, of which the first is the earlier: without what `keeps` says no to.
    ///
    /// # Errors
    /// One can't be read, or the other not be written.
    pub(super) fn joined(
        folder: &Path,
        one: &Arc<Run>,
        other: &Arc<Run>,
        keeps: impl Fn(u64) -> bool,
    ) -> io::Result<Run> {
        let (mut early, mut late) = (one.pairs().peekable(), other.pairs().peekable());
        let both = std::iter::from_fn(|| {
            let later = match (early.peek(), late.peek()) {
                (Some(Ok((one, _))), Some(Ok((other, _)))) => other < one,
                (None, _) => true,
                _ => false,
            };
            if later { late.next() } else { early.next() }
        });
        let kept = both.filter(|pair| pair.as_ref().map_or(true, |(_, place)| keeps(*place)));
        Run::write(folder, one.count + other.count, kept)
    }

    /// How many keys there are.
    pub(super) fn len(&self) -> usize {
        self.count
    }

    /// The greatest place.
    pub(super) fn latest(&self) -> u64 {
        self.latest
    }

    /// The place of a key, if it is here.
    ///
    /// # Errors
    /// The file can't be read, or isn't what was written.
    pub(super) fn place(&self, key: u64) -> io::Result<Option<u64>> {
        if self.filter.as_ref().is_some_and(|filter| !filter.may_hold(key)) {
            return Ok(None);
        }
        let at = self.pages.partition_point(|page| page.first <= key);
        let Some(at) = at.checked_sub(1) else { return Ok(None) };
        let page = self.page(at)?;
        Ok(rows(&page).find(|(one, _)| *one == key).map(|(_, place)| place))
    }

    /// Every pair in the order of the keys.
    fn pairs(&self) -> impl Iterator<Item = io::Result<Pair>> + '_ {
        (0..self.pages.len()).flat_map(|at| {
            let (page, error) = match self.page(at) {
                Ok(page) => (page, None),
                Err(error) => (Vec::new(), Some(Err(error))),
            };
            let pairs: Vec<Pair> = rows(&page).collect();
            error.into_iter().chain(pairs.into_iter().map(Ok))
        })
    }

    fn page(&self, at: usize) -> io::Result<Vec<u8>> {
        let length = PAGE.min(self.count - at * PAGE) * ROW;
        let mut bytes = vec![0; length];
        self.file.read_exact_at(&mut bytes, (at * PAGE * ROW) as u64)?;
        let check = crc32fast::hash(&bytes);
        match self.pages.get(at).is_some_and(|page| page.check == check) {
            true => Ok(bytes),
            false => Err(io::Error::new(ErrorKind::InvalidData, "ids on the disk have changed")),
        }
    }
}

fn rows(page: &[u8]) -> impl Iterator<Item = Pair> + '_ {
    page.as_chunks::<8>()
        .0
        .as_chunks::<2>()
        .0
        .iter()
        .map(|[key, place]| (u64::from_le_bytes(*key), u64::from_le_bytes(*place)))
}

/// A file that goes with its last handle.
fn nameless(folder: &Path) -> io::Result<File> {
    // What a cut leaves under this name is written over.
    let path = folder.join("ids.new");
    let mut options = File::options();
    options.read(true).write(true).create(true).truncate(true).mode(0o600);
    let file = options.open(&path)?;
    fs::remove_file(&path)?;
    Ok(file)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_page_that_has_changed_is_an_error_and_no_other_is() {
        let folder = tempfile::tempdir().unwrap();
        let pairs = (1..=1_000u64).map(|number| Ok((number << 40, number)));
        let run = Run::write(folder.path(), 1_000, pairs).unwrap();
        assert_eq!((run.len(), run.latest()), (1_000, 1_000));
        let place = |number: u64| run.place(number << 40);
        assert!((1..=1_000).all(|number| place(number).unwrap() == Some(number)));
        run.file.write_all_at(&[0xFF], (PAGE * ROW) as u64 + 1).unwrap();
        let of_page = 1 + PAGE as u64..=2 * PAGE as u64;
        for number in 1..=1_000 {
            assert_eq!(place(number).is_err(), of_page.contains(&number), "{number}");
        }
        let run = Arc::new(run);
        assert!(Run::joined(folder.path(), &run, &run, |_| true).is_err());
    }
}
