//! The squads in memory: loaded when first spoken to, the least lately used let
//! go where they take too much.

use std::collections::HashMap;
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Arc, Mutex};

use super::OpenError;
use super::letter::Logged;
use super::room::Room;
use super::world::lock;
use crate::background;
use crate::history::SquadId;
use crate::journal::{Journal, Placed, Seq};

/// How many bytes of squads are kept in memory (ours; roughly, as they would be
/// written down).
const MOST_BYTES: usize = 192 * 1024 * 1024;

/// Squads in memory.
pub(super) struct Rooms {
    journal: Arc<dyn Journal>,
    slots: Mutex<HashMap<SquadId, Arc<Slot>>>,
    turn: AtomicU64,
    most: usize,
}

/// A squad's place in memory.
pub(super) struct Slot {
    room: Mutex<Option<Room>>,
    /// When it was last used, by the turn of use.
    used: AtomicU64,
    bytes: AtomicU64,
    /// What was handed over while it was loaded or looked at; folded before it is worked
    /// in again.
    handed: Mutex<Vec<Placed>>,
}

/// A squad that is in memory.
pub(super) type Seat = Arc<Slot>;

impl Rooms {
    /// None in memory yet, to be loaded from this journal.
    pub fn new(journal: Arc<dyn Journal>) -> Rooms {
        Rooms { journal, slots: Mutex::default(), turn: AtomicU64::new(0), most: MOST_BYTES }
    }

    /// The slot of a squad, loaded.
    ///
    /// # Errors
    /// It can't be loaded.
    pub fn seat(&self, id: &SquadId) -> Result<Seat, OpenError> {
        let slot = self.slot(id);
        let mut room = lock(&slot.room);
        if room.is_none() {
            // Whoever else speaks to the squad waits for it.
            let loaded = background::at_once(|| Room::load(self.journal.as_ref(), id))?;
            slot.bytes.store(loaded.bytes() as u64, Ordering::Relaxed);
            *room = Some(loaded);
            drop(room);
            self.make_room();
        } else {
            drop(room);
        }
        Ok(slot)
    }

    /// The slot of a squad that is about to be.
    pub fn open(&self, id: &SquadId) -> Seat {
        let slot = self.slot(id);
        lock(&slot.room).get_or_insert_with(|| Room::empty(id));
        slot
    }

    /// True if a squad is in memory.
    pub fn holds(&self, id: &SquadId) -> bool {
        let slot = lock(&self.slots).get(id).cloned();
        // One that is being worked on is.
        slot.is_some_and(|slot| slot.room.try_lock().map_or(true, |room| room.is_some()))
    }

    /// Squads that are in memory.
    pub fn ids(&self) -> Vec<SquadId> {
        lock(&self.slots).keys().cloned().collect()
    }

    /// Folds an entry of a squad's, where it is in memory; true where a snapshot is due.
    /// No message may be decided meanwhile.
    ///
    /// # Errors
    /// It can't be read.
    pub fn take_in(
        &self,
        id: &SquadId,
        placed: &Placed,
        logged: Logged,
    ) -> Result<bool, OpenError> {
        let Some(slot) = lock(&self.slots).get(id).cloned() else { return Ok(false) };
        let Ok(mut room) = slot.room.try_lock() else {
            // It is being loaded, maybe from before this entry.
            lock(&slot.handed).push(placed.clone());
            return Ok(false);
        };
        let Some(room) = room.as_mut() else { return Ok(false) };
        slot.fold_handed(room)?;
        room.fold(placed.tip.number, (placed.place.number(), placed.entry.body.len()), logged)?;
        slot.bytes.store(room.bytes() as u64, Ordering::Relaxed);
        Ok(room.is_due())
    }

    fn slot(&self, id: &SquadId) -> Seat {
        let turn = self.turn.fetch_add(1, Ordering::Relaxed);
        let mut slots = lock(&self.slots);
        let slot = slots.entry(id.clone()).or_insert_with(|| {
            let (room, used) = (Mutex::new(None), AtomicU64::new(turn));
            Arc::new(Slot { room, used, bytes: AtomicU64::new(0), handed: Mutex::default() })
        });
        slot.used.store(turn, Ordering::Relaxed);
        Arc::clone(slot)
    }

    /// Lets squads go that nobody uses, the least lately used first, until the
    /// rest takes no more than it may.
    fn make_room(&self) {
        let mut slots = lock(&self.slots);
        let bytes = |slot: &Slot| slot.bytes.load(Ordering::Relaxed) as usize;
        let mut total: usize = slots.values().map(|slot| bytes(slot)).sum();
        if total <= self.most {
            return;
        }
        let durable = self.journal.last().map_or(0, Seq::number);
        let mut oldest: Vec<(u64, SquadId)> = slots
            .iter()
            .map(|(id, slot)| (slot.used.load(Ordering::Relaxed), id.clone()))
            .collect();
        oldest.sort_unstable();
        // Somewhat more than needed, so that not every load has to look.
        for (_, id) in oldest {
            if total <= self.most - self.most / 8 {
                return;
            }
            let Some(slot) = slots.get(&id).filter(|slot| Arc::strong_count(slot) == 1) else {
                continue;
            };
            let idle = slot
                .room
                .try_lock()
                .is_ok_and(|room| room.as_ref().is_none_or(|room| room.place <= durable));
            if idle {
                total -= bytes(slot).min(total);
                slots.remove(&id);
            }
        }
    }
}

impl Slot {
    /// The room, to be worked in by one message at a time.
    pub fn enter(&self) -> Entered<'_> {
        let mut room = lock(&self.room);
        if let Some(room) = room.as_mut()
            && let Err(error) = self.fold_handed(room)
        {
            // It was read before it was handed over.
            tracing::error!(%error, "what was handed over can't be folded");
        }
        Entered(room, &self.bytes)
    }

    fn fold_handed(&self, room: &mut Room) -> Result<(), OpenError> {
        for placed in std::mem::take(&mut *lock(&self.handed)) {
            room.take_in(&placed)?;
        }
        Ok(())
    }
}

/// A room that is being worked in.
pub(super) struct Entered<'a>(std::sync::MutexGuard<'a, Option<Room>>, &'a AtomicU64);

impl std::ops::Deref for Entered<'_> {
    type Target = Room;

    #[expect(clippy::expect_used, reason = "a seat is given out loaded, and is never emptied")]
    fn deref(&self) -> &Room {
        self.0.as_ref().expect("a seat is loaded")
    }
}

impl std::ops::DerefMut for Entered<'_> {
    #[expect(clippy::expect_used, reason = "a seat is given out loaded, and is never emptied")]
    fn deref_mut(&mut self) -> &mut Room {
        self.0.as_mut().expect("a seat is loaded")
    }
}

impl Drop for Entered<'_> {
    fn drop(&mut self) {
        self.1.store(self.bytes() as u64, Ordering::Relaxed);
    }
}
