//! What is said unasked, said when it is due.
//!
//! Decides nothing: the desk tells what is due at an instant. By the wall clock
//! that instant is now, looked at twice a minute; where messages bring the clock,
//! it is the message's, for the squads of its sender.

use std::collections::BTreeSet;
use std::sync::Arc;
use std::time::Duration;

use jiff::Timestamp;
use tokio_util::sync::CancellationToken;

use super::record::Record;
use super::world::{World, lock};
use super::{Failure, Service, WayBack, speaking};
use crate::clock::ClockMode;
use crate::desk;
use crate::journal::Ticket;
use crate::profile::{SquadId, Unasked};

/// How often it is looked for.
const LOOK: Duration = Duration::from_secs(30);

impl Service {
    /// Says what is due as it falls due, until told to stop; nothing where
    /// messages bring the clock.
    pub async fn speak_unasked(self: Arc<Self>, stopping: CancellationToken) {
        if self.mode == ClockMode::Message {
            return;
        }
        loop {
            let squads = self.world().ids();
            if self.say_due(&squads, self.clock.now()).await.is_err() {
                tracing::warn!("what is due unasked waits: the store can't take it now");
            }
            tokio::select! {
                () = stopping.cancelled() => return,
                () = tokio::time::sleep(LOOK) => {}
            }
        }
    }

    /// Says to these squads what is due at `now` and was not said yet, durably.
    ///
    /// # Errors
    /// [`Failure::Unavailable`] where it can't be stored now.
    pub async fn say_due(
        self: &Arc<Self>,
        squads: &[SquadId],
        now: Timestamp,
    ) -> Result<(), Failure> {
        self.ready()?;
        let mut tickets = Vec::new();
        {
            let world = self.world();
            let mut weightier = BTreeSet::new();
            for what in Unasked::ALL {
                for id in squads {
                    tickets.extend(self.say_kind(&world, id, what, &weightier, now)?);
                }
                weightier.extend(claims(&world, squads, what, now));
            }
        }
        let said = !tickets.is_empty();
        for ticket in tickets {
            self.stored(ticket).await?;
        }
        if said {
            self.letters.notify_one();
        }
        Ok(())
    }

    /// Says to one squad what of one kind is due, but to those for whom
    /// something weightier is still to come that day.
    fn say_kind(
        &self,
        world: &World,
        id: &SquadId,
        what: Unasked,
        weightier: &BTreeSet<String>,
        now: Timestamp,
    ) -> Result<Option<Ticket>, Failure> {
        let Some(room) = world.room(id) else { return Ok(None) };
        let mut room = lock(&room);
        let cause = room.squad.next_cause;
        // Held until it is said: another squad may want to tell the same person.
        let mut strangers = world.strangers();
        let waits = |address: &str| weightier.contains(address);
        let due = desk::unprompted(&room.squad, &strangers, waits, what, &self.book, now);
        let Some(due) = due else { return Ok(None) };
        let mut record = Record {
            received: self.clock.now(),
            events: due.events,
            ..Record::unsaid(Some(id.clone()), cause, "", now)
        };
        speaking::say_all(&mut record, due.said, None, &WayBack::default());
        let (ticket, _) = self.append(world, &record, None)?;
        record.events.iter().for_each(|event| strangers.hear("", record.received, event));
        room.replace(due.squad, cause, now, due.touched);
        Ok(Some(ticket))
    }

    /// The squads of an address.
    pub(super) fn squads_of(&self, address: &str) -> Vec<SquadId> {
        self.world().squads_of(address)
    }
}

/// Those to whom something of that kind may still be said today, in any squad
/// that they share with others of these.
fn claims(world: &World, squads: &[SquadId], what: Unasked, now: Timestamp) -> BTreeSet<String> {
    let theirs = squads.iter().flat_map(|id| world.addresses_of(id));
    let all: BTreeSet<SquadId> = theirs.flat_map(|address| world.squads_of(&address)).collect();
    let rooms = all.iter().filter_map(|id| world.room(id));
    rooms.flat_map(|room| desk::claims(&lock(&room).squad, what, now)).collect()
}
