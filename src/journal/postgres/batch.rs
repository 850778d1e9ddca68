//! Entries on their way into the database: which rows they make, and where the log
//! ends with them. Pure; asks nothing of the database.

use std::collections::HashMap;

use crate::journal::frame::{self, Head, Kind};
use crate::journal::high_water::Reach;
use crate::journal::{Entry, Mark, Placed, Seq, StreamId, Tip};

/// Entries that are written in one step.
#[derive(Debug)]
pub(super) struct Batch {
    /// Where the log ended before, …
    pub from: Reach,
    /// … and where it ends with them.
    pub to: Reach,
    pub rows: Vec<Row>,
    /// How far the streams go then that some of them are in.
    pub tips: HashMap<StreamId, (Tip, u64)>,
}

/// An entry as it stands in a row.
#[derive(Debug)]
pub(super) struct Row {
    pub place: i64,
    pub stream: Vec<u8>,
    pub number: i64,
    pub key: Option<Vec<u8>>,
    pub at: i64,
    pub frame: Vec<u8>,
}

impl Batch {
    /// New entries behind this end; `last` says how far a stream goes so far.
    pub(super) fn of(from: Reach, entries: &[&Entry], last: impl Fn(&StreamId) -> u64) -> Batch {
        let mut batch = Batch::empty(from);
        let step = from.place + 1;
        for entry in entries {
            let number = batch.tips.get(&entry.stream).map(|(tip, _)| tip.number);
            let number = number.unwrap_or_else(|| last(&entry.stream)) + 1;
            let place = batch.to.place + 1;
            let head = Head::new(batch.to.mark, place, step, number, entry.at);
            let mut bytes = Vec::new();
            let mark = frame::write(&mut bytes, head, entry);
            batch.add(place, Tip { number, mark }, entry, bytes);
        }
        batch
    }

    /// Entries as they stood in another log, with those between that aren't there.
    pub(super) fn again(from: Reach, entries: &[Placed]) -> Batch {
        let mut batch = Batch::empty(from);
        let step = from.place + 1;
        for placed in entries {
            for place in batch.to.place + 1..placed.place.number() {
                // What follows knows the mark of the last one only.
                let is_last = place + 1 == placed.place.number();
                let mark = if is_last { placed.before } else { Mark::default() };
                let before = batch.to.mark;
                let head = Head { kind: Kind::Lost, place, step, number: 0, at: 0, before, mark };
                let mut bytes = Vec::new();
                let nothing = frame::write_lost(&mut bytes, head);
                batch.add(place, Tip { number: 0, mark }, &nothing, bytes);
            }
            let mut bytes = Vec::new();
            frame::write_again(&mut bytes, placed, step);
            batch.add(placed.place.number(), placed.tip, &placed.entry, bytes);
        }
        batch
    }

    /// The places of its entries.
    pub(super) fn places(&self) -> Vec<Seq> {
        (self.from.place + 1..=self.to.place).map(Seq::new).collect()
    }

    fn empty(from: Reach) -> Batch {
        Batch { from, to: from, rows: Vec::new(), tips: HashMap::new() }
    }

    fn add(&mut self, place: u64, tip: Tip, entry: &Entry, frame: Vec<u8>) {
        self.to = Reach { place, mark: tip.mark };
        self.rows.push(Row {
            place: place.cast_signed(),
            stream: entry.stream.0.clone().into_bytes(),
            number: tip.number.cast_signed(),
            key: entry.key.as_ref().map(|key| key.digest().to_vec()),
            at: entry.at.as_second(),
            frame,
        });
        if tip.number > 0 {
            self.tips.insert(entry.stream.clone(), (tip, place));
        }
    }
}
