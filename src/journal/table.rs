//! What lies where in one file of the log: a row an entry, kept beside the file
//! so that neither a start nor a look-up reads it whole. Can be made again from
//! the file at any time. Pure bytes in, bytes out.

use super::Mark;
use std::collections::HashMap;

const TITLE: &[u8; 8] = b"lwtable2";
const HEAD: usize = 72;
const ROW: usize = 32;

/// One entry of a file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Row {
    /// Where its frame begins.
    pub offset: u32,
    /// Its stream's tag.
    pub tag: u64,
    /// Its number in the stream.
    pub number: u64,
    /// The beginning of its key's digest; 0 without a key.
    pub key: u64,
}

impl Row {
    /// Widens what a stream's entries span, from the first number to the last; nothing of a
    /// place without a frame.
    pub(super) fn note_in(&self, streams: &mut HashMap<u64, (u64, u64)>) {
        if self.offset == 0 {
            return;
        }
        let span = streams.entry(self.tag).or_insert((self.number, self.number));
        *span = (span.0.min(self.number), span.1.max(self.number));
    }
}

/// What a table says of its whole file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Summary {
    /// Which writing of the file it belongs to.
    pub generation: u64,
    /// The place of the first entry.
    pub first: u64,
    /// How many entries there are.
    pub count: u64,
    /// Where the last frame ends.
    pub end: u64,
    /// When the newest of them came, in seconds since 1970.
    pub newest: i64,
    /// The mark of the last.
    pub mark: Mark,
}

/// The rows of a file, as they lie on the disk.
#[derive(Debug, Clone, Default)]
pub(super) struct Table {
    rows: Vec<u8>,
}

impl Table {
    /// Puts a row at the end.
    pub(super) fn push(&mut self, row: Row) {
        self.rows.extend_from_slice(&row.offset.to_le_bytes());
        self.rows.extend_from_slice(&[0; 4]);
        self.rows.extend_from_slice(&row.tag.to_le_bytes());
        self.rows.extend_from_slice(&row.number.to_le_bytes());
        self.rows.extend_from_slice(&row.key.to_le_bytes());
    }

    /// How many rows there are.
    pub(super) fn len(&self) -> usize {
        self.rows.len() / ROW
    }

    /// The row at an index.
    pub(super) fn row(&self, index: usize) -> Option<Row> {
        self.rows.get(index * ROW..)?.first_chunk::<ROW>().map(row)
    }

    /// Where the frame of the row at an index ends, where another follows.
    pub(super) fn end_of(&self, index: usize) -> Option<u64> {
        let mut later = (index + 1..self.len()).filter_map(|at| self.row(at));
        later.find(|row| row.offset > 0).map(|row| u64::from(row.offset))
    }

    /// Every row in order.
    pub(super) fn rows(&self) -> impl Iterator<Item = Row> + '_ {
        self.rows.as_chunks::<ROW>().0.iter().map(row)
    }

    /// The indexes of a stream's rows after a number, in order.
    pub(super) fn of_stream(&self, tag: u64, after: u64) -> Vec<usize> {
        let rows = self.rows().enumerate();
        rows.filter(|(_, row)| row.tag == tag && row.number > after).map(|(at, _)| at).collect()
    }

    /// The table as a file.
    pub(super) fn write(&self, of: &Summary) -> Vec<u8> {
        let mut out = Vec::with_capacity(HEAD + self.rows.len() + 4);
        out.extend_from_slice(TITLE);
        for number in [of.generation, of.first, of.count, of.end, of.newest.cast_unsigned()] {
            out.extend_from_slice(&number.to_le_bytes());
        }
        out.extend_from_slice(&of.mark.0);
        out.resize(HEAD, 0);
        out.extend_from_slice(&self.rows);
        let check = crc32fast::hash(&out);
        out.extend_from_slice(&check.to_le_bytes());
        out
    }

    /// The table in such a file; `None` if it isn't whole.
    pub(super) fn read(bytes: &[u8]) -> Option<(Summary, Table)> {
        let (rest, check) = bytes.split_last_chunk::<4>()?;
        if crc32fast::hash(rest) != u32::from_le_bytes(*check) || !rest.starts_with(TITLE) {
            return None;
        }
        let rows = rest.get(HEAD..)?;
        let number = |at: usize| Some(u64::from_le_bytes(*rest.get(8 + 8 * at..)?.first_chunk()?));
        let summary = Summary {
            generation: number(0)?,
            first: number(1)?,
            count: number(2)?,
            end: number(3)?,
            newest: number(4)?.cast_signed(),
            mark: Mark(*rest.get(48..)?.first_chunk()?),
        };
        let whole = rows.len() as u64 == summary.count.checked_mul(ROW as u64)?;
        whole.then(|| (summary, Table { rows: rows.to_vec() }))
    }
}

fn row(bytes: &[u8; ROW]) -> Row {
    let number = |at: usize| {
        let eight = bytes.as_chunks().0.get(at).copied();
        u64::from_le_bytes(eight.unwrap_or_default())
    };
    let mut offset = [0; 4];
    offset.copy_from_slice(&bytes[..4]);
    Row { offset: u32::from_le_bytes(offset), tag: number(1), number: number(2), key: number(3) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_table_survives_its_file_and_no_changed_bit_does() {
        let mut table = Table::default();
        let rows: Vec<Row> = (1..40)
            .map(|n| Row { offset: n * 100, tag: u64::from(n % 3), number: n.into(), key: 7 })
            .collect();
        rows.iter().for_each(|row| table.push(*row));
        let summary = Summary {
            generation: 5,
            first: 12,
            count: 39,
            end: 4_000,
            newest: -3,
            mark: Mark([9; 16]),
        };
        let bytes = table.write(&summary);
        let (of, read) = Table::read(&bytes).unwrap();
        assert_eq!((of, read.rows().collect::<Vec<_>>()), (summary, rows));
        assert_eq!(read.of_stream(1, 30), [30, 33, 36]);
        for at in (0..bytes.len()).step_by(7) {
            let mut flipped = bytes.clone();
            flipped[at] ^= 0x10;
            assert!(Table::read(&flipped).is_none(), "byte {at}");
            assert!(Table::read(&bytes[..at]).is_none());
        }
    }
}
