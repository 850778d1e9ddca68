//! A squad in memory: how far its stream is folded, and which parts of it no
//! snapshot holds. A room is loaded when its squad is first spoken to, and may be
//! let go at any time: the journal has all of it.

use std::collections::BTreeSet;
use std::sync::Arc;

use jiff::Timestamp;
use serde::de::DeserializeOwned;

use super::happened::{Happened, Told};
use super::letter::Logged;
use super::record::Record;
use super::{OpenError, streams};
use crate::background;
use crate::history::{CowMap, Squad, SquadId, Swimmer, Touched};
use crate::journal::{Journal, Part, Placed, Snapshot, StreamId};
use crate::message::Name;

const HEAD: &str = "head";
const SWIMMER: &str = "swimmer/";

/// A snapshot is written once this many bytes have come since the last, … (ours:
/// some milliseconds of reading at the next load.)
const TAIL_BYTES: usize = 256 * 1024;
/// … or, where the squad is large, so many times what its snapshot takes, so that
/// snapshots never cost the disk more than a share of the log itself.
const TAIL_SHARE: usize = 2;

/// A squad in memory.
pub(super) struct Room {
    /// The squad.
    pub squad: Squad,
    /// The number of the last message in its stream that is folded.
    pub number: u64,
    /// The place of that message in the log.
    pub place: u64,
    /// How far the stored snapshot goes, if there is one.
    based: Option<u64>,
    /// How many bytes of log came since.
    tail: usize,
    /// How many bytes the snapshot took.
    size: usize,
    dirty: Dirty,
    /// A snapshot is asked for, and not yet written.
    asked: bool,
}

#[derive(Default)]
struct Dirty {
    head: bool,
    swimmers: BTreeSet<Name>,
}

/// What a room is to write down, as it was at one instant.
pub(super) struct Still {
    stream: StreamId,
    from: Option<u64>,
    through: u64,
    place: u64,
    pictures: Vec<(String, Picture)>,
}

/// A part of a snapshot, not yet written out.
enum Picture {
    /// A squad without its swimmers.
    Head(Box<Squad>),
    /// A swimmer.
    Swimmer(Arc<Swimmer>),
    /// What is no longer there: leaves an empty part.
    Gone,
}

impl Room {
    /// The room of a squad of which nothing is told yet.
    pub fn empty(id: &SquadId) -> Room {
        Room {
            squad: Squad::unopened(id.clone()),
            number: 0,
            place: 0,
            based: None,
            tail: 0,
            size: 0,
            dirty: Dirty::default(),
            asked: false,
        }
    }

    /// The room of a squad, from its snapshot and what came after that.
    ///
    /// # Errors
    /// The journal can't be read, or what it holds can't be made sense of.
    pub fn load(journal: &dyn Journal, id: &SquadId) -> Result<Room, OpenError> {
        let snapshot = journal.snapshot(&streams::of_squad(id))?;
        Self::load_from(journal, id, &snapshot)
    }

    /// The same, from this snapshot of it.
    ///
    /// # Errors
    /// As [`load`](Self::load).
    pub fn load_from(
        journal: &dyn Journal,
        id: &SquadId,
        snapshot: &Snapshot,
    ) -> Result<Room, OpenError> {
        let mut room = Room::empty(id);
        room.based = (snapshot.through > 0).then_some(snapshot.through);
        room.number = snapshot.through;
        room.restore(&snapshot.parts)?;
        room.catch_up(journal)?;
        Ok(room)
    }

    /// The same, from the log alone.
    ///
    /// # Errors
    /// As [`load`](Self::load).
    pub fn load_anew(journal: &dyn Journal, id: &SquadId) -> Result<Room, OpenError> {
        let mut room = Room::empty(id);
        room.catch_up(journal)?;
        Ok(room)
    }

    /// All that a squad's log holds, with nothing left out for its age.
    ///
    /// # Errors
    /// As [`load`](Self::load).
    pub fn whole_history(journal: &dyn Journal, id: &SquadId) -> Result<Squad, OpenError> {
        let mut room = Room::empty(id);
        room.squad.whole = true;
        room.catch_up(journal)?;
        Ok(room.squad)
    }

    /// Folds what came after the last message that is folded.
    ///
    /// # Errors
    /// As [`load`](Self::load).
    pub fn catch_up(&mut self, journal: &dyn Journal) -> Result<(), OpenError> {
        let stream = streams::of_squad(&self.squad.id);
        for placed in journal.entries_of(&stream, self.number) {
            self.take_in(&placed?)?;
            background::rest();
        }
        Ok(())
    }

    /// Folds one entry of its stream.
    ///
    /// # Errors
    /// It can't be read.
    pub fn take_in(&mut self, placed: &Placed) -> Result<(), OpenError> {
        let (place, bytes) = (placed.place.number(), placed.entry.body.len());
        self.follow(placed.tip.number, (place, bytes), Happened::read(&placed.entry.body)?)
    }

    /// Folds the entry of this number, which stands at this place and is so many bytes
    /// long; one that is folded already is passed over.
    ///
    /// # Errors
    /// It can't be read.
    pub fn fold(
        &mut self,
        number: u64,
        (place, bytes): (u64, usize),
        logged: Logged,
    ) -> Result<(), OpenError> {
        self.follow(number, (place, bytes), logged.into())
    }

    fn follow(
        &mut self,
        number: u64,
        (place, bytes): (u64, usize),
        happened: Happened,
    ) -> Result<(), OpenError> {
        if number <= self.number {
            return Ok(());
        }
        (self.number, self.place) = (number, place);
        self.tail += bytes;
        match happened {
            Happened::Message(told) => self.replay(told),
            Happened::Stated(parts) => {
                // What was lost before is in it.
                let Room { number, place, tail, .. } = *self;
                *self = Room { number, place, tail, ..Room::empty(&self.squad.id) };
                self.restore(&parts)?;
            }
            Happened::Nothing => {}
        }
        Ok(())
    }

    fn replay(&mut self, told: Told) {
        let (cause, now) = (told.cause, told.now);
        for event in told.stamped() {
            let touched = self.squad.apply(&event);
            self.touch(touched);
        }
        self.went_by(cause, now);
    }

    /// Takes over the squad as message `cause` of `now` left it, which was put at
    /// `place` and is so many bytes long.
    pub fn replace(
        &mut self,
        squad: Squad,
        touched: Vec<Touched>,
        record: &Record,
        put: (u64, usize),
    ) {
        self.squad = squad;
        touched.into_iter().for_each(|one| self.touch(one));
        self.went_by(record.cause, record.now);
        self.number += 1;
        self.place = put.0;
        self.tail += put.1;
    }

    fn went_by(&mut self, cause: u64, now: Timestamp) {
        self.squad.next_cause = self.squad.next_cause.max(cause + 1);
        self.squad.as_of = Some(now);
        self.dirty.head = true;
    }

    fn touch(&mut self, touched: Touched) {
        match touched {
            Touched::Head => {}
            Touched::Swimmer(name) => {
                self.dirty.swimmers.insert(name);
            }
            Touched::All => self.dirty.swimmers.extend(self.squad.swimmers.keys().cloned()),
        }
    }

    /// How many bytes it takes in memory, roughly.
    pub fn bytes(&self) -> usize {
        self.size + self.tail.min(TAIL_BYTES)
    }

    /// True once where a snapshot is due.
    pub fn is_due(&mut self) -> bool {
        let due = !self.asked && self.tail > TAIL_BYTES.max(TAIL_SHARE * self.size);
        self.asked |= due;
        due
    }

    /// All of it, as the parts of a snapshot.
    ///
    /// # Errors
    /// One of them can't be written out.
    pub fn parts(mut self) -> Result<Vec<Part>, OpenError> {
        self.based = None;
        self.still().parts()
    }

    /// What changed since the last call, as of this instant; writing it out can
    /// wait.
    pub fn still(&mut self) -> Still {
        if self.based.is_none() {
            let all = self.squad.swimmers.keys().chain(self.squad.former.keys()).cloned();
            self.dirty.swimmers = all.collect();
        }
        let dirty = std::mem::take(&mut self.dirty);
        let (swimmers, former) = (CowMap::default(), CowMap::default());
        let head = Squad { swimmers, former, ..self.squad.clone() };
        let mut pictures = vec![(HEAD.to_owned(), Picture::Head(Box::new(head)))];
        for name in dirty.swimmers {
            let picture = match self.squad.ever_swam(&name) {
                Some(swimmer) => Picture::Swimmer(Arc::clone(swimmer)),
                None => Picture::Gone,
            };
            pictures.push((format!("{SWIMMER}{name}"), picture));
        }
        self.tail = 0;
        Still {
            stream: streams::of_squad(&self.squad.id),
            from: self.based,
            through: self.number,
            place: self.place,
            pictures,
        }
    }

    /// Notes how far the snapshot goes that was written; `None` where it could
    /// not be, and the next one has to hold everything.
    pub fn written(&mut self, through: Option<u64>, size: usize) {
        self.asked = false;
        self.based = through;
        self.size = self.size.max(size);
    }

    fn restore(&mut self, parts: &[Part]) -> Result<(), OpenError> {
        // The head sorts before the swimmers.
        for part in parts {
            self.size += part.bytes.len();
            if part.name == HEAD {
                self.squad = from_part(part)?;
            } else if part.name.starts_with(SWIMMER) {
                let swimmer: Swimmer = from_part(part)?;
                let those = match swimmer.left {
                    None => &mut self.squad.swimmers,
                    Some(_) => &mut self.squad.former,
                };
                those.insert(swimmer.name.clone(), Arc::new(swimmer));
            }
        }
        Ok(())
    }
}

impl Still {
    /// The place of the last message in it, which must be durable before it is
    /// written.
    pub fn place(&self) -> u64 {
        self.place
    }

    /// Writes it down; gives how far it goes and how many bytes it took.
    ///
    /// # Errors
    /// It can't be written.
    pub fn write(self, journal: &dyn Journal) -> Result<(u64, usize), OpenError> {
        let parts = self.parts()?;
        let size = parts.iter().map(|part| part.bytes.len()).sum();
        journal.checkpoint(&self.stream, self.from, self.through, parts)?;
        Ok((self.through, size))
    }

    /// Its parts.
    ///
    /// # Errors
    /// One of them can't be written out.
    fn parts(&self) -> Result<Vec<Part>, OpenError> {
        self.pictures
            .iter()
            .map(|(name, picture)| {
                let bytes = match picture {
                    Picture::Head(squad) => serde_json::to_vec(squad.as_ref()),
                    Picture::Swimmer(swimmer) => serde_json::to_vec(swimmer.as_ref()),
                    Picture::Gone => Ok(Vec::new()),
                };
                let bytes =
                    bytes.map_err(|error| OpenError::Snapshot { name: name.clone(), error })?;
                Ok(Part { name: name.clone(), bytes })
            })
            .collect()
    }
}

/// The squad that parts state, without its swimmers.
pub(super) fn stated_squad(parts: &[Part]) -> Option<Squad> {
    from_part(parts.iter().find(|part| part.name == HEAD)?).ok()
}

/// What a part holds.
///
/// # Errors
/// It can't be read.
pub(super) fn from_part<T: DeserializeOwned>(part: &Part) -> Result<T, OpenError> {
    serde_json::from_slice(&part.bytes)
        .map_err(|error| OpenError::Snapshot { name: part.name.clone(), error })
}
