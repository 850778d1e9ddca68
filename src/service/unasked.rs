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

use super::deciding::PutOf;
use super::record::Record;
use super::world::{OpenError, World};
use super::{Failure, Service, WayBack, speaking};
use crate::clock::ClockMode;
use crate::desk;
use crate::history::{SquadId, Unasked};

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
            let now = self.clock.now();
            // Of several processes one speaks.
            let squads = if self.leads() { self.world().to_look_at(now) } else { vec![] };
            if !squads.is_empty() && self.say_due(&squads, now).await.is_err() {
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
        if squads.is_empty() {
            return Ok(());
        }
        let service = Arc::clone(self);
        let ids = squads.to_vec();
        // Squads that are not in memory are loaded for it.
        let said = tokio::task::spawn_blocking(move || service.put_due(&ids, now)).await;
        let (puts, mut said) = said.map_err(|error| self.failed(&error))??;
        for (put, due) in puts {
            if let Some(place) = self.stored(put.ticket).await? {
                said = true;
                self.look_after(place, due);
            }
        }
        if said {
            self.letters.notify_one();
        }
        Ok(())
    }

    /// Puts what is due in the journal's queue; gives what was put there and not yet
    /// waited for, and whether anything is said by now.
    fn put_due(&self, squads: &[SquadId], now: Timestamp) -> Result<(Vec<PutOf>, bool), Failure> {
        let (mut puts, mut said) = (Vec::new(), false);
        let mut weightier = BTreeSet::new();
        for what in Unasked::ALL {
            for id in squads {
                let put = || self.say_kind(&self.world(), id, what, &weightier, now);
                if !self.shared {
                    puts.extend(put()?);
                    continue;
                }
                // Loaded while nothing waits for it.
                let rooms = Arc::clone(self.world().rooms());
                if self.world().directory().holds(id) {
                    rooms.seat(id).map_err(|error| self.failed(&error))?;
                }
                // What is said next may stand on it.
                while let Some((put, _)) = put()? {
                    if self.stored_here(put.ticket)?.is_some() {
                        said = true;
                        break;
                    }
                }
            }
            let claimed = claims(&self.world(), squads, what, now);
            weightier.extend(claimed.map_err(|error| self.failed(&error))?);
        }
        let world = self.world();
        for id in squads {
            let Some(seat) = world.room(id).map_err(|error| self.failed(&error))? else { continue };
            let room = seat.enter();
            let look = desk::next_look(&room.squad, now);
            world.directory_mut().look_at(id, Some(look));
        }
        Ok((puts, said))
    }

    /// Says to one squad what of one kind is due, except to those for whom something
    /// weightier comes that day.
    fn say_kind(
        &self,
        world: &World,
        id: &SquadId,
        what: Unasked,
        weightier: &BTreeSet<String>,
        now: Timestamp,
    ) -> Result<Option<PutOf>, Failure> {
        let seat = world.room(id).map_err(|error| self.failed(&error))?;
        let Some(seat) = seat else { return Ok(None) };
        let mut room = seat.enter();
        let cause = room.squad.next_cause;
        // Held until it is said, so that no other squad tells the same person meanwhile.
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
        let put = self.append_with(world, &record, None, &mut strangers)?;
        drop(strangers);
        let picture = self.went_on(&mut room, due.squad, due.touched, &record, &put);
        Ok(Some((put, picture)))
    }
}

/// Those to whom something of that kind may still be said today.
fn claims(
    world: &World,
    squads: &[SquadId],
    what: Unasked,
    now: Timestamp,
) -> Result<BTreeSet<String>, OpenError> {
    let mut all: BTreeSet<SquadId> = BTreeSet::new();
    {
        let directory = world.directory();
        let theirs = squads.iter().flat_map(|id| directory.people_in(id));
        for id in theirs.flat_map(|address| directory.squads_of(address)) {
            if !all.contains(id) {
                all.insert(id.clone());
            }
        }
    }
    let mut claimed = BTreeSet::new();
    for id in all {
        if let Some(seat) = world.room(&id)? {
            claimed.extend(desk::claims(&seat.enter().squad, what, now));
        }
    }
    Ok(claimed)
}
