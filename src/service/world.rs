//! All that must be known at once: which address belongs to which squad, who
//! wants no texts, which letters wait, and the squads that are in memory.
//!
//! A squad is worked on by one message at a time; different squads side by
//! side. All of it can be rebuilt from the journal at any time.

use std::collections::{BTreeSet, HashSet};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError, RwLock, RwLockReadGuard, RwLockWriteGuard};

use jiff::Timestamp;

use super::alarms::Alarms;
use super::directory::Directory;
use super::handles::Handles;
use super::letter::{self, Logged};
use super::mailbag::Mailbag;
use super::record::{Record, RecordError};
use super::rooms::{Rooms, Seat};
use super::{LetterEvent, LetterNumber, parts, room};
use crate::history::{Event, SquadId, Strangers, Unnamed};
use crate::journal::{Journal, JournalError, StreamId};

/// All squads and strangers, and the letters to be delivered.
pub(super) struct World {
    rooms: Arc<Rooms>,
    pub(super) directory: RwLock<Directory>,
    strangers: Mutex<Strangers>,
    /// Addresses of which something changed that is known apart from any squad.
    pub(super) heard: Mutex<HashSet<String>>,
    mailbag: Mutex<Mailbag>,
    alarms: Mutex<Alarms>,
    handles: Mutex<Handles>,
    /// Up to which place all of this is in a snapshot, if it is in one.
    pub(super) based: Mutex<Option<u64>>,
    /// Up to which place it was read when it was rebuilt.
    pub(super) read_through: u64,
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

impl World {
    /// Rebuilds all but the squads from the latest snapshot and what came after
    /// it.
    ///
    /// # Errors
    /// The journal can't be read, or what it holds can't be made sense of.
    pub fn rebuild(journal: &Arc<dyn Journal>) -> Result<Self, OpenError> {
        let mut world = World {
            rooms: Arc::new(Rooms::new(Arc::clone(journal))),
            directory: RwLock::default(),
            strangers: Mutex::default(),
            heard: Mutex::default(),
            mailbag: Mutex::default(),
            alarms: Mutex::default(),
            handles: Mutex::default(),
            based: Mutex::default(),
            read_through: 0,
        };
        let snapshot = journal.snapshot(&StreamId::all())?;
        for part in &snapshot.parts {
            parts::restore(&world, part)?;
        }
        *lock(&world.based) = (snapshot.through > 0).then_some(snapshot.through);
        world.read_through = snapshot.through;
        for placed in journal.entries_of(&StreamId::all(), snapshot.through) {
            let placed = placed?;
            world.read_through = placed.place.number();
            world.take_in(world.read_through, &Logged::read(&placed.entry.body)?);
        }
        Ok(world)
    }

    /// Takes in what stands in the log at `place`.
    pub fn take_in(&self, place: u64, logged: &Logged) {
        match logged {
            Logged::Message(record) => self.note(place, record, &mut self.strangers()),
            Logged::Letter(event) => self.apply(event),
            Logged::Stated(parts) => {
                if let Some(squad) = room::stated_squad(parts) {
                    self.directory_mut().state(&squad);
                }
            }
        }
    }

    /// Takes in what a message at `place` did outside its squad.
    pub fn note(&self, place: u64, record: &Record, strangers: &mut Strangers) {
        if let Some(id) = &record.squad {
            self.directory_mut().note(id, record);
        }
        let mut heard = lock(&self.heard);
        for event in &record.events {
            strangers.hear(&record.from, record.received, event);
            heard.extend(Strangers::concerned(event).cloned());
        }
        for address in &record.gone {
            if self.squads_of(address).is_empty() {
                strangers.let_go(address);
            }
            heard.insert(address.clone());
        }
        drop(heard);
        self.post(place, record);
    }

    /// Who belongs where.
    pub fn directory(&self) -> RwLockReadGuard<'_, Directory> {
        self.directory.read().unwrap_or_else(PoisonError::into_inner)
    }

    /// Who belongs where, to be changed.
    pub fn directory_mut(&self) -> RwLockWriteGuard<'_, Directory> {
        self.directory.write().unwrap_or_else(PoisonError::into_inner)
    }

    /// The squads in memory.
    pub fn rooms(&self) -> &Arc<Rooms> {
        &self.rooms
    }

    /// True if someone wished to be forgotten and is still in the log.
    pub fn is_to_erase(&self) -> bool {
        !self.directory().to_erase().is_empty()
    }

    /// The addresses of a squad's people.
    pub fn addresses_of(&self, id: &SquadId) -> BTreeSet<String> {
        self.directory().people_of(id)
    }

    /// The squads that an address is in.
    pub fn squads_of(&self, address: &str) -> Vec<SquadId> {
        self.directory().squads_of(address).to_vec()
    }

    /// The squad that an address means where it names none.
    pub fn in_hand(&self, address: &str) -> Option<SquadId> {
        self.directory().in_hand(address).cloned()
    }

    /// The squad that asked an address in last.
    pub fn inviting(&self, address: &str) -> Option<SquadId> {
        self.directory().inviting(address).cloned()
    }

    /// The squad that a code opens.
    pub fn squad_by_code(&self, code: &str) -> Option<SquadId> {
        self.directory().by_code(code).cloned()
    }

    /// The squad of which a page with this digest was opened.
    pub fn squad_by_board(&self, digest: &str) -> Option<SquadId> {
        self.directory().by_board(digest).cloned()
    }

    /// The squads in which something may be to be said unasked at `now`.
    pub fn to_look_at(&self, now: Timestamp) -> Vec<SquadId> {
        self.directory().to_look_at(now)
    }

    /// The room of a squad, loaded if need be; none where there is no such squad.
    ///
    /// # Errors
    /// It can't be loaded.
    pub fn room(&self, id: &SquadId) -> Result<Option<Seat>, OpenError> {
        if !self.directory().holds(id) {
            return Ok(None);
        }
        self.rooms.seat(id).map(Some)
    }

    /// The strangers, to be worked on by one message at a time.
    pub fn strangers(&self) -> MutexGuard<'_, Strangers> {
        lock(&self.strangers)
    }

    /// True if this address has opted out, in whatever squad.
    pub fn is_opted_out(&self, address: &str) -> bool {
        self.strangers().is_opted_out(address)
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
    fn post(&self, place: u64, record: &Record) {
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

    /// False for what happened to a letter that is not waited for any more.
    pub fn awaits(&self, event: &LetterEvent) -> bool {
        event.letter().is_none_or(|(letter, lane)| {
            self.alarms().awaits(letter) || self.mailbag().awaits(letter, lane)
        })
    }

    /// Keeps without their addresses who of these wants no texts.
    pub fn keep_silent(&self, addresses: &[(SquadId, String)]) {
        let mut strangers = self.strangers();
        for (squad, address) in addresses {
            if strangers.is_opted_out(address) {
                strangers.silent.insert(Unnamed::of(&squad.0, address));
            }
        }
    }

    /// Drops letters whose words are gone, and what is known apart from squads of
    /// addresses that nobody is at any more: all of them, and those of which a squad
    /// knows nobody else.
    pub fn forget(
        &self,
        letters: &[(LetterNumber, String)],
        addresses: &BTreeSet<String>,
        theirs: &[(SquadId, String)],
    ) {
        for (number, lane) in letters {
            self.alarms().withdraw(*number);
            self.mailbag().withdraw(*number, lane);
        }
        for (squad, address) in theirs {
            self.directory_mut().forget(address, squad);
            self.alarms().forget(address, squad);
        }
        for address in addresses.iter().filter(|address| self.squads_of(address).is_empty()) {
            self.strangers().forget(address);
            self.handles().forget(address);
            lock(&self.heard).insert(address.clone());
        }
    }
}

/// True for an event that may end somebody's belonging to a squad.
fn ends_belonging(event: &Event) -> bool {
    matches!(event, Event::Forgotten { .. } | Event::SwimmerLeft { .. } | Event::AccessEnded { .. })
}

/// The addresses that belong to a squad `before` these events and no longer
/// `after` them; few events end that for anybody.
pub(super) fn gone(
    before: &crate::history::Squad,
    events: &[Event],
    after: &crate::history::Squad,
) -> Vec<String> {
    if !events.iter().any(ends_belonging) {
        return Vec::new();
    }
    before.members.keys().filter(|address| !after.members.contains_key(*address)).cloned().collect()
}

/// A lock that a panic elsewhere does not take from us: what it guards is
/// replaced as a whole or not at all.
pub(super) fn lock<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}
