//! Who reads along where a swimmer is a minor, and what waits for the morning.
//!
//! Strictest common rule of published safeguarding policies: a guardian enrols
//! and reads along; nobody under 16 is written to; a second adult reads along
//! when a grown-up writes; nothing but danger and pain is answered between
//! 20:00 and 08:00. Local rules come first.

use jiff::{Timestamp, ToSpan};

use super::guardians::copy_of;
use crate::desk::decision::decided::{Held, Say};
use crate::desk::decision::desk::Desk;
use crate::desk::decision::refusing::refused;
use crate::desk::decision::view::View;
use crate::history::{AgeGroup, CareKind, Event, Right};
use crate::message::Name;
use crate::reply::{CareLetter, CareRefusal, Outcome, RefusedWhy};

/// From this local hour on a minor is not written to.
const EVENING: i8 = 20;

/// From this local hour on they are again.
const MORNING: i8 = 8;

impl Desk<'_> {
    /// True if danger or pain is what this message is about: said at any hour.
    fn is_urgent(&self) -> bool {
        self.private
            || self.danger.is_some()
            || self.events.iter().any(|event| {
                use crate::history::TroubleKind::{Faint, Pain};
                matches!(event, Event::TroubleOpened { trouble: Faint | Pain { .. }, .. })
            })
    }

    /// Adds who reads along, takes away what may not be said, and says what
    /// waits. `text` is what the sender is to be told of the outcome.
    pub fn read_along(&mut self, outcome: &Outcome, text: &str) -> (Held, Option<Outcome>) {
        let mut held = Held::default();
        let urgent = self.is_urgent();
        let refused = self.letters_to_minors(&mut held);
        // Of what is told in private, not even the answer leaves a trace.
        if !self.private {
            self.copy_to_guardian(outcome, text, urgent, &mut held);
        }
        self.come_of_age();
        let night = self.until_morning().filter(|_| held.answer || !held.to.is_empty());
        held.until = night;
        if held.until.is_none() {
            held = Held::default();
        }
        (held, refused)
    }

    /// What others write to minors.
    fn letters_to_minors(&mut self, held: &mut Held) -> Option<Outcome> {
        let staff = self.may(Right::RunEvening);
        let mut held_back = None;
        let mut letters = Vec::new();
        for say in std::mem::take(&mut self.to_others) {
            // Help is called of whoever can help.
            if say.alarm.is_some() {
                letters.push(say);
                continue;
            }
            let to = say.to.clone().unwrap_or_default();
            let minor = self.squad.swimmer_at(&to).filter(|swimmer| {
                let own = swimmer.guard.as_ref().is_none_or(|guard| guard.address != to);
                own && self.age_group(swimmer) != AgeGroup::Adult
            });
            let Some(minor) = minor else {
                letters.push(say);
                continue;
            };
            let (name, group) = (minor.name.clone(), self.age_group(minor));
            let guardian = self.guardian_who_reads(&name);
            // One who is the guardian is no second grown-up.
            let second = self.second_adult(&[&to, guardian.as_deref().unwrap_or_default()]);
            let Some(guardian) = guardian.filter(|_| !staff || second.is_some()) else {
                let why = CareRefusal::NoSecondAdult { who: name };
                held_back = Some(*refused("second_adult", RefusedWhy::Care(why)));
                continue;
            };
            let mut readers = vec![guardian];
            readers.extend(second.filter(|_| staff));
            for reader in readers {
                let copy = copy_of(self.voice_for(&reader), &name, &say.text);
                held.to.push(reader.clone());
                letters.push(Say::to(reader, copy));
            }
            if group == AgeGroup::Older {
                let what = CareKind::ToMinor { words: say.text.clone() };
                self.record(Event::CareRecorded { who: Some(name), what });
                held.to.push(to);
                letters.push(say);
            }
        }
        self.to_others = letters;
        held_back
    }

    /// What was read of a minor's text and what they are told, as far as the table of
    /// [`who_hears`](super::who_hears) has it for a guardian.
    fn copy_to_guardian(&mut self, outcome: &Outcome, text: &str, urgent: bool, held: &mut Held) {
        let Some(name) = self.minor_or_grown_up().cloned() else { return };
        let Some(guardian) = self.guardian_of(&name).map(|guard| guard.address.clone()) else {
            return;
        };
        if guardian == self.asked.from || text.is_empty() {
            return;
        }
        // By night all but danger and pain waits, copied or not.
        held.answer |= !urgent;
        if let Some(words) = self.for_guardian(outcome, text, self.voice()) {
            if !urgent {
                held.to.push(guardian.clone());
            }
            let text = copy_of(self.voice_for(&guardian), &name, &words);
            self.write_to(guardian, text);
        }
        let what = CareKind::ToMinor { words: text.to_owned() };
        self.record(Event::CareRecorded { who: Some(name), what });
    }

    /// Who is of age is told so, and so is the guardian; then nothing is copied
    /// any more.
    fn come_of_age(&mut self) {
        let Some(name) = self.minor_or_grown_up().cloned() else { return };
        if self.is_minor(&name) {
            return;
        }
        let Some(guardian) = self.guardian_of(&name).map(|guard| guard.address.clone()) else {
            return;
        };
        let letter = CareLetter::OfAge { who: name.clone() };
        for to in [guardian, self.asked.from.to_owned()] {
            let text = self.voice_for(&to).care_letter(&letter);
            self.write_to(to, text);
        }
        self.record(Event::CameOfAge { who: name });
    }
}

impl View<'_> {
    /// The sender, if a guardian still reads along.
    fn minor_or_grown_up(&self) -> Option<&Name> {
        let name = self.member()?.name.as_ref()?;
        self.guardian_of(name).map(|_| name)
    }

    /// The next morning, if it is night.
    fn until_morning(&self) -> Option<Timestamp> {
        let local = self.now().to_zoned_datetime(self.squad.zone());
        let day = match local.hour() {
            EVENING.. => local.date().checked_add(1.day()).ok()?,
            ..MORNING => local.date(),
            _ => return None,
        };
        self.squad.zone().to_timestamp(day.at(MORNING, 0, 0, 0)).ok()
    }
}
