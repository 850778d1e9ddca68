//! Erasing a swimmer from all that is stored, at their wish, beside whatever else
//! goes on.
//!
//! Their squad's entries are read once to learn what was theirs, and once more to count it;
//! then they, and what they said before they joined, are written anew without it, every entry
//! at its place and every message still known by its id. It decides nothing: the log says who
//! is to be forgotten.

use std::collections::{BTreeMap, BTreeSet};

use jiff::Timestamp;
use serde::{Deserialize, Serialize};

use super::happened::Happened;
use super::letter::{self, Logged, lanes_in};
use super::record::Record;
use super::scrub::scrubbed;
use super::{Body, LetterEvent, LetterNumber, OpenError, Spoken, Via, streams};
use crate::background;
use crate::history::{Event, Gone, SquadId, Unnamed};
use crate::journal::{Entry, Journal, JournalError, Placed, StreamId};
use crate::message::Name;

/// What events are called that tell who wants no texts: they are looked for in all that a
/// squad's log holds.
const SILENCES: [&str; 2] = ["opted_out", "silence_outlives"];

/// Who is to be gone, from which place on and up to which.
#[derive(Debug, Clone, Serialize, Deserialize)]
struct Wish {
    squad: SquadId,
    from: u64,
    until: u64,
    gone: Gone,
    /// How many messages go.
    messages: u64,
    /// Those of the addresses that wanted no texts when this was planned.
    #[serde(default)]
    silent: BTreeSet<String>,
}

/// All that is to be erased, kept until it is done: the log alone could not tell what
/// is half erased.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
pub(super) struct Erasing {
    wishes: Vec<Wish>,
    /// Letters whose words go, and the lanes they are in.
    letters: BTreeMap<LetterNumber, String>,
}

impl Erasing {
    /// What is wished in these squads, whose people's addresses `people` tells;
    /// `wants_none` knows the addresses that asked for no texts.
    ///
    /// # Errors
    /// The journal can't be read.
    pub fn plan(
        journal: &dyn Journal,
        squads: &[SquadId],
        people: impl Fn(&SquadId) -> BTreeSet<String>,
        wants_none: impl Fn(&str) -> bool,
    ) -> Result<Erasing, OpenError> {
        let mut erasing = Erasing::default();
        for squad in squads {
            let mut wishes = wishes_in(journal, squad)?;
            let shared = people(squad);
            for wish in &mut wishes {
                wish.gone.shared.clone_from(&shared);
                let silent = wish.gone.addresses.iter().filter(|one| wants_none(one));
                wish.silent = silent.cloned().collect();
            }
            erasing.wishes.append(&mut wishes);
        }
        let mut counted = erasing.clone();
        for stream in erasing.told_streams() {
            for placed in journal.entries_of(&stream, 0) {
                background::rest();
                let placed = placed?;
                if !erasing.wishes.iter().any(|wish| wish.reaches(&placed)) {
                    continue;
                }
                let Logged::Message(record) = Logged::read(&placed.entry.body)? else { continue };
                counted.count(placed.place.number(), *record);
            }
        }
        Ok(counted)
    }

    /// Takes over what an earlier try had planned, and not finished.
    pub fn join(&mut self, earlier: Erasing) {
        let Erasing { wishes, letters } = earlier;
        for wish in wishes {
            let same = |one: &Wish| one.squad == wish.squad && one.until == wish.until;
            match self.wishes.iter_mut().find(|one| same(one)) {
                Some(one) => *one = wish,
                None => self.wishes.push(wish),
            }
        }
        self.letters.extend(letters);
    }

    /// True if nothing is to be erased.
    pub fn is_empty(&self) -> bool {
        self.wishes.is_empty()
    }

    /// Every stream that something is erased from.
    pub fn streams(&self) -> Vec<StreamId> {
        let lanes = self.letters.values().map(|lane| streams::of_lane(lane));
        self.told_streams().into_iter().chain(lanes).collect()
    }

    /// The squads that somebody is erased from.
    pub fn squads(&self) -> BTreeSet<SquadId> {
        self.wishes.iter().map(|wish| wish.squad.clone()).collect()
    }

    /// The letters whose words go, each with its lane.
    pub fn letters(&self) -> Vec<(LetterNumber, String)> {
        self.letters.iter().map(|(number, lane)| (*number, lane.clone())).collect()
    }

    /// The addresses of those who go.
    pub fn addresses(&self) -> BTreeSet<String> {
        self.each_address().map(|(_, address)| address.clone()).collect()
    }

    /// Every address of those who go, with the wish that it goes by.
    fn each_address(&self) -> impl Iterator<Item = (&Wish, &String)> {
        self.wishes
            .iter()
            .flat_map(|wish| wish.gone.addresses.iter().map(move |address| (wish, address)))
    }

    /// Those that were theirs alone.
    fn each_of_theirs(&self) -> impl Iterator<Item = (&Wish, &String)> {
        self.each_address().filter(|(wish, address)| wish.gone.is_theirs(address))
    }

    /// The addresses that were theirs alone, each with the squad that they go from.
    pub fn theirs(&self) -> Vec<(SquadId, String)> {
        let theirs = self.each_of_theirs();
        theirs.map(|(wish, address)| (wish.squad.clone(), address.clone())).collect()
    }

    /// The addresses of those who go, each with the squad that they go from.
    pub fn addresses_in_squads(&self) -> Vec<(SquadId, String)> {
        let all = self.each_address();
        all.map(|(wish, address)| (wish.squad.clone(), address.clone())).collect()
    }

    /// The streams of the squads, and of those who go before they joined.
    fn told_streams(&self) -> BTreeSet<StreamId> {
        let squads = self.wishes.iter().map(|wish| streams::of_squad(&wish.squad));
        let theirs = self.each_of_theirs().map(|(_, address)| streams::of_person(address));
        squads.chain(theirs).collect()
    }

    fn count(&mut self, place: u64, record: Record) {
        let before: BTreeMap<_, _> = letters(place, &record);
        let mut current = record;
        for wish in &mut self.wishes {
            if let Some(less) = wish.less(place, &current) {
                wish.messages += 1;
                current = less;
            }
        }
        let after = letters(place, &current);
        let gone = before.into_iter().filter(|(number, _)| !after.contains_key(number));
        self.letters.extend(gone);
    }

    /// What is to stand in an entry's place; `None` where it stays.
    ///
    /// # Errors
    /// It can't be read.
    pub fn change(&self, placed: &Placed) -> Result<Option<Entry>, JournalError> {
        let damaged = |error: super::RecordError| JournalError::Damaged(error.to_string());
        let entry = &placed.entry;
        if !self.may_change(placed) {
            return Ok(None);
        }
        match Logged::read(&entry.body).map_err(damaged)? {
            Logged::Message(record) => {
                let Some(less) = self.less(placed.place.number(), *record) else { return Ok(None) };
                let key = entry.key.as_ref().map(|key| key.erased());
                let (at, body) = (less.received, less.write().map_err(damaged)?);
                Ok(Some(Entry { stream: entry.stream.clone(), key, at, body }))
            }
            Logged::Letter(event) => {
                let gone = match &event {
                    LetterEvent::Delivered { letter, .. }
                    | LetterEvent::Failed { letter, .. }
                    | LetterEvent::Died { letter, .. } => self.letters.contains_key(letter),
                    LetterEvent::Retried { .. } | LetterEvent::Withdrawn => false,
                };
                let body = || LetterEvent::Withdrawn.write().map_err(damaged);
                let withdrawn = |body| Entry { key: None, body, ..entry.clone() };
                gone.then(body).transpose().map(|body| body.map(withdrawn))
            }
            Logged::Stated(parts) => {
                let of_squad = |wish: &&Wish| {
                    streams::of_squad(&wish.squad) == entry.stream
                        && placed.place.number() < wish.until
                };
                let mut gone = self.wishes.iter().filter(of_squad).map(|wish| &wish.gone);
                let less = gone.try_fold(parts, scrubbed);
                let less = less.map_err(|error| JournalError::Damaged(error.to_string()))?;
                let body = letter::stated(&less).map_err(damaged)?;
                Ok(Some(Entry { body, ..entry.clone() }))
            }
        }
    }

    /// False for a message of which it is seen without reading it that it stays as it is.
    fn may_change(&self, placed: &Placed) -> bool {
        let body = &placed.entry.body;
        letter::is_no_message(body)
            || self.wishes.iter().any(|wish| wish.reaches(placed))
            || str::from_utf8(body).is_ok_and(|body| SILENCES.iter().any(|one| body.contains(one)))
    }

    /// The record without those who are to be gone; `None` if it may stay as it is.
    fn less(&self, place: u64, record: Record) -> Option<Record> {
        let mut changed: Option<Record> = None;
        for wish in &self.wishes {
            let current = changed.as_ref().unwrap_or(&record);
            changed = wish.without_silences(place, current).or(changed);
            let current = changed.as_ref().unwrap_or(&record);
            let Some(mut less) = wish.less(place, current) else { continue };
            if place == wish.until {
                less.events.extend(wish.silences());
                less.events.push(Event::Erased { messages: wish.messages });
            }
            changed = Some(less);
        }
        changed
    }
}

/// The letters that a record holds, and the lanes they are in.
fn letters(place: u64, record: &Record) -> BTreeMap<LetterNumber, String> {
    lanes_in(place, &record.replies).map(|(number, lane)| (number, lane.into_owned())).collect()
}

/// Who wished to be forgotten in a squad, and what was theirs.
fn wishes_in(journal: &dyn Journal, squad: &SquadId) -> Result<Vec<Wish>, OpenError> {
    let mut wishes = Vec::new();
    let mut here: BTreeMap<Name, (u64, Gone)> = BTreeMap::new();
    for placed in journal.entries_of(&streams::of_squad(squad), 0) {
        let placed = placed?;
        let place = placed.place.number();
        background::rest();
        let Happened::Message(told) = Happened::read(&placed.entry.body)? else { continue };
        for event in &told.events {
            if let Event::Joined { name, .. }
            | Event::Claimed { name, .. }
            | Event::GuestAdded { name, .. } = event
            {
                here.entry(name.clone()).or_insert_with(|| (place, Gone::new(name.clone())));
            }
            for (_, gone) in here.values_mut() {
                gone.note(told.cause, event);
            }
            if let Event::Forgotten { who } = event
                && let Some((from, gone)) = here.remove(who)
            {
                let (squad, until) = (squad.clone(), place);
                wishes.push(Wish {
                    squad,
                    from,
                    until,
                    gone,
                    messages: 0,
                    silent: BTreeSet::new(),
                });
            }
        }
    }
    Ok(wishes)
}

impl Wish {
    /// That those of their addresses want no texts is not forgotten.
    fn silences(&self) -> impl Iterator<Item = Event> {
        let of = |address: &String| Unnamed::of(&self.squad.0, address);
        self.silent.iter().map(move |address| Event::SilenceOutlives { of: of(address) })
    }

    /// False for a message that holds nothing of theirs, by where it stands; what it says
    /// of who wants no texts is another matter.
    fn reaches(&self, placed: &Placed) -> bool {
        let place = placed.place.number();
        // Before they joined they were a stranger.
        let is_stranger = streams::squad_of(&placed.entry.stream).is_none();
        place <= self.until && (place >= self.from || is_stranger)
    }

    /// The record without what it said, before the wish, of an address of theirs that
    /// wants no texts; `None` where it said nothing of it. The message that took it
    /// back may be erased with them, so [`silences`](Self::silences) says what holds.
    fn without_silences(&self, place: u64, record: &Record) -> Option<Record> {
        let gone = &self.gone;
        let here = record.squad.as_ref() == Some(&self.squad);
        let of_hers = |event: &Event| match event {
            Event::SilenceOutlives { of } => gone.addresses.iter().any(|one| of.is(one)),
            Event::OptedOut { address } => here && gone.is_theirs(address),
            _ => false,
        };
        if place >= self.until || !record.events.iter().any(of_hers) {
            return None;
        }
        let events = record.events.iter().filter(|event| !of_hers(event)).cloned().collect();
        Some(Record { events, ..record.clone() })
    }

    /// What is left of a record; `None` where nothing in it is theirs.
    fn less(&self, place: u64, record: &Record) -> Option<Record> {
        let gone = &self.gone;
        let in_time = match &record.squad {
            Some(squad) => *squad == self.squad && (self.from..=self.until).contains(&place),
            // Before they joined they were a stranger.
            None => place <= self.until && gone.is_theirs(&record.from),
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
        let body_names_them = matches!(&record.body, Body::Text(text) if said(text));
        let reply_names_them =
            record.replies.iter().any(|reply| gone.is_theirs(&reply.to) || said(&reply.text));
        let theirs = gone.is_theirs(&record.from);
        if !theirs && !body_names_them && !reply_names_them && events == record.events {
            return None;
        }
        let is_wish = place == self.until;
        let of_care = events.iter().any(|event| matches!(event, Event::CareRecorded { .. }));
        let replies: Vec<Spoken> = record
            .replies
            .iter()
            .map(|reply| {
                let to_them = gone.addresses.contains(&reply.to);
                // What their wish was answered with names nobody, and is still to be
                // delivered where the channel gives no answers.
                let last = is_wish && to_them;
                match reply.via {
                    // Whoever is to be told of danger or harm still is.
                    Via::Outbox if of_care && !to_them => reply.clone(),
                    _ if said(&reply.text) => Spoken::nothing(),
                    Via::Outbox if last || !to_them => reply.clone(),
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
            from: if theirs { String::new() } else { record.from.clone() },
            handle: if theirs { None } else { record.handle.clone() },
            gone: record.gone.iter().filter(|one| !gone.is_theirs(one)).cloned().collect(),
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
