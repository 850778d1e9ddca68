//! The alarms whose letters are not all delivered: a fold over the journal.
//!
//! Apart from the other letters, so that none of those stands before them. It
//! knows who is to be called and who was reached; not when to try, nor how.

use std::collections::BTreeMap;
use std::sync::Arc;

use jiff::{SignedDuration, Timestamp};
use serde::{Deserialize, Serialize};

use super::record::Record;
use super::{LetterEvent, LetterNumber, LetterState, Undelivered};
use crate::history::{Called, Event, SquadId};

/// The part of a snapshot that they are kept in.
pub(super) const ALARMS: &str = "alarms";

/// How long an alarm that there is nobody to call for is told of. Ours.
const TOLD: SignedDuration = SignedDuration::from_hours(24);

/// How long an alarm has before whoever raised it is told in passing that it
/// reached nobody. Ours.
const HAD_TIME: SignedDuration = SignedDuration::from_secs(10);

/// All alarms that have a letter to deliver, or that nobody is reached for.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct Alarms {
    open: BTreeMap<u64, Alarm>,
    /// No snapshot holds it as it is.
    #[serde(skip)]
    dirty: bool,
}

/// One alarm, by the place of the message that raised it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
struct Alarm {
    squad: Option<SquadId>,
    /// Who raised it.
    from: String,
    at: Timestamp,
    /// Of danger, as against a worry for the welfare officer.
    danger: bool,
    /// Letters that are not delivered.
    letters: BTreeMap<LetterNumber, (String, Called)>,
    /// Letters that can't be delivered any more, and why.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    dead: BTreeMap<LetterNumber, (String, Timestamp, String)>,
    /// Somebody who can help has it.
    reached: bool,
    /// Who raised it was told that nobody has it.
    noticed: bool,
    /// And was told so in an answer.
    #[serde(default)]
    told: bool,
}

/// One letter of an alarm that is to be delivered at once.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Call {
    /// The place of the message that raised the alarm.
    pub alarm: u64,
    /// Which letter.
    pub number: LetterNumber,
    /// To whom.
    pub to: Arc<str>,
    /// As what.
    pub called: Called,
}

/// An alarm that reached nobody who can help.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unheard {
    /// The place of the message that raised it.
    pub alarm: u64,
    /// In which squad.
    pub squad: Option<SquadId>,
    /// Who raised it.
    pub from: String,
    /// When.
    pub at: Timestamp,
    /// Of danger, as against a worry for the welfare officer.
    pub danger: bool,
    /// Who raised it was told.
    pub noticed: bool,
}

impl Alarms {
    /// Takes in the message at `place`, where it raises an alarm or speaks of
    /// one.
    pub fn note(&mut self, place: u64, record: &Record) {
        let letters = letters_in(place, record);
        let raised = record.events.iter().find_map(|event| match event {
            Event::AlarmRaised { known, alone } => Some((*known, *alone)),
            _ => None,
        });
        let of = record.events.iter().find_map(|event| match event {
            Event::AlarmUnheard { alarm } => Some(*alarm),
            _ => None,
        });
        if let Some(of) = of {
            let Some(alarm) = self.open.get_mut(&of) else { return };
            alarm.noticed = true;
            if !alarm.reached {
                alarm.letters.extend(letters);
            }
            self.dirty = true;
            return;
        }
        let told = record.events.iter().filter_map(|event| match event {
            Event::AlarmTold { alarm } => self.open.remove(alarm).map(|open| (*alarm, open)),
            _ => None,
        });
        for (place, alarm) in told.collect::<Vec<_>>() {
            self.open.insert(place, Alarm { told: true, ..alarm });
            self.dirty = true;
        }
        let letters: BTreeMap<_, _> = letters.collect();
        if raised.is_none() && letters.is_empty() {
            return;
        }
        let alarm = Alarm {
            squad: record.squad.clone(),
            from: record.from.clone(),
            at: record.received,
            danger: raised.is_some(),
            letters,
            dead: BTreeMap::new(),
            reached: raised.is_some_and(|(known, _)| known),
            noticed: raised.is_some_and(|(_, alone)| alone),
            told: raised.is_some_and(|(_, alone)| alone),
        };
        if !(alarm.reached && alarm.letters.is_empty()) {
            self.open.insert(place, alarm);
        }
        let since = record.received - TOLD;
        self.open.retain(|_, alarm| !alarm.is_over(since));
        self.dirty = true;
    }

    /// Applies what happened to a letter; false for one that is no alarm's.
    pub fn apply(&mut self, event: &LetterEvent) -> bool {
        let number = match event {
            LetterEvent::Delivered { letter, .. }
            | LetterEvent::Failed { letter, .. }
            | LetterEvent::Died { letter, .. } => *letter,
            LetterEvent::Withdrawn | LetterEvent::Retried { .. } => return false,
        };
        let holds = |alarm: &Alarm| alarm.letters.contains_key(&number);
        let Some((&place, _)) = self.open.iter().find(|(_, alarm)| holds(alarm)) else {
            return false;
        };
        let Some(alarm) = self.open.get_mut(&place) else { return false };
        self.dirty = true;
        match event {
            LetterEvent::Delivered { .. } => alarm.delivered(number),
            LetterEvent::Died { at, why, .. } => {
                if let Some((to, _)) = alarm.letters.remove(&number) {
                    alarm.dead.insert(number, (to, *at, why.clone()));
                }
            }
            _ => {}
        }
        if alarm.reached && alarm.letters.is_empty() {
            self.open.remove(&place);
        }
        true
    }

    /// Every letter to be delivered, up to a place in the log, in the order in
    /// which the alarms were raised.
    pub fn calls(&self, through: u64) -> Vec<Call> {
        let all = self.open.iter().flat_map(|(place, alarm)| {
            alarm.letters.iter().map(|(number, (to, called))| Call {
                alarm: *place,
                number: *number,
                to: to.as_str().into(),
                called: *called,
            })
        });
        all.filter(|call| call.number.place <= through).collect()
    }

    /// The alarms that reached nobody who can help, as known at `now`, the
    /// oldest first.
    pub fn unheard(&self, now: Timestamp) -> Vec<Unheard> {
        let open = self.open.iter().filter(|(_, alarm)| !alarm.is_over(now - TOLD));
        open.filter(|(_, alarm)| !alarm.reached)
            .map(|(place, alarm)| alarm.unheard(*place))
            .collect()
    }

    /// The last alarm of danger that this address raised and was not told of in an
    /// answer, if it has reached nobody and had the time to.
    pub fn unheard_of(&self, from: &str, now: Timestamp) -> Option<u64> {
        let due = |alarm: &Alarm| alarm.noticed || now.duration_since(alarm.at) >= HAD_TIME;
        let theirs = |alarm: &Alarm| alarm.danger && !alarm.told && alarm.from == from;
        let open = self.open.iter().rev().filter(|(_, alarm)| !alarm.reached && theirs(alarm));
        open.filter(|(_, alarm)| due(alarm)).map(|(place, _)| *place).next()
    }

    /// Whether a letter waits to be delivered.
    pub fn awaits(&self, letter: LetterNumber) -> bool {
        self.open.values().any(|alarm| alarm.letters.contains_key(&letter))
    }

    /// Whether whoever raised an alarm has still to be told that nobody is reached.
    pub fn is_untold(&self, alarm: u64) -> bool {
        self.open.get(&alarm).is_some_and(|alarm| !alarm.noticed && !alarm.reached)
    }

    /// How many letters wait.
    pub fn waiting(&self) -> usize {
        self.open.values().map(|alarm| alarm.letters.len()).sum()
    }

    /// Every letter that is not delivered.
    pub fn undelivered(&self) -> impl Iterator<Item = Undelivered> {
        let waiting = |(number, (to, _)): (&LetterNumber, &(String, Called))| Undelivered {
            number: *number,
            to: to.clone(),
            tries: 0,
            why: None,
            state: LetterState::Waiting(None),
        };
        let dead = |(number, (to, at, why)): (&LetterNumber, &(String, Timestamp, String))| {
            let (to, why) = (to.clone(), Some(why.clone()));
            Undelivered { number: *number, to, tries: 0, why, state: LetterState::Dead(*at) }
        };
        self.open.values().flat_map(move |alarm| {
            alarm.letters.iter().map(waiting).chain(alarm.dead.iter().map(dead))
        })
    }

    /// Drops a letter whose words are gone.
    pub fn withdraw(&mut self, letter: LetterNumber) {
        let holds =
            |alarm: &Alarm| alarm.letters.contains_key(&letter) || alarm.dead.contains_key(&letter);
        for alarm in self.open.values_mut().filter(|alarm| holds(alarm)) {
            alarm.letters.remove(&letter);
            alarm.dead.remove(&letter);
            self.dirty = true;
        }
    }

    /// Forgets that this address raised alarms in a squad.
    pub fn forget(&mut self, address: &str, squad: &SquadId) {
        let theirs = |alarm: &Alarm| alarm.from == address && alarm.squad.as_ref() == Some(squad);
        for alarm in self.open.values_mut().filter(|alarm| theirs(alarm)) {
            alarm.from.clear();
            self.dirty = true;
        }
    }

    /// Marks all of it as changed.
    pub fn touch_all(&mut self) {
        self.dirty = true;
    }

    /// What a snapshot keeps, where it changed since the last call.
    pub fn changed(&mut self) -> Option<Alarms> {
        std::mem::take(&mut self.dirty).then(|| self.clone())
    }
}

impl Alarm {
    fn delivered(&mut self, number: LetterNumber) {
        let Some((_, called)) = self.letters.remove(&number) else { return };
        if !called.is_help() {
            return;
        }
        self.reached = true;
        // Who was only to be called while nobody had it, needs not know.
        self.letters.retain(|_, (_, other)| {
            *other != Called::Sender && !Called::ALL.into_iter().any(|one| other.waits_for(one))
        });
    }

    /// Nobody is there to be called, and that was told for long enough.
    fn is_over(&self, since: Timestamp) -> bool {
        self.letters.is_empty() && self.at < since
    }

    fn unheard(&self, place: u64) -> Unheard {
        Unheard {
            alarm: place,
            squad: self.squad.clone(),
            from: self.from.clone(),
            at: self.at,
            danger: self.danger,
            noticed: self.noticed,
        }
    }
}

fn letters_in(
    place: u64,
    record: &Record,
) -> impl Iterator<Item = (LetterNumber, (String, Called))> {
    (0..=u16::MAX).zip(&record.replies).filter_map(move |(index, reply)| {
        let called = reply.alarm?;
        Some((LetterNumber { place, index }, (reply.to.clone(), called)))
    })
}

#[cfg(test)]
mod tests;
