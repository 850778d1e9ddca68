//! All that is known, in memory: squads, and which address belongs to which.
//!
//! A squad is worked on by one message at a time; different squads side by
//! side. It can be rebuilt from the journal at any time.

use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError, RwLock};

use jiff::Timestamp;
use serde::de::DeserializeOwned;

use super::LetterEvent;
use super::alarms::{self, Alarms};
use super::directory::Directory;
use super::handles::{self, Handle, Handles};
use super::letter::{self, Logged};
use super::mailbag::{self, Lane, Mailbag};
use super::record::{Record, RecordError};
use crate::journal::{Journal, JournalError, Part};
use crate::message::Name;
use crate::profile::{Event, Squad, SquadId, Strangers, Swimmer, Touched};

/// A squad, and which parts of it no snapshot holds yet.
pub(super) struct Room {
    /// The squad.
    pub squad: Squad,
    dirty: Dirty,
}

#[derive(Default)]
struct Dirty {
    head: bool,
    swimmers: BTreeSet<Name>,
}

/// All squads and strangers, and the letters to be delivered.
#[derive(Default)]
pub(super) struct World {
    squads: RwLock<HashMap<SquadId, Arc<Mutex<Room>>>>,
    directory: RwLock<Directory>,
    strangers: Mutex<Strangers>,
    mailbag: Mutex<Mailbag>,
    alarms: Mutex<Alarms>,
    handles: Mutex<Handles>,
}

/// A part of a snapshot, not yet written out.
pub(super) enum Picture {
    /// A squad without its swimmers.
    Head(Box<Squad>),
    /// A swimmer.
    Swimmer(Arc<Swimmer>),
    /// What is no longer there: leaves an empty part.
    Gone,
    /// The letters to one recipient.
    Lane(Lane),
    /// The alarms that are open.
    Alarms(Alarms),
    /// Those in no squad, and all that opted out.
    Strangers(Strangers),
    /// What a channel calls someone.
    Handle(Handle),
    /// Which of several squads addresses mean.
    Hands(BTreeMap<String, SquadId>),
}

impl Picture {
    /// The picture as bytes.
    pub fn write(&self) -> Result<Vec<u8>, serde_json::Error> {
        match self {
            Picture::Head(squad) => serde_json::to_vec(squad.as_ref()),
            Picture::Swimmer(swimmer) => serde_json::to_vec(swimmer.as_ref()),
            Picture::Gone => Ok(Vec::new()),
            Picture::Lane(lane) => serde_json::to_vec(lane),
            Picture::Alarms(alarms) => serde_json::to_vec(alarms),
            Picture::Strangers(strangers) => serde_json::to_vec(strangers),
            Picture::Handle(handle) => serde_json::to_vec(handle),
            Picture::Hands(hands) => serde_json::to_vec(hands),
        }
    }
}

/// Why the world could not be rebuilt.
#[derive(Debug, thiserror::Error)]
pub enum OpenError {
    /// The journal failed.
    #[error(transparent)]
    Journal(#[from] JournalError),
    /// A stored message can't be read.
    #[error(transparent)]
    Record(#[from] RecordError),
    /// A snapshot can't be read.
    #[error("the snapshot `{name}` can't be read: {error}")]
    Snapshot {
        /// The part.
        name: String,
        /// What was wrong with it.
        error: serde_json::Error,
    },
}

const HEAD: &str = "squad/";
const SWIMMER: &str = "swimmer/";
const STRANGERS: &str = "strangers";
const HANDS: &str = "hands";

impl World {
    /// Rebuilds all from the latest snapshot and what came after it.
    pub fn rebuild(journal: &dyn Journal) -> Result<Self, OpenError> {
        let world = World::default();
        let snapshot = journal.snapshot()?;
        // Heads sort before swimmers, so every swimmer finds her squad.
        for part in &snapshot.parts {
            world.restore(part)?;
        }
        for entry in journal.entries_after(snapshot.through) {
            let (place, entry) = entry?;
            match Logged::read(&entry.body)? {
                Logged::Message(record) => world.take_in(place.number(), &record),
                Logged::Letter(event) => world.apply(&event),
            }
        }
        Ok(world)
    }

    /// Takes in a message that stands in the log at `place`.
    pub fn take_in(&self, place: u64, record: &Record) {
        self.replay(record);
        self.post(place, record);
    }

    /// True if someone wished to be forgotten and is still in the log.
    pub fn is_to_erase(&self) -> bool {
        read(&self.squads).values().any(|room| lock(room).squad.to_erase)
    }

    /// The addresses of a squad's people.
    pub fn addresses_of(&self, id: &SquadId) -> BTreeSet<String> {
        let room = self.room(id);
        room.map(|room| lock(&room).squad.members.keys().cloned().collect()).unwrap_or_default()
    }

    /// All of it, as the parts of a snapshot in which nothing else is. No
    /// message may be decided meanwhile.
    pub fn whole(&self) -> Result<Vec<Part>, serde_json::Error> {
        self.changed()
            .into_iter()
            .filter(|(_, picture)| !matches!(picture, Picture::Gone))
            .map(|(name, picture)| Ok(Part { name, bytes: picture.write()? }))
            .collect()
    }

    /// The squads that an address is in.
    pub fn squads_of(&self, address: &str) -> Vec<SquadId> {
        read(&self.directory).squads_of(address).to_vec()
    }

    /// The squad that an address means where it names none.
    pub fn in_hand(&self, address: &str) -> Option<SquadId> {
        read(&self.directory).in_hand(address).cloned()
    }

    /// The squad that asked an address in last.
    pub fn inviting(&self, address: &str) -> Option<SquadId> {
        read(&self.directory).inviting(address).cloned()
    }

    /// The squad that a code opens.
    pub fn squad_by_code(&self, code: &str) -> Option<SquadId> {
        read(&self.directory).by_code(code).cloned()
    }

    /// The squad of which a page with this digest was opened, and its room.
    pub fn squad_by_board(&self, digest: &str) -> Option<(SquadId, Arc<Mutex<Room>>)> {
        let id = read(&self.directory).by_board(digest).cloned()?;
        let room = self.room(&id)?;
        Some((id, room))
    }

    /// Every squad.
    pub fn ids(&self) -> Vec<SquadId> {
        read(&self.squads).keys().cloned().collect()
    }

    /// The room of a squad.
    pub fn room(&self, id: &SquadId) -> Option<Arc<Mutex<Room>>> {
        read(&self.squads).get(id).cloned()
    }

    /// The strangers, to be worked on by one message at a time.
    pub fn strangers(&self) -> MutexGuard<'_, Strangers> {
        lock(&self.strangers)
    }

    /// True if this address has opted out, in whatever squad.
    pub fn is_opted_out(&self, address: &str) -> bool {
        self.strangers().is_opted_out(address)
    }

    /// Takes in what a squad's events say of who wants texts, of a message by `by`
    /// that was received at an instant.
    pub fn hear(&self, by: &str, received: Timestamp, events: &[Event]) {
        let mut strangers = self.strangers();
        events.iter().for_each(|event| strangers.hear(by, received, event));
    }

    /// The letters that are not delivered.
    pub fn mailbag(&self) -> MutexGuard<'_, Mailbag> {
        lock(&self.mailbag)
    }

    /// The alarms that are open.
    pub fn alarms(&self) -> MutexGuard<'_, Alarms> {
        lock(&self.alarms)
    }

    /// What channels call people.
    pub fn handles(&self) -> MutexGuard<'_, Handles> {
        lock(&self.handles)
    }

    /// Takes in the letters of the message at `place`, the alarm that it raises,
    /// and what its channel calls its sender.
    pub fn post(&self, place: u64, record: &Record) {
        for (number, to, due) in letter::letters_in(place, &record.replies) {
            self.mailbag().post(number, &to, due);
        }
        self.alarms().note(place, record);
        self.handles().note(record);
    }

    /// Applies what happened to a letter.
    pub fn apply(&self, event: &LetterEvent) {
        if !self.alarms().apply(event) {
            self.mailbag().apply(event);
        }
    }

    /// Opens the room of a squad that is about to be.
    pub fn open(&self, id: &SquadId) -> Arc<Mutex<Room>> {
        let mut squads = self.squads.write().unwrap_or_else(PoisonError::into_inner);
        Arc::clone(squads.entry(id.clone()).or_insert_with(|| {
            Arc::new(Mutex::new(Room {
                squad: Squad::unopened(id.clone()),
                dirty: Dirty::default(),
            }))
        }))
    }

    /// Makes who joined or opened a squad findable.
    pub fn register(&self, id: &SquadId, events: &[Event]) {
        let mut directory = self.directory.write().unwrap_or_else(PoisonError::into_inner);
        events.iter().for_each(|event| directory.note(id, event));
    }

    /// Drops those who were members `before` and are no longer.
    pub fn let_go(&self, id: &SquadId, before: &BTreeSet<String>, squad: &Squad) {
        let gone = before.iter().filter(|address| !squad.members.contains_key(*address));
        gone.for_each(|address| self.unregister(id, address));
    }

    /// Drops an address from a squad that it is no longer in.
    fn unregister(&self, id: &SquadId, address: &str) {
        let mut directory = self.directory.write().unwrap_or_else(PoisonError::into_inner);
        if directory.leave(address, id) {
            self.strangers().let_go(address);
        }
    }

    /// Pictures of what changed since the last call, as of this instant. No
    /// message may be decided meanwhile; writing them out can wait.
    pub fn changed(&self) -> Vec<(String, Picture)> {
        let mut pictures = vec![
            (STRANGERS.to_owned(), Picture::Strangers(self.strangers().clone())),
            (HANDS.to_owned(), Picture::Hands(read(&self.directory).hands().clone())),
        ];
        for (id, room) in read(&self.squads).iter() {
            let mut room = lock(room);
            let dirty = std::mem::take(&mut room.dirty);
            if dirty.head {
                let head = Squad {
                    swimmers: Default::default(),
                    former: Default::default(),
                    ..room.squad.clone()
                };
                pictures.push((format!("{HEAD}{}", id.0), Picture::Head(Box::new(head))));
            }
            for name in dirty.swimmers {
                let picture = match room.squad.ever_swam(&name) {
                    Some(swimmer) => Picture::Swimmer(Arc::clone(swimmer)),
                    None => Picture::Gone,
                };
                pictures.push((format!("{SWIMMER}{}/{name}", id.0), picture));
            }
        }
        let lanes = self.mailbag().changed();
        pictures.extend(
            lanes.into_iter().map(|(name, lane)| (name, lane.map_or(Picture::Gone, Picture::Lane))),
        );
        let alarms = self.alarms().changed();
        pictures.extend(alarms.map(|kept| (alarms::ALARMS.to_owned(), Picture::Alarms(kept))));
        let handles = self.handles().changed();
        pictures.extend(handles.into_iter().map(|(name, kept)| (name, Picture::Handle(kept))));
        pictures
    }

    fn restore(&self, part: &Part) -> Result<(), OpenError> {
        if part.bytes.is_empty() {
            return Ok(());
        }
        if part.name == STRANGERS {
            *self.strangers() = from_part(part)?;
        } else if part.name == HANDS {
            let hands = from_part(part)?;
            self.directory.write().unwrap_or_else(PoisonError::into_inner).take_hands(hands);
        } else if part.name == alarms::ALARMS {
            *self.alarms() = from_part(part)?;
        } else if part.name.starts_with(mailbag::LANE) {
            self.mailbag().restore(from_part(part)?);
        } else if part.name.starts_with(handles::HANDLE) {
            self.handles().restore(from_part(part)?);
        } else if let Some(id) = part.name.strip_prefix(HEAD) {
            let squad: Squad = from_part(part)?;
            let id = SquadId(id.to_owned());
            self.directory.write().unwrap_or_else(PoisonError::into_inner).restore(&id, &squad);
            lock(&self.open(&id)).squad = squad;
        } else if let Some((id, _)) =
            part.name.strip_prefix(SWIMMER).and_then(|rest| rest.split_once('/'))
        {
            let swimmer: Swimmer = from_part(part)?;
            let room = self.open(&SquadId(id.to_owned()));
            let squad = &mut lock(&room).squad;
            let those = match swimmer.left {
                None => &mut squad.swimmers,
                Some(_) => &mut squad.former,
            };
            those.insert(swimmer.name.clone(), Arc::new(swimmer));
        }
        Ok(())
    }

    fn replay(&self, record: &Record) {
        let Some(id) = &record.squad else {
            let mut strangers = self.strangers();
            record.stamped().for_each(|event| strangers.apply(&event));
            return;
        };
        let room = self.open(id);
        let mut room = lock(&room);
        let before = room.belonging_before(&record.events);
        for event in record.stamped() {
            let touched = room.squad.apply(&event);
            room.touch(touched);
        }
        room.squad.next_cause = room.squad.next_cause.max(record.cause + 1);
        room.squad.as_of = Some(record.now);
        room.dirty.head = true;
        self.register(id, &record.events);
        self.let_go(id, &before, &room.squad);
        drop(room);
        self.hear(&record.from, record.received, &record.events);
    }
}

impl Room {
    /// Those who belong to the squad before these events, where one of them may
    /// end that for somebody; few do.
    pub fn belonging_before(&self, events: &[Event]) -> BTreeSet<String> {
        let ends = |event: &Event| {
            matches!(
                event,
                Event::Forgotten { .. } | Event::SwimmerLeft { .. } | Event::AccessEnded { .. }
            )
        };
        match events.iter().any(ends) {
            true => self.squad.members.keys().cloned().collect(),
            false => BTreeSet::new(),
        }
    }

    /// Takes over the squad as message `cause` of `now` left it.
    pub fn replace(&mut self, mut squad: Squad, cause: u64, now: Timestamp, touched: Vec<Touched>) {
        squad.next_cause = squad.next_cause.max(cause + 1);
        squad.as_of = Some(now);
        self.squad = squad;
        self.dirty.head = true;
        touched.into_iter().for_each(|one| self.touch(one));
    }

    fn touch(&mut self, touched: Touched) {
        self.dirty.head = true;
        match touched {
            Touched::Head => {}
            Touched::Swimmer(name) => {
                self.dirty.swimmers.insert(name);
            }
            Touched::All => self.dirty.swimmers.extend(self.squad.swimmers.keys().cloned()),
        }
    }
}

/// A lock that a panic elsewhere does not take from us: what it guards is
/// replaced as a whole or not at all.
pub(super) fn lock<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}

fn read<T>(lock: &RwLock<T>) -> std::sync::RwLockReadGuard<'_, T> {
    lock.read().unwrap_or_else(PoisonError::into_inner)
}

fn from_part<T: DeserializeOwned>(part: &Part) -> Result<T, OpenError> {
    serde_json::from_slice(&part.bytes)
        .map_err(|error| OpenError::Snapshot { name: part.name.clone(), error })
}
