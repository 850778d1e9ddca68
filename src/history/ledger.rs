//! Records in the order they happened, each with the message that caused it, on pages:
//! a copy shares every page until something on it changes, so that one more record
//! costs the same after a season as on the first day.

use std::sync::Arc;

use jiff::Timestamp;
use jiff::civil::Date;
use serde::ser::SerializeSeq;
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

/// How many records a page holds at most.
const MOST: usize = 32;

/// Records ordered by day, those of one day by arrival. A copy shares them until
/// it changes.
#[derive(Debug)]
pub struct Ledger<T> {
    /// None of them empty.
    pages: Vec<Arc<Vec<Kept<T>>>>,
}

/// Of the same records, on whichever pages they came to stand.
impl<T: PartialEq> PartialEq for Ledger<T> {
    fn eq(&self, other: &Self) -> bool {
        self.iter().eq(other.iter())
    }
}

impl<T> Clone for Ledger<T> {
    fn clone(&self) -> Self {
        Self { pages: self.pages.clone() }
    }
}

impl<T> Default for Ledger<T> {
    fn default() -> Self {
        Self { pages: Vec::new() }
    }
}

impl<T: Serialize> Serialize for Ledger<T> {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        let mut records = to.serialize_seq(Some(self.len()))?;
        for record in self.iter() {
            records.serialize_element(record)?;
        }
        records.end()
    }
}

impl<'de, T: Deserialize<'de>> Deserialize<'de> for Ledger<T> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let mut records = Vec::deserialize(from)?.into_iter().peekable();
        let mut pages = Vec::with_capacity(records.len().div_ceil(MOST));
        while records.peek().is_some() {
            pages.push(Arc::new(records.by_ref().take(MOST).collect()));
        }
        Ok(Self { pages })
    }
}

impl<T: Clone> Ledger<T> {
    /// Puts a record in its place by day, behind those of the same day.
    pub fn keep(&mut self, record: Kept<T>) {
        let after = self.pages.partition_point(|page| starts_by(page, record.on));
        let at = after.saturating_sub(1);
        let Some(page) = self.pages.get_mut(at) else {
            // The first of all.
            return self.pages.push(Arc::new(vec![record]));
        };
        let full = page.len() >= MOST;
        if full && page.last().is_some_and(|last| last.on <= record.on) {
            return self.pages.insert(at + 1, Arc::new(vec![record]));
        }
        let page = Arc::make_mut(page);
        let place = page.partition_point(|other| other.on <= record.on);
        page.insert(place, record);
        if full {
            let rest = page.split_off(page.len() / 2);
            self.pages.insert(at + 1, Arc::new(rest));
        }
    }

    /// Drops what `stays` doesn't pick, asked of each in order; pages that lose nothing
    /// stay shared.
    fn retain(&mut self, mut stays: impl FnMut(&Kept<T>) -> bool) {
        self.pages.retain_mut(|page| {
            let picked: Vec<bool> = page.iter().map(&mut stays).collect();
            if picked.iter().any(|stays| !stays) {
                let mut picked = picked.into_iter();
                Arc::make_mut(page).retain(|_| picked.next().unwrap_or(true));
            }
            !page.is_empty()
        });
    }

    /// Takes out all that `cause` put in.
    pub fn withdraw(&mut self, cause: u64) {
        self.retain(|record| record.cause != cause);
    }

    /// Takes out those of `cause` that `goes` picks.
    pub fn withdraw_if(&mut self, cause: u64, goes: impl Fn(&T) -> bool) {
        self.retain(|record| record.cause != cause || !goes(&record.what));
    }

    /// Takes out the last that `cause` put in of those that `is_it` picks.
    pub fn take(&mut self, cause: u64, is_it: impl Fn(&T) -> bool) -> Option<Kept<T>> {
        let is_it = |kept: &Kept<T>| kept.cause == cause && is_it(&kept.what);
        let behind = self.iter().rev().position(is_it)?;
        self.remove(self.len() - 1 - behind)
    }

    /// Takes out the record at a place.
    pub(super) fn remove(&mut self, mut at: usize) -> Option<Kept<T>> {
        for (number, page) in self.pages.iter_mut().enumerate() {
            if at >= page.len() {
                at -= page.len();
                continue;
            }
            let records = Arc::make_mut(page);
            let record = records.remove(at);
            if records.is_empty() {
                self.pages.remove(number);
            }
            return Some(record);
        }
        None
    }

    /// Drops all but the latest `most`, so that neither a reply nor a snapshot
    /// grows with the length of a history.
    pub fn keep_latest(&mut self, most: usize) {
        let mut over = self.len().saturating_sub(most);
        if over > 0 {
            self.retain(|_| {
                let stays = over == 0;
                over = over.saturating_sub(1);
                stays
            });
        }
    }

    /// Drops of each day all but the latest `most` of that day.
    pub(super) fn keep_latest_each(&mut self, most: impl Fn(Date) -> usize) {
        let mut behind = 0;
        let mut day = None;
        let mut keeps = Vec::with_capacity(self.len());
        for record in self.iter().rev() {
            if day != Some(record.on) {
                (day, behind) = (Some(record.on), 0);
            }
            keeps.push(behind < most(record.on));
            behind += 1;
        }
        let mut keeps = keeps.into_iter().rev();
        if !keeps.clone().all(|keeps| keeps) {
            self.retain(|_| keeps.next().unwrap_or(true));
        }
    }

    /// Drops those that `goes` picks by place and record; gives the latest instant of
    /// one of them.
    pub(super) fn drop_those(
        &mut self,
        goes: impl Fn(usize, &Kept<T>) -> bool,
    ) -> Option<Timestamp> {
        let (mut place, mut latest) = (0, None);
        self.retain(|record| {
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
        // Most pages hold nothing of it: those stay shared.
        let is_it = move |record: &Kept<T>| record.cause == cause;
        let pages = self.pages.iter_mut().filter(move |page| page.iter().any(is_it));
        pages.flat_map(Arc::make_mut).filter(move |record| record.cause == cause)
    }

    /// Every record, to be put right.
    pub fn iter_mut(&mut self) -> impl Iterator<Item = &mut Kept<T>> {
        self.pages.iter_mut().flat_map(Arc::make_mut)
    }
}

/// True of a page that starts on that day or before it.
fn starts_by<T>(page: &Arc<Vec<Kept<T>>>, day: Date) -> bool {
    page.first().is_some_and(|first| first.on <= day)
}

impl<T> Ledger<T> {
    /// The records known at `now`, oldest first.
    pub fn as_of(&self, now: Timestamp) -> impl DoubleEndedIterator<Item = &Kept<T>> {
        self.iter().filter(move |record| record.at <= now)
    }

    /// The records known at `now` of `since` or later, oldest first.
    pub fn since(&self, since: Date, now: Timestamp) -> impl DoubleEndedIterator<Item = &Kept<T>> {
        let ends_before =
            |page: &Arc<Vec<Kept<T>>>| page.last().is_some_and(|last| last.on < since);
        let first = self.pages.partition_point(ends_before);
        let (begun, whole) = match self.pages.get(first..) {
            Some([begun, whole @ ..]) => {
                let from = begun.partition_point(|record| record.on < since);
                (begun.get(from..).unwrap_or_default(), whole)
            }
            _ => (&[][..], &[][..]),
        };
        let records = begun.iter().chain(whole.iter().flat_map(|page| page.iter()));
        records.filter(move |record| record.at <= now)
    }

    /// The record of `day` that was the last word at `now`.
    pub fn latest_on(&self, day: Date, now: Timestamp) -> Option<&Kept<T>> {
        self.since(day, now).take_while(|record| record.on == day).last()
    }

    /// What `cause` put in, oldest first.
    pub fn of_cause(&self, cause: u64) -> impl Iterator<Item = &Kept<T>> {
        self.iter().filter(move |record| record.cause == cause)
    }

    /// Every record, oldest first.
    pub(super) fn iter(&self) -> impl DoubleEndedIterator<Item = &Kept<T>> {
        self.pages.iter().flat_map(|page| page.iter())
    }

    /// How many records there are.
    pub fn len(&self) -> usize {
        self.pages.iter().map(|page| page.len()).sum()
    }

    /// True if there are none.
    pub fn is_empty(&self) -> bool {
        self.pages.is_empty()
    }
}

impl<T: PartialEq + Clone> Ledger<T> {
    /// Takes out the record that is equal to this one.
    pub(super) fn take_equal(&mut self, record: &Kept<T>) -> Option<Kept<T>> {
        let at = self.iter().position(|kept| kept == record)?;
        self.remove(at)
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn record(cause: u64, day: i8) -> Kept<u64> {
        let on = Date::constant(2031, 5, 1 + day);
        Kept { cause, at: Timestamp::from_second(cause as i64).unwrap(), on, what: cause }
    }

    proptest! {
        /// Whatever is done to it, on however many pages, it is what a list would be; and a
        /// copy made on the way stays what it was.
        #[test]
        fn it_is_a_list_in_order_of_days(
            steps in proptest::collection::vec((0..12_u8, 0..9_i8, 0..300_u64), 0..300)
        ) {
            let (mut ledger, mut list) = (Ledger::default(), Vec::<Kept<u64>>::new());
            let mut copies = Vec::new();
            for (cause, (step, day, number)) in (0..).zip(steps) {
                match step {
                    0 => {
                        ledger.withdraw(number);
                        list.retain(|record| record.cause != number);
                    }
                    1 => {
                        let at = list.iter().rposition(|record| record.cause == number);
                        let taken = at.map(|at| list.remove(at));
                        prop_assert_eq!(ledger.take(number, |_| true), taken);
                    }
                    2 => {
                        for record in ledger.of_cause_mut(number) {
                            record.what += 1000;
                        }
                        list.iter_mut().filter(|one| one.cause == number).for_each(|one| one.what += 1000);
                    }
                    3 if day == 0 => {
                        ledger.keep_latest(40);
                        list.drain(..list.len().saturating_sub(40));
                    }
                    _ => {
                        let at = list.partition_point(|other| other.on <= record(cause, day).on);
                        list.insert(at, record(cause, day));
                        ledger.keep(record(cause, day));
                    }
                }
                if step == 2 {
                    copies.push((ledger.clone(), list.clone()));
                }
                prop_assert_eq!((ledger.len(), ledger.is_empty()), (list.len(), list.is_empty()));
            }
            copies.push((ledger, list));
            for (ledger, list) in copies.into_iter().rev().take(9) {
                prop_assert!(ledger.iter().eq(&list));
                prop_assert!(ledger.iter().rev().eq(list.iter().rev()));
                let since = record(0, 4).on;
                let later: Vec<_> = list.iter().filter(|record| record.on >= since).collect();
                prop_assert!(ledger.since(since, Timestamp::MAX).eq(later.iter().copied()));
                prop_assert!(ledger.since(since, Timestamp::MAX).rev().eq(later.into_iter().rev()));
                let written = serde_json::to_string(&list).unwrap();
                prop_assert_eq!(&serde_json::to_string(&ledger).unwrap(), &written);
                prop_assert!(serde_json::from_str::<Ledger<u64>>(&written).unwrap() == ledger);
            }
        }
    }
}
