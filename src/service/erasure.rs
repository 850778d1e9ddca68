//! Erasing a swimmer from all that is stored, at her wish.
//!
//! Two ways through the log: the first learns what was hers, the second writes
//! the log anew without it, every entry at its place and every message still
//! known by its id. It decides nothing: who is to be gone, stands in the log.

use std::collections::{BTreeMap, BTreeSet, HashSet};

use jiff::Timestamp;

use super::letter::{Logged, numbers_in};
use super::record::Record;
use super::world::World;
use super::{Body, LetterEvent, LetterNumber, OpenError, Spoken, Via};
use crate::journal::{Entry, Journal, JournalError, Seq};
use crate::message::Name;
use crate::profile::{Event, Gone, SquadId, Unnamed};

/// Writes the journal anew without those who wished to be forgotten. Gives the
/// world as it then is. Blocks.
///
/// # Errors
/// The journal can't be read or written.
pub(super) fn erase(journal: &dyn Journal) -> Result<World, OpenError> {
    let wishes = Wishes::read(journal)?;
    let world = World::default();
    let mut eraser = Eraser { wishes, counts: BTreeMap::new(), withdrawn: HashSet::new() };
    let mut change = |seq: Seq, entry: Entry| {
        let damaged = |error: &dyn std::fmt::Display| JournalError::Damaged(error.to_string());
        let changed = eraser.change(seq.number(), entry).map_err(|error| damaged(&error))?;
        match Logged::read(&changed.body).map_err(|error| damaged(&error))? {
            Logged::Message(record) => world.take_in(seq.number(), &record),
            Logged::Letter(event) => world.apply(&event),
        }
        Ok(changed)
    };
    let mut parts = || world.whole().map_err(|error| JournalError::Damaged(error.to_string()));
    journal.rewrite(&mut change, &mut parts)?;
    Ok(world)
}

/// Who is to be gone, from which place on and up to which.
struct Wish {
    squad: SquadId,
    from: u64,
    until: u64,
    gone: Gone,
    /// Those of the addresses that wanted no texts when all this was forgotten.
    silent: BTreeSet<String>,
}

struct Wishes(Vec<Wish>);

impl Wishes {
    fn read(journal: &dyn Journal) -> Result<Self, OpenError> {
        let world = World::default();
        let mut wishes = Vec::new();
        let mut here: BTreeMap<(SquadId, Name), (u64, Gone)> = BTreeMap::new();
        for entry in journal.entries_after(None) {
            let (place, entry) = entry?;
            let Logged::Message(record) = Logged::read(&entry.body)? else { continue };
            // As it is after the message, for what is to be gone with it.
            world.take_in(place.number(), &record);
            let Some(squad) = &record.squad else { continue };
            for event in &record.events {
                if let Event::Joined { name, .. }
                | Event::Claimed { name, .. }
                | Event::GuestAdded { name, .. } = event
                {
                    let new = || (place.number(), Gone::new(name.clone()));
                    here.entry((squad.clone(), name.clone())).or_insert_with(new);
                }
                for (_, (_, gone)) in here.iter_mut().filter(|((of, _), _)| of == squad) {
                    gone.note(record.cause, event);
                }
                if let Event::Forgotten { who } = event
                    && let Some((from, gone)) = here.remove(&(squad.clone(), who.clone()))
                {
                    let until = place.number();
                    let out = |address: &&String| world.is_opted_out(address);
                    let silent = gone.addresses.iter().filter(out).cloned().collect();
                    wishes.push(Wish { squad: squad.clone(), from, until, gone, silent });
                }
            }
        }
        for wish in &mut wishes {
            wish.gone.shared = world.addresses_of(&wish.squad);
        }
        Ok(Self(wishes))
    }
}

struct Eraser {
    wishes: Wishes,
    /// How many messages of each wish are gone.
    counts: BTreeMap<usize, u64>,
    /// Letters whose words are gone.
    withdrawn: HashSet<LetterNumber>,
}

impl Eraser {
    fn change(&mut self, place: u64, entry: Entry) -> Result<Entry, super::RecordError> {
        match Logged::read(&entry.body)? {
            Logged::Message(record) => {
                let before: BTreeSet<_> = numbers_in(place, &record.replies).collect();
                let Some(record) = self.change_record(place, *record) else { return Ok(entry) };
                let after: BTreeSet<_> = numbers_in(place, &record.replies).collect();
                self.withdrawn.extend(before.difference(&after));
                let key = entry.key.map(|key| key.erased());
                Ok(Entry { key, body: record.write()? })
            }
            Logged::Letter(event) => {
                let gone = match &event {
                    LetterEvent::Delivered { letter, .. }
                    | LetterEvent::Failed { letter, .. }
                    | LetterEvent::Died { letter, .. } => self.withdrawn.contains(letter),
                    LetterEvent::Retried { .. } | LetterEvent::Withdrawn => false,
                };
                if !gone {
                    return Ok(entry);
                }
                Ok(Entry { key: None, body: LetterEvent::Withdrawn.write()? })
            }
        }
    }

    /// The record without those of its squad who are to be gone; `None` if it
    /// may stay as it is.
    fn change_record(&mut self, place: u64, record: Record) -> Option<Record> {
        let mut changed: Option<Record> = None;
        for (number, wish) in self.wishes.0.iter().enumerate() {
            let current = changed.as_ref().unwrap_or(&record);
            changed = wish.without_silences(place, current).or(changed);
            let current = changed.as_ref().unwrap_or(&record);
            let Some(less) = wish.less(place, current) else { continue };
            let count = self.counts.entry(number).or_default();
            *count += 1;
            let mut less = less;
            if place == wish.until {
                less.events.extend(wish.silences());
                less.events.push(Event::Erased { messages: *count });
            }
            changed = Some(less);
        }
        changed
    }
}

impl Wish {
    /// That those of her addresses want no texts is not forgotten.
    fn silences(&self) -> impl Iterator<Item = Event> {
        let of = |address: &String| Unnamed::of(&self.squad.0, address);
        self.silent.iter().map(move |address| Event::SilenceOutlives { of: of(address) })
    }

    /// The record without what it said, before the wish, of an address of hers that
    /// wants no texts; `None` where it said nothing of it. The word that took it
    /// back may be gone with her, and [`silences`](Self::silences) says what holds.
    fn without_silences(&self, place: u64, record: &Record) -> Option<Record> {
        let gone = &self.gone;
        let here = record.squad.as_ref() == Some(&self.squad);
        let of_hers = |event: &Event| match event {
            Event::SilenceOutlives { of } => gone.addresses.iter().any(|one| of.is(one)),
            Event::OptedOut { address } => here && gone.is_hers(address),
            _ => false,
        };
        if place >= self.until || !record.events.iter().any(of_hers) {
            return None;
        }
        let events = record.events.iter().filter(|event| !of_hers(event)).cloned().collect();
        Some(Record { events, ..record.clone() })
    }

    /// What is left of a record; `None` where nothing in it is hers.
    fn less(&self, place: u64, record: &Record) -> Option<Record> {
        let gone = &self.gone;
        let in_time = match &record.squad {
            Some(squad) => *squad == self.squad && (self.from..=self.until).contains(&place),
            // Before she joined she was a stranger.
            None => place <= self.until && gone.is_hers(&record.from),
        };
        if !in_time {
            return None;
        }
        let events: Vec<Event> = match record.squad {
            None => vec![],
            Some(_) => {
                let left = |event: &Event| gone.without(record.cause, event.clone());
                record.events.iter().filter_map(left).collect()
            }
        };
        let said = |text: &str| gone.is_named_in(text);
        let body_names_her = matches!(&record.body, Body::Text(text) if said(text));
        let reply_names_her =
            record.replies.iter().any(|reply| gone.is_hers(&reply.to) || said(&reply.text));
        let hers = gone.is_hers(&record.from);
        if !hers && !body_names_her && !reply_names_her && events == record.events {
            return None;
        }
        let is_wish = place == self.until;
        let of_care = events.iter().any(|event| matches!(event, Event::CareRecorded { .. }));
        let replies: Vec<Spoken> = record
            .replies
            .iter()
            .map(|reply| {
                let to_her = gone.addresses.contains(&reply.to);
                // What her wish was answered with names nobody, and is still to be
                // delivered where the channel gives no answers.
                let last = is_wish && to_her;
                match reply.via {
                    // Whoever is to be told of danger or harm still is.
                    Via::Outbox if of_care && !to_her => reply.clone(),
                    _ if said(&reply.text) => Spoken::nothing(),
                    Via::Outbox if last || !to_her => reply.clone(),
                    Via::Answer if last => {
                        Spoken { to: String::new(), room: None, thread: None, ..reply.clone() }
                    }
                    _ => Spoken::nothing(),
                }
            })
            .collect();
        // A letter that stays is known by when it was written.
        let stays = !events.is_empty() || replies.iter().any(|one| one.via == Via::Outbox);
        let nothing_left = |at: Timestamp| if stays { at } else { Timestamp::UNIX_EPOCH };
        Some(Record {
            v: record.v,
            squad: record.squad.clone(),
            cause: record.cause,
            from: if hers { String::new() } else { record.from.clone() },
            handle: if hers { None } else { record.handle.clone() },
            room: None,
            body: Body::Erased,
            sent_at: None,
            received: nothing_left(record.received),
            now: nothing_left(record.now),
            events,
            replies,
            understood: vec![],
            result: if is_wish { record.result.clone() } else { serde_json::Value::Null },
        })
    }
}
