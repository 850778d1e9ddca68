//! Reading the store: entries by place, the index, the snapshot's parts.
//! Knows nothing of who may see what; the journal keeps back what is not yet
//! durable.

use super::record::{self, Record};
use super::store::{Store, guarded};
use super::{Entry, JournalError, MessageKey, Part, Seq, Snapshot, layout};

impl Store {
    /// The place of the last entry in the store, 0 if there is none.
    pub(super) fn last(&self) -> Result<u64, JournalError> {
        guarded(|| {
            let Some(found) = self.tree.scan_prefix(layout::ENTRIES).next_back() else {
                return Ok(0);
            };
            let (key, value) = found?;
            let (seq, _) = layout::entry_place(&key)
                .ok_or_else(|| JournalError::Damaged("an entry has a bad key".into()))?;
            match record::read_record(&value).map_err(|why| damaged(seq, &why))? {
                Record::Pack(pack) => {
                    let count = record::count_frames(pack).map_err(|why| damaged(seq, &why))?;
                    Ok(seq + count.saturating_sub(1))
                }
                Record::FirstPiece(..) | Record::LaterPiece(_) => Ok(seq),
            }
        })
    }

    /// The entry at `seq` and those that lie in the same record after it:
    /// at least one.
    ///
    /// # Errors
    /// There is no such entry, or it or one after it is damaged.
    pub(super) fn entries_from(&self, seq: u64) -> Result<Vec<(Seq, Entry)>, JournalError> {
        guarded(|| {
            let up_to = layout::entry_key(seq, 0);
            let missing = || damaged(seq, "it is missing");
            let (key, value) =
                self.tree.range(layout::ENTRIES..=&up_to[..]).next_back().ok_or_else(missing)??;
            let (first, _) = layout::entry_place(&key).ok_or_else(missing)?;
            match record::read_record(&value).map_err(|why| damaged(first, &why))? {
                Record::Pack(pack) => entries_in(pack, first, seq),
                Record::FirstPiece(piece, pieces) if first == seq => {
                    let frame =
                        self.whole(piece, pieces, |piece| layout::entry_key(seq, piece).to_vec());
                    Ok(vec![entry(seq, &frame.map_err(|why| why.of_entry(seq))?)?.0])
                }
                Record::FirstPiece(..) | Record::LaterPiece(_) => Err(missing()),
            }
        })
    }

    /// The place of the first entry with this key.
    pub(super) fn place_of(&self, key: &MessageKey) -> Result<Option<u64>, JournalError> {
        let found = guarded(|| Ok(self.tree.get(layout::index_key(key))?))?;
        found.map(|place| place_in(&place)).transpose()
    }

    /// The whole snapshot, its parts ordered by name.
    pub(super) fn snapshot(&self) -> Result<Snapshot, JournalError> {
        guarded(|| {
            let through = self
                .tree
                .get(layout::THROUGH)?
                .map(|place| place_in(&place))
                .transpose()?
                .map(Seq::new);
            let mut parts = Vec::new();
            for found in self.tree.scan_prefix(layout::PARTS) {
                let (key, value) = found?;
                let (name, piece) = layout::part_place(&key).ok_or_else(|| {
                    JournalError::Damaged("a snapshot's part has a bad key".into())
                })?;
                if piece == 0 {
                    parts.push(self.part(name, &value)?);
                }
            }
            parts.sort_by(|one: &Part, other| one.name.cmp(&other.name));
            Ok(Snapshot { through, parts })
        })
    }

    fn part(&self, name: &str, first: &[u8]) -> Result<Part, JournalError> {
        let damaged =
            |why: String| JournalError::Damaged(format!("part `{name}` of the snapshot: {why}"));
        let Record::FirstPiece(piece, pieces) = record::read_record(first).map_err(damaged)? else {
            return Err(damaged("its first piece is missing".into()));
        };
        let frame = self.whole(piece, pieces, |piece| layout::part_key(name, piece));
        let frame = frame.map_err(|why| why.of_part(name))?;
        let (bytes, _) = record::unframe(name.as_bytes(), &frame).map_err(damaged)?;
        Ok(Part { name: name.to_owned(), bytes: bytes.to_vec() })
    }

    /// Puts a frame together from its pieces.
    fn whole(
        &self,
        first: &[u8],
        pieces: u32,
        key: impl Fn(u32) -> Vec<u8>,
    ) -> Result<Vec<u8>, Broken> {
        let mut frame = first.to_vec();
        for piece in 1..pieces {
            let value = self.tree.get(key(piece)).map_err(|error| Broken::Store(error.into()))?;
            let value = value.ok_or_else(|| {
                Broken::Piece(format!("piece {} of {pieces} is missing", piece + 1))
            })?;
            match record::read_record(&value).map_err(Broken::Piece)? {
                Record::LaterPiece(bytes) => frame.extend_from_slice(bytes),
                _ => return Err(Broken::Piece(format!("piece {} of {pieces} is none", piece + 1))),
            }
        }
        Ok(frame)
    }
}

/// Why a frame can't be put together.
enum Broken {
    Store(JournalError),
    Piece(String),
}

impl Broken {
    fn of_entry(self, seq: u64) -> JournalError {
        match self {
            Self::Store(error) => error,
            Self::Piece(why) => damaged(seq, &why),
        }
    }

    fn of_part(self, name: &str) -> JournalError {
        match self {
            Self::Store(error) => error,
            Self::Piece(why) => {
                JournalError::Damaged(format!("part `{name}` of the snapshot: {why}"))
            }
        }
    }
}

fn entries_in(mut pack: &[u8], first: u64, from: u64) -> Result<Vec<(Seq, Entry)>, JournalError> {
    let mut entries = Vec::new();
    let mut seq = first;
    while !pack.is_empty() {
        let (found, rest) = entry(seq, pack)?;
        if seq >= from {
            entries.push(found);
        }
        (pack, seq) = (rest, seq + 1);
    }
    if entries.is_empty() { Err(damaged(from, "it is missing")) } else { Ok(entries) }
}

fn entry(seq: u64, frame: &[u8]) -> Result<((Seq, Entry), &[u8]), JournalError> {
    let (content, rest) =
        record::unframe(&seq.to_be_bytes(), frame).map_err(|why| damaged(seq, &why))?;
    Ok(((Seq::new(seq), record::entry_from(content).map_err(|why| damaged(seq, &why))?), rest))
}

fn place_in(value: &[u8]) -> Result<u64, JournalError> {
    let bytes = value
        .try_into()
        .map_err(|_| JournalError::Damaged("a place in the log is no number".into()))?;
    Ok(u64::from_be_bytes(bytes))
}

fn damaged(seq: u64, why: &str) -> JournalError {
    JournalError::Damaged(format!("entry {seq}: {why}"))
}
