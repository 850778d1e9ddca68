//! What is said unasked, said when it is due.
//!
//! Decides nothing: the desk tells what is due at an instant. By the wall clock
//! that instant is now, looked at twice a minute; where messages bring the clock,
//! it is the message's, for the squads of its sender.

use std::sync::Arc;
use std::time::Duration;

use jiff::Timestamp;
use tokio_util::sync::CancellationToken;

use super::record::Record;
use super::world::lock;
use super::{Failure, Service, WayBack, consent, speaking};
use crate::clock::ClockMode;
use crate::desk;
use crate::profile::SquadId;

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
            for id in squads {
                let Some(room) = world.room(id) else { continue };
                let mut room = lock(&room);
                let cause = room.squad.next_cause;
                let Some(due) = desk::unprompted(&room.squad, cause, now) else { continue };
                let mut record = Record {
                    received: self.clock.now(),
                    events: due.events,
                    ..Record::unsaid(Some(id.clone()), cause, "", now)
                };
                speaking::say_all(&mut record, due.said, None, &WayBack::default());
                consent::spare(&world, "", &mut record.replies);
                let (ticket, _) = self.append(&world, &record, None)?;
                room.replace(due.squad, cause, due.touched);
                tickets.push(ticket);
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

    /// The squads of an address.
    pub(super) fn squads_of(&self, address: &str) -> Vec<SquadId> {
        self.world().squads_of(address)
    }
}
