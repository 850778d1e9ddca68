//! When each letter of an alarm is tried, and on which way. Pure: knows how much
//! time has passed and what became of each try, no clock and no socket.
//!
//! Everybody of the first rank is tried at once; a way that has failed, or not
//! answered for a while, brings in the next that leads to the same address; a
//! rank that is not reached brings in the rank behind it. What no try has
//! reached is tried again for ever.

use std::collections::BTreeMap;
use std::time::Duration;

use super::schedule::next_cry;
use crate::history::Called;
use crate::service::{Call, LetterNumber};

/// After so long without an answer the next way, or the next rank, is tried
/// beside. Ours.
const HANGS: Duration = Duration::from_secs(3);

/// So many tries of a letter hang on one way at most: one for each sign of life
/// that may be heard while the first is waited for, so that none is let pass. Ours.
const BESIDE: u32 = 6;

/// How long nobody is reached until that is said. Ours.
pub(super) const UNHEARD: Duration = Duration::from_secs(10);

/// The letters of alarms that are not delivered, with what became of their tries.
#[derive(Debug, Default)]
pub(super) struct Cries {
    alarms: BTreeMap<u64, BTreeMap<LetterNumber, Letter>>,
}

/// One try.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Cry {
    /// Of which letter.
    pub letter: LetterNumber,
    /// The message that raised the alarm.
    pub alarm: u64,
    /// On which way.
    pub way: usize,
}

#[derive(Debug)]
struct Letter {
    called: Called,
    since: Duration,
    ways: Vec<Way>,
}

/// One way to one address, the best first.
#[derive(Debug)]
struct Way {
    number: usize,
    first: Option<Duration>,
    last: Duration,
    failed: u32,
    out: u32,
    /// The other end gave a sign of life since the last try began.
    stirs: bool,
}

impl Cries {
    /// Takes over which letters there are; `ways` leads to an address.
    pub fn take(&mut self, calls: &[Call], ways: impl Fn(&str) -> Vec<usize>, now: Duration) {
        for call in calls {
            let letters = self.alarms.entry(call.alarm).or_default();
            letters.entry(call.number).or_insert_with(|| Letter {
                called: call.called,
                since: now,
                ways: ways(&call.to).into_iter().map(Way::new).collect(),
            });
        }
        for (alarm, letters) in &mut self.alarms {
            letters.retain(|number, _| {
                calls.iter().any(|call| call.alarm == *alarm && call.number == *number)
            });
        }
        self.alarms.retain(|_, letters| !letters.is_empty());
    }

    /// True where there is nothing to try, now or later.
    pub fn is_empty(&self) -> bool {
        self.alarms.is_empty()
    }

    /// The tries that are due, those first that were tried least, of these the
    /// youngest.
    pub fn due(&self, now: Duration) -> Vec<Cry> {
        let mut due: Vec<(u32, std::cmp::Reverse<u64>, Cry)> = Vec::new();
        for (alarm, letters) in &self.alarms {
            for (number, letter) in letters.iter().filter(|(_, one)| is_called(one, letters, now)) {
                let tried = letter.ways.iter().map(|way| way.failed).sum();
                due.extend(letter.due(now).map(|way| {
                    let cry = Cry { letter: *number, alarm: *alarm, way };
                    (tried, std::cmp::Reverse(*alarm), cry)
                }));
            }
        }
        due.sort();
        due.into_iter().map(|(_, _, cry)| cry).collect()
    }

    /// True if this letter was tried before, on whatever way.
    pub fn was_tried(&self, cry: &Cry) -> bool {
        let letter = self.alarms.get(&cry.alarm).and_then(|letters| letters.get(&cry.letter));
        letter.is_some_and(|letter| letter.ways.iter().any(|way| way.first.is_some()))
    }

    /// True if nobody who can help can be reached by an alarm's first tries.
    pub fn is_in_vain(&self, alarm: u64, now: Duration) -> bool {
        let help = |letter: &&Letter| letter.called.is_help();
        self.alarms.get(&alarm).is_none_or(|letters| {
            letters.values().filter(help).all(|letter| letter.is_in_vain(now))
        })
    }

    /// Takes note that a try begins.
    pub fn begins(&mut self, cry: &Cry, now: Duration) {
        if let Some(way) = self.way(cry) {
            way.first.get_or_insert(now);
            way.out += 1;
            way.stirs = false;
        }
    }

    /// Takes note that a try brought nothing.
    pub fn failed(&mut self, cry: &Cry, now: Duration) {
        if let Some(way) = self.way(cry) {
            way.out = way.out.saturating_sub(1);
            way.failed = way.failed.saturating_add(1);
            way.last = now;
        }
    }

    /// Takes note that the other end of a way may be there again.
    pub fn stirs(&mut self, number: usize) {
        let letters = self.alarms.values_mut().flat_map(BTreeMap::values_mut);
        for way in letters.flat_map(|letter| &mut letter.ways).filter(|way| way.number == number) {
            way.stirs = way.first.is_some();
        }
    }

    /// The ways on which a try failed or hangs: worth listening at.
    pub fn troubled(&self, now: Duration) -> Vec<usize> {
        let letters = self.alarms.values().flat_map(BTreeMap::values);
        let ways = letters.flat_map(|letter| &letter.ways);
        let mut troubled: Vec<usize> =
            ways.filter(|way| way.is_troubled(now)).map(|way| way.number).collect();
        troubled.sort_unstable();
        troubled.dedup();
        troubled
    }

    fn way(&mut self, cry: &Cry) -> Option<&mut Way> {
        let letter = self.alarms.get_mut(&cry.alarm)?.get_mut(&cry.letter)?;
        letter.ways.iter_mut().find(|way| way.number == cry.way)
    }
}

/// True once those who are called before this one were tried in vain.
fn is_called(one: &Letter, all: &BTreeMap<LetterNumber, Letter>, now: Duration) -> bool {
    let before = |other: &&Letter| one.called.waits_for(other.called);
    all.values().filter(before).all(|other| other.is_in_vain(now))
}

impl Letter {
    fn due(&self, now: Duration) -> impl Iterator<Item = usize> {
        let mut open = true;
        self.ways.iter().filter_map(move |way| {
            let due = open && way.is_due(now);
            open = open && way.is_troubled(now);
            due.then_some(way.number)
        })
    }

    /// No way is left that might still bring it on the first try.
    fn is_in_vain(&self, now: Duration) -> bool {
        self.ways.iter().all(|way| way.is_troubled(now))
            || now.saturating_sub(self.since) >= UNHEARD
    }
}

impl Way {
    fn new(number: usize) -> Self {
        let (first, last) = (None, Duration::ZERO);
        Self { number, first, last, failed: 0, out: 0, stirs: false }
    }

    fn is_due(&self, now: Duration) -> bool {
        let Some(first) = self.first else { return true };
        let stirs = self.stirs && self.out < BESIDE;
        let waited = self.out == 0 && now >= next_cry(first, self.last, self.failed);
        stirs || waited
    }

    fn is_troubled(&self, now: Duration) -> bool {
        self.failed > 0 || self.first.is_some_and(|first| now.saturating_sub(first) >= HANGS)
    }
}

#[cfg(test)]
mod tests;
