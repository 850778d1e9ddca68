//! Snapshots, in the embedded store: parts by stream and name. Knows nothing of
//! the log, or of what the parts hold.
//!
//! One named tree, told apart by the first byte of the key:
//!
//! | key | record |
//! | --- | --- |
//! | `p` tag length name piece | one piece of a part |
//! | `t` tag | the list of a stream's parts, and how far they go |
//!
//! Numbers in keys are big-endian. The list holds the checksum of every part, so
//! that a part the store has lost, or gives in an older form, is seen.
//!
//! Records are short: a page of the store holds up to twenty of them before it
//! splits, and a page over a quarter of a segment (128 KiB) would go to a side
//! file that is never synced to the disk.

use std::collections::BTreeMap;
use std::path::Path;

use sled::Batch;

use super::embedded::{Store, guarded};
use super::error::damaged;
use super::frame::{self, LONGEST_BODY, LONGEST_NAME};
use super::{JournalError, Mark, Part};

/// The longest record, in bytes.
const LONGEST_RECORD: usize = 6 * 1024;

/// How many bytes are copied in one step where the store is written anew.
const STEP: usize = 1024 * 1024;

/// How far a snapshot goes, and what it is made of.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) struct List {
    /// The number of the last entry in it.
    pub through: u64,
    /// That entry's mark.
    pub mark: Mark,
    /// The checksum of each part by its name.
    parts: BTreeMap<String, u32>,
}

impl Store {
    /// The list of a stream's parts, if it has a snapshot.
    ///
    /// # Errors
    /// It can't be read, or isn't whole.
    pub(super) fn list(&self, tag: u64) -> Result<Option<List>, JournalError> {
        let found = guarded(|| {
            let mut bytes = Vec::new();
            for piece in self.tree.scan_prefix(list_key(tag)).values() {
                bytes.extend_from_slice(&piece?);
            }
            Ok(bytes)
        })?;
        if found.is_empty() {
            return Ok(None);
        }
        List::read(&found).map(Some).ok_or_else(|| damaged("the list of a snapshot's parts"))
    }

    /// All parts of a stream's snapshot, ordered by name.
    ///
    /// # Errors
    /// They can't be read, or aren't those of the list.
    pub(super) fn parts(&self, tag: u64, list: &List) -> Result<Vec<Part>, JournalError> {
        guarded(|| {
            let mut parts: Vec<(Part, u32)> = Vec::new();
            for found in self.tree.scan_prefix(parts_key(tag)) {
                let (key, value) = found?;
                let (name, piece) =
                    part_of(&key).ok_or_else(|| damaged("a part of a snapshot has a bad key"))?;
                match parts.last_mut() {
                    Some((part, next)) if part.name == name && *next == piece => {
                        part.bytes.extend_from_slice(&value);
                        *next += 1;
                    }
                    _ if piece == 0 => {
                        parts.push((Part { name: name.to_owned(), bytes: value.to_vec() }, 1));
                    }
                    _ => return Err(damaged(format!("part `{name}`: a piece is missing"))),
                }
            }
            let mut parts: Vec<Part> = parts.into_iter().map(|(part, _)| part).collect();
            parts.sort_by(|one, other| one.name.cmp(&other.name));
            let there = parts.iter().map(|part| (&part.name, checksum(tag, part)));
            if !there.eq(list.parts.iter().map(|(name, check)| (name, *check))) {
                return Err(damaged("its parts are not those that were written"));
            }
            Ok(parts)
        })
    }

    /// Replaces parts of a stream's snapshot and its list in one step, so that whenever the
    /// program ends the one before is there or this one; an empty part goes, and with `anew`
    /// all of those before. It is durable after the next sync.
    ///
    /// # Errors
    /// The store can't be read or written, and must be opened again.
    pub(super) fn put(
        &self,
        tag: u64,
        mut list: List,
        parts: &[Part],
        anew: bool,
    ) -> Result<(), JournalError> {
        guarded(|| {
            let mut batch = Batch::default();
            for prefix in [parts_key(tag), list_key(tag)].into_iter().filter(|_| anew) {
                for key in self.tree.scan_prefix(prefix).keys() {
                    batch.remove(key?);
                }
            }
            // Of two by one name the later holds.
            let parts: BTreeMap<&str, &Part> =
                parts.iter().map(|part| (part.name.as_str(), part)).collect();
            for part in parts.into_values() {
                let mut written = 0;
                for piece in part.bytes.chunks(LONGEST_RECORD) {
                    batch.insert(part_key(tag, &part.name, written), piece);
                    written += 1;
                }
                // A longer one before it leaves pieces over.
                let rest = part_key(tag, &part.name, written)..=part_key(tag, &part.name, u32::MAX);
                for key in self.tree.range(rest).keys() {
                    batch.remove(key?);
                }
                match part.bytes.is_empty() {
                    true => list.parts.remove(&part.name),
                    false => list.parts.insert(part.name.clone(), checksum(tag, part)),
                };
            }
            let mut pieces = 0;
            for piece in list.write().chunks(LONGEST_RECORD) {
                batch.insert(list_piece_key(tag, pieces), piece);
                pieces += 1;
            }
            let rest = list_piece_key(tag, pieces)..=list_piece_key(tag, u32::MAX);
            for key in self.tree.range(rest).keys() {
                batch.remove(key?);
            }
            Ok(self.tree.apply_batch(batch)?)
        })
    }

    /// Copies the snapshots of all streams but those into a new store at `path`.
    /// On return it is durable.
    ///
    /// # Errors
    /// This one can't be read, or that one written.
    pub(super) fn copy_without(&self, tags: &[u64], path: &Path) -> Result<(), JournalError> {
        let copy = Store::begin(path)?;
        guarded(|| {
            let mut batch = Batch::default();
            let mut bytes = 0;
            for found in self.tree.iter() {
                let (key, value) = found?;
                if tag_of(&key).is_none_or(|tag| tags.contains(&tag)) {
                    continue;
                }
                bytes += key.len() + value.len();
                batch.insert(key, value);
                if bytes > STEP {
                    copy.tree.apply_batch(std::mem::take(&mut batch))?;
                    bytes = 0;
                }
            }
            Ok(copy.tree.apply_batch(batch)?)
        })?;
        copy.sync()?;
        drop(copy);
        Store::let_go_of(path)
    }
}

/// Whether parts can be stored.
pub(super) fn fit(parts: &[Part]) -> Result<(), JournalError> {
    parts.iter().try_for_each(|part| {
        frame::within("the name of a part", part.name.len(), LONGEST_NAME)?;
        frame::within("a part", part.bytes.len(), LONGEST_BODY)
    })
}

impl List {
    /// How many parts there are.
    pub(super) fn len(&self) -> usize {
        self.parts.len()
    }

    fn write(&self) -> Vec<u8> {
        let mut content = self.through.to_le_bytes().to_vec();
        content.extend_from_slice(&self.mark.0);
        for (name, check) in &self.parts {
            content.push(u8::try_from(name.len()).unwrap_or(u8::MAX));
            content.extend_from_slice(name.as_bytes());
            content.extend_from_slice(&check.to_le_bytes());
        }
        let check = crc32fast::hash(&content);
        [check.to_le_bytes().as_slice(), &content].concat()
    }

    fn read(bytes: &[u8]) -> Option<List> {
        let (check, content) = bytes.split_first_chunk::<4>()?;
        if crc32fast::hash(content) != u32::from_le_bytes(*check) {
            return None;
        }
        let (through, content) = content.split_first_chunk::<8>()?;
        let (mark, mut rest) = content.split_first_chunk::<16>()?;
        let mut parts = BTreeMap::new();
        while let Some((&length, after)) = rest.split_first() {
            let (name, after) = after.split_at_checked(usize::from(length))?;
            let (check, after) = after.split_first_chunk::<4>()?;
            parts.insert(String::from_utf8(name.to_vec()).ok()?, u32::from_le_bytes(*check));
            rest = after;
        }
        Some(List { through: u64::from_le_bytes(*through), mark: Mark(*mark), parts })
    }
}

/// The checksum of a part, which fits no other stream's or name's.
fn checksum(tag: u64, part: &Part) -> u32 {
    let mut crc = crc32fast::Hasher::new();
    crc.update(&tag.to_be_bytes());
    crc.update(part.name.as_bytes());
    crc.update(&part.bytes);
    crc.finalize()
}

fn list_key(tag: u64) -> Vec<u8> {
    [b"t".as_slice(), &tag.to_be_bytes()].concat()
}

fn list_piece_key(tag: u64, piece: u32) -> Vec<u8> {
    [b"t".as_slice(), &tag.to_be_bytes(), &piece.to_be_bytes()].concat()
}

/// What the keys of all parts of a stream begin with.
fn parts_key(tag: u64) -> Vec<u8> {
    [b"p".as_slice(), &tag.to_be_bytes()].concat()
}

fn part_key(tag: u64, name: &str, piece: u32) -> Vec<u8> {
    // The caller has checked the length; a longer name would only be misfiled.
    let length = [u8::try_from(name.len()).unwrap_or(u8::MAX)];
    [&parts_key(tag)[..], &length, name.as_bytes(), &piece.to_be_bytes()].concat()
}

/// The name and piece of a part's key, or `None` if it is no such key.
fn part_of(key: &[u8]) -> Option<(&str, u32)> {
    let (&length, rest) = key.get(9..)?.split_first()?;
    let (name, piece) = rest.split_at_checked(usize::from(length))?;
    Some((std::str::from_utf8(name).ok()?, u32::from_be_bytes(piece.try_into().ok()?)))
}

fn tag_of(key: &[u8]) -> Option<u64> {
    Some(u64::from_be_bytes(*key.get(1..)?.first_chunk()?))
}
