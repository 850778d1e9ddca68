//! The letters that are still to be delivered, and those that could not be.
//!
//! A fold over the journal. It knows whose turn it is, and no words: a letter
//! costs some tens of bytes here, however long the other end is away. Letters of
//! an alarm are not here.

use std::collections::{BTreeMap, BTreeSet, HashMap, HashSet};
use std::sync::Arc;

use jiff::Timestamp;
use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};

use super::{LetterEvent, LetterNumber};
use crate::digest;

/// All letters, in a lane for each recipient.
#[derive(Debug, Default)]
pub(super) struct Mailbag {
    lanes: HashMap<Arc<str>, Lane>,
    /// The first letter of each lane and those set aside, the one to go first
    /// first.
    agenda: BTreeSet<(Turn, Arc<str>)>,
    /// Lanes that no snapshot holds as they are.
    dirty: HashSet<Arc<str>>,
}

/// When it is a letter's turn: fresh ones first, older ones first among those.
type Turn = (Option<Timestamp>, LetterNumber);

/// The instants that letters wait for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Instants {
    /// By the time of day: what waits for the morning.
    pub wall: Timestamp,
    /// By the time that has passed: what waits for its next try.
    pub passed: Timestamp,
}

impl Instants {
    /// Both the same.
    pub fn at(now: Timestamp) -> Self {
        Self { wall: now, passed: now }
    }
}

/// The letters to one recipient. They go out one after the other, but for those
/// that were refused: none waits for them.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct Lane {
    to: String,
    waiting: BTreeMap<LetterNumber, Waiting>,
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    aside: BTreeMap<LetterNumber, Waiting>,
    dead: BTreeMap<LetterNumber, Dead>,
}

/// A letter that waits for its next try.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
struct Waiting {
    #[serde(default, skip_serializing_if = "is_zero")]
    tries: u32,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    next: Option<Timestamp>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    why: Option<Box<str>>,
}

/// A letter whose last try failed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
struct Dead {
    tries: u32,
    at: Timestamp,
    why: Box<str>,
}

/// A letter whose turn it is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Due {
    /// Which letter.
    pub number: LetterNumber,
    /// To whom.
    pub to: Arc<str>,
    /// Tries that failed so far.
    pub tries: u32,
}

/// A letter that is not delivered, for people to look at.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Undelivered {
    /// Which letter.
    pub number: LetterNumber,
    /// To whom.
    pub to: String,
    /// Tries that failed so far.
    pub tries: u32,
    /// Why the last one failed.
    pub why: Option<String>,
    /// How it stands.
    pub state: LetterState,
}

/// How an undelivered letter stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LetterState {
    /// It waits for this instant, or only for its turn.
    Waiting(Option<Timestamp>),
    /// Its last try failed at this instant.
    Dead(Timestamp),
}

/// What a lane's part of a snapshot is called before its recipient's digest.
pub(super) const LANE: &str = "outbox/";

impl Mailbag {
    /// Puts a new letter at the end of its recipient's lane, not to go out
    /// before it is due.
    pub fn post(&mut self, number: LetterNumber, to: &str, due: Option<Timestamp>) {
        self.change(to, |lane| {
            lane.waiting.insert(number, Waiting { next: due, ..Waiting::default() });
        });
    }

    /// Applies what happened to a letter. One that isn't here is passed over.
    pub fn apply(&mut self, event: &LetterEvent) {
        match event {
            LetterEvent::Delivered { to, letter } => self.change(to, |lane| {
                lane.take(letter);
            }),
            LetterEvent::Failed { to, letter, next, why, aside } => self.change(to, |lane| {
                let was_aside = lane.aside.contains_key(letter);
                let Some(mut waiting) = lane.take(letter) else { return };
                waiting.tries += 1;
                waiting.next = Some(*next);
                waiting.why = Some(why.as_str().into());
                let those = if *aside || was_aside { &mut lane.aside } else { &mut lane.waiting };
                those.insert(*letter, waiting);
            }),
            LetterEvent::Died { to, letter, at, why } => self.change(to, |lane| {
                if let Some(waiting) = lane.take(letter) {
                    let (tries, why) = (waiting.tries + 1, why.as_str().into());
                    lane.dead.insert(*letter, Dead { tries, at: *at, why });
                }
            }),
            LetterEvent::Withdrawn => {}
            LetterEvent::Retried { letter } => {
                for to in self.lanes.keys().cloned().collect::<Vec<_>>() {
                    self.change(&to, |lane| lane.retry(*letter));
                }
            }
        }
    }

    /// At most `most` letters whose turn it is: the first of each lane that is `free`,
    /// from entries up to `through`.
    pub fn due(
        &self,
        at: Instants,
        through: u64,
        free: impl Fn(&str) -> bool,
        most: usize,
    ) -> Vec<Due> {
        let latest = at.wall.max(at.passed);
        let mut lanes = HashSet::new();
        self.agenda
            .iter()
            .take_while(|((next, _), _)| next.is_none_or(|next| next <= latest))
            .filter(|((_, number), to)| number.place <= through && free(to))
            .filter_map(|((next, number), to)| {
                let tries = self.lanes.get(to)?.waiting(number)?.tries;
                let now = if tries == 0 { at.wall } else { at.passed };
                let is_due = next.is_none_or(|next| next <= now);
                is_due.then(|| Due { number: *number, to: Arc::clone(to), tries })
            })
            .filter(|due| lanes.insert(Arc::clone(&due.to)))
            .take(most)
            .collect()
    }

    /// Lets no letter that failed wait beyond `longest` of its tries.
    pub fn rein_in(&mut self, now: Timestamp, longest: impl Fn(u32) -> Option<Timestamp>) {
        let late = |waiting: &Waiting| {
            let longest = longest(waiting.tries).unwrap_or(now);
            (waiting.tries > 0 && waiting.next > Some(longest)).then_some(longest)
        };
        for to in self.lanes.keys().cloned().collect::<Vec<_>>() {
            self.change(&to, |lane| {
                for waiting in lane.waiting.values_mut().chain(lane.aside.values_mut()) {
                    waiting.next = late(waiting).or(waiting.next);
                }
            });
        }
    }

    /// Every letter that is not delivered, in the order in which they were
    /// written.
    pub fn undelivered(&self) -> Vec<Undelivered> {
        let mut all: Vec<Undelivered> = self.lanes.values().flat_map(Lane::undelivered).collect();
        all.sort_by_key(|one| one.number);
        all
    }

    /// Whether a letter of this lane waits to be delivered.
    pub fn awaits(&self, letter: LetterNumber, lane: &str) -> bool {
        self.lanes.get(lane).is_some_and(|lane| lane.waiting(&letter).is_some())
    }

    /// How many wait.
    pub fn waiting(&self) -> usize {
        self.lanes.values().map(|lane| lane.waiting.len() + lane.aside.len()).sum()
    }

    /// The lanes that changed since the last call, under the names of their
    /// parts; none where a lane is empty.
    pub fn changed(&mut self) -> Vec<(String, Option<Lane>)> {
        std::mem::take(&mut self.dirty)
            .into_iter()
            .map(|to| (part_name(LANE, &to), self.lanes.get(&to).cloned()))
            .collect()
    }

    /// Drops a letter whose words are gone.
    pub fn withdraw(&mut self, letter: LetterNumber, lane: &str) {
        self.change(lane, |lane| {
            lane.take(&letter);
            lane.dead.remove(&letter);
        });
    }

    /// Marks every lane as changed.
    pub fn touch_all(&mut self) {
        self.dirty.extend(self.lanes.keys().cloned());
    }

    /// Takes over a lane from a snapshot.
    pub fn restore(&mut self, lane: Lane) {
        let to = lane.to.clone();
        self.change(&to, |empty| *empty = lane);
        self.dirty.remove(to.as_str());
    }

    fn change(&mut self, to: &str, change: impl FnOnce(&mut Lane)) {
        let (to, lane) = match self.lanes.get_key_value(to) {
            Some((to, _)) => (Arc::clone(to), self.lanes.entry(Arc::clone(to)).or_default()),
            None => {
                let to: Arc<str> = to.into();
                let lane = self.lanes.entry(Arc::clone(&to)).or_default();
                lane.to = to.to_string();
                (to, lane)
            }
        };
        let before: BTreeSet<Turn> = lane.turns().collect();
        change(lane);
        let after: BTreeSet<Turn> = lane.turns().collect();
        let empty = after.is_empty() && lane.dead.is_empty();
        for turn in before.difference(&after) {
            self.agenda.remove(&(*turn, Arc::clone(&to)));
        }
        self.agenda.extend(after.difference(&before).map(|turn| (*turn, Arc::clone(&to))));
        if empty {
            self.lanes.remove(&to);
        }
        self.dirty.insert(to);
    }
}

impl Lane {
    fn turns(&self) -> impl Iterator<Item = Turn> {
        let first = self.waiting.first_key_value().into_iter();
        first.chain(&self.aside).map(|(number, waiting)| (waiting.next, *number))
    }

    fn waiting(&self, number: &LetterNumber) -> Option<&Waiting> {
        self.waiting.get(number).or_else(|| self.aside.get(number))
    }

    fn take(&mut self, number: &LetterNumber) -> Option<Waiting> {
        self.waiting.remove(number).or_else(|| self.aside.remove(number))
    }

    /// From the beginning, as if they had never been tried.
    fn retry(&mut self, letter: Option<LetterNumber>) {
        let asked = |number: &LetterNumber| letter.is_none_or(|letter| letter == *number);
        let (again, still): (BTreeMap<_, _>, BTreeMap<_, _>) =
            std::mem::take(&mut self.dead).into_iter().partition(|(number, _)| asked(number));
        self.dead = still;
        self.waiting.extend(again.into_keys().map(|number| (number, Waiting::default())));
        let all = self.waiting.iter_mut().chain(&mut self.aside);
        for (_, waiting) in all.filter(|(number, _)| asked(number)) {
            *waiting = Waiting::default();
        }
    }

    fn undelivered(&self) -> impl Iterator<Item = Undelivered> {
        let all = self.waiting.iter().chain(&self.aside);
        let waiting = all.map(|(number, waiting)| Undelivered {
            number: *number,
            to: self.to.clone(),
            tries: waiting.tries,
            why: waiting.why.as_deref().map(str::to_owned),
            state: LetterState::Waiting(waiting.next),
        });
        let dead = self.dead.iter().map(|(number, dead)| Undelivered {
            number: *number,
            to: self.to.clone(),
            tries: dead.tries,
            why: Some(dead.why.to_string()),
            state: LetterState::Dead(dead.at),
        });
        waiting.chain(dead)
    }
}

/// What the part of a snapshot about one address is called. Addresses are longer
/// than a part's name may be, so it bears a digest.
pub(super) fn part_name(kind: &str, address: &str) -> String {
    let whole: [u8; 32] = Sha256::digest(address.as_bytes()).into();
    format!("{kind}{}", digest::hex(&whole[..16]))
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde hands over a reference")]
fn is_zero(number: &u32) -> bool {
    *number == 0
}

#[cfg(test)]
mod tests;
