//! Records in the order they happened, each with the message that caused it.

use std::sync::Arc;

use jiff::Timestamp;
use jiff::civil::Date;
use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// A record, the message that caused it, and the instant it counts from.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Kept<T> {
    /// The number, within the squad, of the message that caused it.
    pub cause: u64,
    /// The instant of that message: a question asked as of an earlier one does
    /// not see the record.
    pub at: Timestamp,
    /// The local day it happened on.
    pub on: Date,
    /// What happened.
    pub what: T,
}

/// Records ordered by day, those of one day by arrival. A copy shares them until
/// it changes.
#[derive(Debug, PartialEq)]
pub struct Ledger<T> {
    kept: Arc<Vec<Kept<T>>>,
}

impl<T> Clone for Ledger<T> {
    fn clone(&self) -> Self {
        Self { kept: Arc::clone(&self.kept) }
    }
}

impl<T> Default for Ledger<T> {
    fn default() -> Self {
        Self { kept: Arc::default() }
    }
}

impl<T: Serialize> Serialize for Ledger<T> {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        self.kept.as_slice().serialize(to)
    }
}

impl<'de, T: Deserialize<'de>> Deserialize<'de> for Ledger<T> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        Ok(Self { kept: Arc::new(Vec::deserialize(from)?) })
    }
}

impl<T: Clone> Ledger<T> {
    fn change(&mut self) -> &mut Vec<Kept<T>> {
        Arc::make_mut(&mut self.kept)
    }

    /// Puts a record in its place by day, behind those of the same day.
    pub fn keep(&mut self, record: Kept<T>) {
        let place = self.kept.partition_point(|other| other.on <= record.on);
        self.change().insert(place, record);
    }

    /// Takes out all that `cause` put in.
    pub fn withdraw(&mut self, cause: u64) {
        if self.kept.iter().any(|record| record.cause == cause) {
            self.change().retain(|record| record.cause != cause);
        }
    }

    /// Takes out those of `cause` that `goes` picks.
    pub fn withdraw_if(&mut self, cause: u64, goes: impl Fn(&T) -> bool) {
        let is_it = |record: &Kept<T>| record.cause == cause && goes(&record.what);
        if self.kept.iter().any(is_it) {
            self.change().retain(|record| !is_it(record));
        }
    }

    /// Takes out the last that `cause` put in of those that `is_it` picks.
    pub fn take(&mut self, cause: u64, is_it: impl Fn(&T) -> bool) -> Option<Kept<T>> {
        let at = self.kept.iter().rposition(|kept| kept.cause == cause && is_it(&kept.what))?;
        Some(self.change().remove(at))
    }

    /// Takes out the record at a place.
    pub(super) fn remove(&mut self, at: usize) -> Option<Kept<T>> {
        (at < self.kept.len()).then(|| self.change().remove(at))
    }

    /// Drops all but the latest `most`, so that neither a reply nor a snapshot
    /// grows with the length of a history.
    pub fn keep_latest(&mut self, most: usize) {
        let over = self.kept.len().saturating_sub(most);
        if over > 0 {
            self.change().drain(..over);
        }
    }

    /// Drops of each day all but the latest `most` of that day.
    pub(super) fn keep_latest_each(&mut self, most: impl Fn(Date) -> usize) {
        let mut behind = 0;
        let mut day = None;
        let mut keeps = Vec::with_capacity(self.kept.len());
        for record in self.kept.iter().rev() {
            if day != Some(record.on) {
                (day, behind) = (Some(record.on), 0);
            }
            keeps.push(behind < most(record.on));
            behind += 1;
        }
        let mut keeps = keeps.into_iter().rev();
        if !keeps.clone().all(|keeps| keeps) {
            self.change().retain(|_| keeps.next().unwrap_or(true));
        }
    }

    /// Drops those that `goes` picks by place and record; gives the latest instant of
    /// one of them.
    pub(super) fn drop_those(
        &mut self,
        goes: impl Fn(usize, &Kept<T>) -> bool,
    ) -> Option<Timestamp> {
        let (mut place, mut latest) = (0, None);
        self.change().retain(|record| {
            place += 1;
            let goes = goes(place - 1, record);
            if goes {
                latest = latest.max(Some(record.at));
            }
            !goes
        });
        latest
    }

    /// What `cause` put in, to be put right.
    pub fn of_cause_mut(&mut self, cause: u64) -> impl Iterator<Item = &mut Kept<T>> {
        // Most messages put in nothing here: those leave the shared ones alone.
        let any = self.kept.iter().any(|record| record.cause == cause);
        let records: &mut [Kept<T>] = if any { self.change() } else { &mut [] };
        records.iter_mut().filter(move |record| record.cause == cause)
    }

    /// Every record, to be put right.
    pub fn iter_mut(&mut self) -> impl Iterator<Item = &mut Kept<T>> {
        self.change().iter_mut()
    }
}

impl<T> Ledger<T> {
    /// The records known at `now`, oldest first.
    pub fn as_of(&self, now: Timestamp) -> impl DoubleEndedIterator<Item = &Kept<T>> {
        self.kept.iter().filter(move |record| record.at <= now)
    }

    /// The records known at `now` of `since` or later, oldest first.
    pub fn since(&self, since: Date, now: Timestamp) -> impl DoubleEndedIterator<Item = &Kept<T>> {
        let first = self.kept.partition_point(|record| record.on < since);
        self.kept.iter().skip(first).filter(move |record| record.at <= now)
    }

    /// The record of `day` that was the last word at `now`.
    pub fn latest_on(&self, day: Date, now: Timestamp) -> Option<&Kept<T>> {
        self.since(day, now).take_while(|record| record.on == day).last()
    }

    /// What `cause` put in, oldest first.
    pub fn of_cause(&self, cause: u64) -> impl Iterator<Item = &Kept<T>> {
        self.kept.iter().filter(move |record| record.cause == cause)
    }

    /// Every record, oldest first.
    pub(super) fn iter(&self) -> impl Iterator<Item = &Kept<T>> {
        self.kept.iter()
    }

    /// How many records there are.
    pub fn len(&self) -> usize {
        self.kept.len()
    }

    /// True if there are none.
    pub fn is_empty(&self) -> bool {
        self.kept.is_empty()
    }
}

impl<T: PartialEq + Clone> Ledger<T> {
    /// Takes out the record that is equal to this one.
    pub(super) fn take_equal(&mut self, record: &Kept<T>) -> Option<Kept<T>> {
        let at = self.kept.iter().position(|kept| kept == record)?;
        self.remove(at)
    }
}
