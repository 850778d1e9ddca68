//! The service's side of the outbox: which letter is next, its words, and what
//! became of it, durably. It knows no sockets.

use std::sync::{Arc, PoisonError, RwLockReadGuard};

use jiff::Timestamp;

use super::letter::Logged;
use super::world::{World, lock};
use super::{
    Call, Due, Failure, Instants, Letter, LetterEvent, LetterNumber, Service, Undelivered, Unheard,
    conflicts, streams,
};
use crate::journal::{Entry, Seq};

impl Service {
    /// At most `most` letters whose turn it is, each the first of its
    /// recipient's, whose recipient is `free`. None is given that a power cut
    /// could take back; and none where another process sends.
    pub fn letters_due(&self, at: Instants, free: impl Fn(&str) -> bool, most: usize) -> Vec<Due> {
        // Of several processes one sends.
        if !self.leads() || self.ready().is_err() {
            return vec![];
        }
        let world = self.world();
        world.mailbag().due(at, self.durable(), free, most)
    }

    /// Every letter of an alarm that is not delivered: none that a power cut
    /// could take back.
    pub fn calls(&self) -> Vec<Call> {
        if self.ready().is_err() {
            return vec![];
        }
        let world = self.world();
        world.alarms().calls(self.durable())
    }

    /// The alarms that reached nobody who can help.
    pub fn unheard(&self) -> Vec<Unheard> {
        self.world().alarms().unheard(self.now())
    }

    /// Returns once there may be an alarm's letter that was not there before.
    pub async fn alarm_raised(&self) {
        self.alarms.notified().await;
    }

    /// Lets no letter that failed wait for longer than its delay from `now` on:
    /// the clock by which it was put off may have been set since.
    pub fn rein_in(&self, now: Timestamp, longest: impl Fn(u32) -> Option<Timestamp>) {
        let world = self.world();
        world.mailbag().rein_in(now, longest);
    }

    fn durable(&self) -> u64 {
        self.journal.last().map_or(0, Seq::number)
    }

    /// Returns once there may be a letter to deliver that was not there before.
    pub async fn letter_posted(&self) {
        self.letters.notified().await;
    }

    /// A letter with its words.
    ///
    /// # Errors
    /// The journal can't be read, or holds no such letter.
    pub fn letter(&self, number: LetterNumber) -> Result<Letter, Failure> {
        let missing = || self.failed(&format_args!("letter {number} is not in the journal"));
        let found = self.journal.entry(Seq::new(number.place));
        let placed = found.map_err(|error| self.failed(&error))?.ok_or_else(missing)?;
        match Logged::read(&placed.entry.body).map_err(|error| self.failed(&error))? {
            Logged::Message(record) => {
                let letter = Letter::of(*record, number).ok_or_else(missing)?;
                let handle = self.world().handles().of(&letter.spoken.to);
                Ok(Letter { handle, ..letter })
            }
            Logged::Letter(_) | Logged::Stated(_) => Err(missing()),
        }
    }

    /// Keeps what happened to a letter; on return it is durable.
    ///
    /// # Errors
    /// [`Failure::Unavailable`] where it can't be stored now: then it may be as
    /// if it had not happened.
    pub async fn settle(self: &Arc<Self>, event: LetterEvent) -> Result<(), Failure> {
        self.ready()?;
        let body = event.write().map_err(|error| self.failed(&error))?;
        let stream = event.lane().map_or_else(streams::of_lanes, streams::of_lane);
        loop {
            let ticket = {
                let world = self.world();
                // Another process may have brought it meanwhile.
                if self.shared && !world.awaits(&event) {
                    return Ok(());
                }
                let at = *lock(&self.appended);
                let basis = self.shared.then(|| conflicts::basis_of_letter(&event, at));
                let (stream, body) = (stream.clone(), body.clone());
                let (ticket, _) =
                    self.put(Entry { stream, key: None, at: self.now(), body }, basis);
                if !self.shared {
                    world.apply(&event);
                }
                ticket
            };
            if let Some(place) = self.stored(ticket).await? {
                self.look_after(place, None);
                return Ok(());
            }
        }
    }

    /// Every letter that is not delivered, in the order in which they were
    /// written.
    ///
    /// # Errors
    /// [`Failure::Unavailable`] while the store can't be read.
    pub fn undelivered(&self) -> Result<Vec<Undelivered>, Failure> {
        self.ready()?;
        let world = self.world();
        let mut all = world.mailbag().undelivered();
        all.extend(world.alarms().undelivered());
        all.sort_by_key(|one| one.number);
        Ok(all)
    }

    /// How many letters wait to be delivered.
    pub fn letters_waiting(&self) -> usize {
        let world = self.world();
        world.mailbag().waiting() + world.alarms().waiting()
    }

    /// Has a letter that is not delivered tried again at once and from the
    /// beginning, or all of them. Gives how many those are.
    ///
    /// # Errors
    /// [`Failure::Refused`] where there is no such letter,
    /// [`Failure::Unavailable`] where it can't be stored now.
    pub async fn retry(self: &Arc<Self>, letter: Option<LetterNumber>) -> Result<usize, Failure> {
        let asked = |one: &Undelivered| letter.is_none_or(|letter| letter == one.number);
        let count = self.undelivered()?.iter().filter(|one| asked(one)).count();
        match letter {
            Some(letter) if count == 0 => {
                return Err(Failure::Refused(format!("no letter {letter} is undelivered")));
            }
            _ if count == 0 => return Ok(0),
            _ => self.settle(LetterEvent::Retried { letter }).await?,
        }
        self.letters.notify_one();
        self.alarms.notify_one();
        Ok(count)
    }

    /// The world, while a message is decided or a letter looked for.
    pub(super) fn world(&self) -> RwLockReadGuard<'_, World> {
        self.world.read().unwrap_or_else(PoisonError::into_inner)
    }
}
