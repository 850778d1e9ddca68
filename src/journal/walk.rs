//! A walk through one file of the log, frame by frame: what is in it, and what
//! is wrong with it. Pure; bytes in, findings out.

use super::Mark;
use super::frame::{self, Kind};
use super::segment::TITLE_LENGTH;
use super::table::{Row, Table};
use super::{MessageKey, StreamId};

/// What a walk found.
#[derive(Debug, Clone)]
pub(super) struct Walk {
    /// A row an entry; one of offset 0 for an entry that is missing.
    pub table: Table,
    /// Where the last whole frame ends.
    pub end: u64,
    /// When the newest entry came, in seconds since 1970.
    pub newest: i64,
    /// The mark of the last entry.
    pub mark: Mark,
    /// What is wrong, in the order in which it was met.
    pub faults: Vec<String>,
    /// How many entries are known to have been lost before, and told of.
    pub lost: u64,
    /// The first stretch that is no frame, with frames after it.
    pub gap: Option<Gap>,
    /// Bytes after the last frame that are not zeros.
    pub ragged: bool,
}

/// A stretch that is no frame.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Gap {
    /// Where it begins.
    pub offset: u64,
    /// The place of the first entry that should be there.
    pub place: u64,
    /// All frames after it were written in one step with that entry: a power cut
    /// in the middle of the step, which was then never acknowledged, leaves that.
    pub in_one_step: bool,
}

impl Walk {
    /// Nothing found yet, after the entry with this mark.
    pub(super) fn empty(before: Mark) -> Walk {
        Walk {
            table: Table::default(),
            end: TITLE_LENGTH,
            newest: i64::MIN,
            mark: before,
            faults: Vec::new(),
            lost: 0,
            gap: None,
            ragged: false,
        }
    }

    /// Walks through a file's bytes; its first entry is `first`, after the one
    /// marked `before`. With `marks`, looks whether each entry bears its own mark
    /// too, which its checksum mostly says.
    pub(super) fn through(bytes: &[u8], first: u64, before: Mark, marks: bool) -> Walk {
        Self::through_slowly(bytes, first, before, marks, || ())
    }

    /// The same, with something done after each frame.
    pub(super) fn through_slowly(
        bytes: &[u8],
        first: u64,
        before: Mark,
        marks: bool,
        mut after_each: impl FnMut(),
    ) -> Walk {
        let mut walk = Walk::empty(before);
        let mut at = TITLE_LENGTH as usize;
        let mut next = first;
        while let Some(here) = bytes.get(at..).filter(|here| !here.is_empty()) {
            after_each();
            let found = match frame::read(here) {
                Ok(found) => found,
                Err(why) => {
                    let Some(whole) = frame::next_whole(bytes, at + 1) else {
                        walk.ragged = here.iter().any(|byte| *byte != 0);
                        break;
                    };
                    walk.faults.push(format!("entry {next}: {why}"));
                    walk.gap.get_or_insert(Gap {
                        offset: at as u64,
                        place: next,
                        in_one_step: true,
                    });
                    at = whole;
                    continue;
                }
            };
            if let Some(gap) = &mut walk.gap {
                gap.in_one_step &= found.head.step <= gap.place;
            }
            let head = found.head;
            if head.place < next {
                walk.faults.push(format!("entry {} stands where {next} should", head.place));
                walk.gap.get_or_insert(Gap { offset: at as u64, place: next, in_one_step: false });
                at += found.length;
                continue;
            }
            if head.place > next {
                walk.miss(next, head.place);
                walk.gap.get_or_insert(Gap { offset: at as u64, place: next, in_one_step: false });
            } else if head.before != walk.mark && walk.mark != Mark::default() {
                walk.faults.push(format!("entry {next} does not follow the one before it"));
            }
            if marks && !found.bears_its_mark() {
                let what = format!("entry {}: not what its mark was made from", head.place);
                walk.faults.push(what);
            }
            match found.entry() {
                Ok(placed) => {
                    walk.table.push(Row {
                        offset: u32::try_from(at).unwrap_or_default(),
                        tag: placed.entry.stream.tag(),
                        number: head.number,
                        key: placed.entry.key.as_ref().map_or(0, key_of),
                    });
                }
                Err(why) => {
                    walk.faults.push(format!("entry {}: {why}", head.place));
                    walk.table.push(Row { offset: 0, tag: 0, number: 0, key: 0 });
                }
            }
            walk.lost += u64::from(head.kind == Kind::Lost);
            walk.newest = walk.newest.max(head.at);
            walk.mark = head.mark;
            next = head.place + 1;
            at += found.length;
            walk.end = at as u64;
        }
        walk
    }

    /// Marks places as missing.
    pub(super) fn miss(&mut self, from: u64, to: u64) {
        let most = 1_000_000;
        match to - from {
            1 => self.faults.push(format!("entry {from} is missing")),
            _ => self.faults.push(format!("entries {from} to {} are missing", to - 1)),
        }
        for _ in from..to.min(from + most) {
            self.table.push(Row { offset: 0, tag: StreamId::all().tag(), number: 0, key: 0 });
        }
        // What comes next can't be compared with what isn't there.
        self.mark = Mark::default();
    }
}

/// What a table keeps of a key.
pub(super) fn key_of(key: &MessageKey) -> u64 {
    // 0 stands for none.
    key.digest().first_chunk().map_or(1, |bytes| u64::from_le_bytes(*bytes).max(1))
}
