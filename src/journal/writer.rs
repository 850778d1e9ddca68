//! The end of the log: the one that adds to it. Knows nothing of who waits.

use std::collections::HashMap;
use std::sync::Arc;

use super::aside::Aside;
use super::frame::{self, Head, Kind};
use super::high_water::Reach;
use super::log::Log;
use super::segment::{self, Segment, Title};
use super::table::Row;
use super::walk::key_of;
use super::{Entry, JournalError, Mark, Placed, Seq};

/// A file is ended before it grows beyond this, in bytes (ours: what is walked
/// through at a start, and written anew where something is erased).
pub(super) const LONGEST: u64 = 32 * 1024 * 1024;

/// What is needed to add to a log.
#[derive(Debug)]
pub(super) struct Writer {
    log: Arc<Log>,
    active: Arc<Segment>,
    next: u64,
    mark: Mark,
    frames: Vec<u8>,
}

impl Writer {
    /// Adds to the last file of a log, after the entry with this mark.
    pub(super) fn new(log: Arc<Log>, active: Arc<Segment>, mark: Mark) -> Writer {
        let next = active.next();
        log.seen_ids.note_file(active.title.first);
        Writer { log, active, next, mark, frames: Vec::new() }
    }

    /// Writes entries in this order, in one step. On return they are durable.
    /// Gives each one's place.
    ///
    /// # Errors
    /// They are not certain to be durable; the log must be opened again.
    pub(super) fn write(
        &mut self,
        entries: &[&Entry],
        aside: &Aside,
    ) -> Result<Vec<Seq>, JournalError> {
        let step = self.next;
        let mut draft = Draft::after(self.mark);
        self.frames.clear();
        let mut numbers: HashMap<u64, u64> = HashMap::new();
        for (place, entry) in (step..).zip(entries) {
            let tag = entry.stream.tag();
            let last = || self.log.head(tag).map_or(0, |head| head.number);
            let number = numbers.entry(tag).or_insert_with(last);
            *number += 1;
            let head = Head::new(draft.mark, place, step, *number, entry.at);
            let offset = self.frames.len();
            draft.mark = frame::write(&mut self.frames, head, entry);
            draft.add(offset, tag, *number, entry);
        }
        self.put(draft, aside)?;
        Ok((step..self.next).map(Seq::new).collect())
    }

    /// Writes entries as they stood in another log, in one step; of those between
    /// that aren't there it is written that they were lost. On return they are
    /// durable.
    ///
    /// # Errors
    /// They are not certain to be durable; the log must be opened again.
    pub(super) fn take_over(
        &mut self,
        entries: &[Placed],
        aside: &Aside,
    ) -> Result<(), JournalError> {
        let step = self.next;
        let mut draft = Draft::after(self.mark);
        self.frames.clear();
        let mut next = step;
        for placed in entries {
            let until = Reach { place: placed.place.number() - 1, mark: placed.before };
            self.write_lost(&mut draft, next, step, until);
            next = next.max(placed.place.number());
            let offset = self.frames.len();
            frame::write_again(&mut self.frames, placed, step);
            draft.mark = placed.tip.mark;
            draft.add(offset, placed.entry.stream.tag(), placed.tip.number, &placed.entry);
            next += 1;
        }
        self.put(draft, aside)
    }

    /// Writes that all up to there was lost. On return that is durable.
    ///
    /// # Errors
    /// As [`take_over`](Self::take_over).
    pub(super) fn lose(&mut self, until: Reach, aside: &Aside) -> Result<(), JournalError> {
        let mut draft = Draft::after(self.mark);
        self.frames.clear();
        self.write_lost(&mut draft, self.next, self.next, until);
        self.put(draft, aside)
    }

    fn write_lost(&mut self, draft: &mut Draft, from: u64, step: u64, until: Reach) {
        for place in from..=until.place {
            // What follows knows the mark of the last one only.
            let mark = if place == until.place { until.mark } else { Mark::default() };
            let (kind, before, at) = (Kind::Lost, draft.mark, 0);
            let head = Head { kind, place, step, number: 0, at, before, mark };
            let offset = self.frames.len();
            let nothing = frame::write_lost(&mut self.frames, head);
            draft.mark = mark;
            draft.add(offset, nothing.stream.tag(), 0, &nothing);
        }
    }

    /// Puts the frames at the end of the log.
    fn put(&mut self, draft: Draft, aside: &Aside) -> Result<(), JournalError> {
        let too_long = self.active.end() + self.frames.len() as u64 > LONGEST;
        if too_long {
            self.begin_next(aside)?;
        }
        let begin = self.active.end();
        let rows: Vec<Row> = draft
            .rows
            .into_iter()
            .map(|(at, row)| {
                // A file is far shorter than 4 GiB.
                let offset = u32::try_from(begin + at as u64).unwrap_or(u32::MAX);
                Row { offset, ..row }
            })
            .collect();
        self.active.write(&self.frames)?;
        self.active.add(&rows, self.frames.len() as u64, draft.newest, draft.mark);
        self.log.note(self.next, rows.iter().copied());
        (self.next..).zip(&rows).for_each(|(place, row)| self.log.seen_ids.note(row.key, place));
        self.next += rows.len() as u64;
        self.mark = draft.mark;
        if self.active.runs_short() {
            aside.write_ahead(&self.active);
        }
        if self.active.end() > LONGEST / 2 {
            aside.prepare_next();
        }
        Ok(())
    }

    /// The place of the next entry.
    pub(super) fn next(&self) -> u64 {
        self.next
    }

    /// The mark of the last entry.
    pub(super) fn mark(&self) -> Mark {
        self.mark
    }

    /// Ends the file and begins the next.
    ///
    /// # Errors
    /// The next can't be made.
    pub(super) fn begin_next(&mut self, aside: &Aside) -> Result<(), JournalError> {
        if self.active.next() == self.active.title.first {
            return Ok(());
        }
        let title = Title {
            store: self.log.store,
            first: self.next,
            before: self.mark,
            generation: segment::generation()?,
        };
        let next = Arc::new(match aside.preallocated() {
            Some(preallocated) => Segment::of_preallocated(&self.log.folder, title, preallocated)?,
            None => Segment::make(&self.log.folder, title)?,
        });
        self.log.push(Arc::clone(&next));
        self.log.seen_ids.note_file(self.next);
        let ended = std::mem::replace(&mut self.active, next);
        aside.seal(ended);
        Ok(())
    }
}

/// Frames in the making, and their rows.
struct Draft {
    mark: Mark,
    newest: i64,
    rows: Vec<(usize, Row)>,
}

impl Draft {
    fn after(mark: Mark) -> Draft {
        Draft { mark, newest: i64::MIN, rows: Vec::new() }
    }

    fn add(&mut self, offset: usize, tag: u64, number: u64, entry: &Entry) {
        let key = entry.key.as_ref().map_or(0, key_of);
        self.newest = self.newest.max(entry.at.as_second());
        self.rows.push((offset, Row { offset: 0, tag, number, key }));
    }
}
