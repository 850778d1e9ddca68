//! Folding a log that others add to: each entry once it is durable, own ones and others',
//! in the order of the log.
//!
//! Where nobody else writes, a decision is folded as it is made, and this is not used.

use std::sync::PoisonError;
use std::sync::atomic::Ordering;

use super::letter::Logged;
use super::world::{World, lock};
use super::{Failure, Service, Via, conflicts, streams};
use crate::history::Event;
use crate::journal::{Follower, JournalError, Placed, Ticket, Topic};

/// What entries bring about beside what they say.
#[derive(Default)]
struct Stirred {
    letters: bool,
    alarms: bool,
    forgets: bool,
}

impl Follower for Service {
    fn through(&self) -> u64 {
        *lock(&self.appended)
    }

    fn changes(&self, placed: &Placed) -> Vec<Topic> {
        // What can't be read can't be folded either, and that is told of then.
        let logged = Logged::read(&placed.entry.body);
        logged.map(|logged| conflicts::changed_by(&placed.entry, &logged)).unwrap_or_default()
    }

    fn take_in(&self, entries: Vec<Placed>) -> Result<(), JournalError> {
        let read = |placed: Placed| match Logged::read(&placed.entry.body) {
            Ok(logged) => Ok((placed, logged)),
            Err(error) => Err(JournalError::Damaged(format!("entry {}: {error}", placed.place))),
        };
        let entries: Vec<(Placed, Logged)> =
            entries.into_iter().map(read).collect::<Result<_, _>>()?;
        let mut stirred = Stirred::default();
        {
            let world = self.world.write().unwrap_or_else(PoisonError::into_inner);
            for (placed, logged) in entries {
                self.take_one_in(&world, &placed, logged, &mut stirred)?;
            }
        }
        if stirred.letters {
            self.letters.notify_one();
        }
        if stirred.alarms {
            self.alarms.notify_one();
        }
        if stirred.forgets && self.journal.leads() {
            self.upkeep.erase_soon();
        }
        self.upkeep.grown(*lock(&self.appended), self.journal.leads());
        Ok(())
    }

    fn begin_anew(&self) -> Result<(), JournalError> {
        tracing::info!("what is known is read anew from the journal");
        // No snapshot is under way of what is thrown away here.
        let _held = self.upkeep.held();
        let world = World::rebuild(&self.journal)
            .map_err(|error| JournalError::Storage(error.to_string()))?;
        let mut old = self.world.write().unwrap_or_else(PoisonError::into_inner);
        *lock(&self.appended) = world.read_through;
        *old = world;
        Ok(())
    }

    fn begin_to_lead(&self) {
        if self.world().is_to_erase() {
            self.upkeep.erase_soon();
        }
        self.letters.notify_one();
        self.alarms.notify_one();
    }
}

impl Service {
    fn take_one_in(
        &self,
        world: &World,
        placed: &Placed,
        logged: Logged,
        stirred: &mut Stirred,
    ) -> Result<(), JournalError> {
        let place = placed.place.number();
        // What was read when this was opened.
        if place <= *lock(&self.appended) {
            return Ok(());
        }
        world.take_in(place, &logged);
        if let Logged::Message(record) = &logged {
            lock(&self.echo).note(&record.replies, self.clock.passed());
            stirred.letters |= record.replies.iter().any(|reply| reply.via == Via::Outbox);
            stirred.alarms |= record.replies.iter().any(|reply| reply.alarm.is_some());
            stirred.forgets |=
                record.events.iter().any(|event| matches!(event, Event::Forgotten { .. }));
        }
        if let Logged::Letter(_) = &logged {
            (stirred.letters, stirred.alarms) = (true, true);
        }
        *lock(&self.appended) = place;
        let Some(id) = streams::squad_of(&placed.entry.stream) else { return Ok(()) };
        let due = world.rooms().take_in(&id, placed, logged);
        if due.map_err(|error| JournalError::Damaged(error.to_string()))? {
            self.upkeep.picture(id.clone());
        }
        self.listeners.tell(&id);
        Ok(())
    }

    /// Returns once all is folded that was durable when this was called: what anybody was
    /// told on another machine is known.
    ///
    /// # Errors
    /// [`Failure::Unavailable`] while the journal isn't reached.
    pub(super) async fn caught_up(&self) -> Result<(), Failure> {
        if self.shared {
            self.journal.catch_up().await.map_err(|error| self.failed(&error))?;
        }
        Ok(())
    }

    /// Waits until what was put in the journal's queue is durable; gives its place. `None`
    /// where others have changed meanwhile what it was decided on: it was not stored, and
    /// is to be decided again.
    ///
    /// # Errors
    /// [`Failure::Unavailable`] where it can't be stored now.
    pub(super) async fn stored(&self, ticket: Ticket) -> Result<Option<u64>, Failure> {
        self.settled(ticket.await.map(|place| place.number()))
    }

    /// The same, on a thread that may wait.
    ///
    /// # Errors
    /// As [`stored`](Self::stored).
    pub(super) fn stored_here(&self, ticket: Ticket) -> Result<Option<u64>, Failure> {
        self.settled(ticket.wait().map(|place| place.number()))
    }

    fn settled(&self, stored: Result<u64, JournalError>) -> Result<Option<u64>, Failure> {
        match stored {
            Ok(place) => Ok(Some(place)),
            Err(JournalError::Moved) => {
                self.decided_again.fetch_add(1, Ordering::Relaxed);
                Ok(None)
            }
            Err(error) => {
                self.broken.store(!self.shared, Ordering::SeqCst);
                Err(self.failed(&error))
            }
        }
    }

    /// How often something was decided again, since another process had changed what it
    /// stood on.
    pub fn decided_again(&self) -> u64 {
        self.decided_again.load(Ordering::Relaxed)
    }

    /// Seeks to be the one of several processes that sends letters, speaks unasked and
    /// erases.
    pub fn lead(&self) {
        self.journal.lead();
    }

    /// Whether it is that one.
    pub fn leads(&self) -> bool {
        self.journal.leads()
    }
}
