//! Who wants no texts: heard from themselves, or from a gateway that knows.
//!
//! One word counts for every squad: whoever said STOP gets nothing unprompted
//! from any of them.

use std::sync::Arc;

use super::deciding::PutOf;
use super::record::Record;
use super::world::World;
use super::{Failure, Letter, Service, Spoken, Via};
use crate::history::Event;

impl Service {
    /// True if this address has opted out.
    pub fn is_opted_out(&self, address: &str) -> bool {
        self.world().is_opted_out(address)
    }

    /// True if the recipient of a letter has opted out, and it answers nothing that
    /// they said. The letter is asked, not its lane: what waits for the morning waits
    /// under another name.
    pub fn is_unwanted(&self, letter: &Letter) -> bool {
        self.is_opted_out(&letter.spoken.to) && !letter.answers
    }

    /// Keeps that an address has opted out with a gateway, which doesn't let
    /// its word through to us; on return it is durable.
    ///
    /// # Errors
    /// [`Failure::Unavailable`] where it can't be stored now.
    pub async fn opt_out_elsewhere(self: &Arc<Self>, address: &str) -> Result<(), Failure> {
        self.ready()?;
        loop {
            let (put, due) = self.put_opt_out(address)?;
            if let Some(place) = self.stored(put.ticket).await? {
                self.look_after(place, due);
                return Ok(());
            }
        }
    }

    fn put_opt_out(&self, address: &str) -> Result<PutOf, Failure> {
        let world = self.world();
        let squad = world.in_hand(address).or_else(|| world.squads_of(address).pop());
        let seat = match &squad {
            Some(id) => world.room(id).map_err(|error| self.failed(&error))?,
            None => None,
        };
        let mut room = seat.as_ref().map(|seat| seat.enter());
        let cause = room.as_ref().map_or(0, |room| room.squad.next_cause);
        let record = Record {
            events: vec![Event::OptedOut { address: address.to_owned() }],
            ..Record::unsaid(squad, cause, address, self.now())
        };
        let put = self.append(&world, &record, None)?;
        let due = room.as_mut().and_then(|room| {
            let mut after = room.squad.clone();
            let touched = record.stamped().map(|event| after.apply(&event)).collect();
            self.went_on(room, after, touched, &record, &put)
        });
        Ok((put, due))
    }
}

/// Leaves out what would go unprompted to someone who has opted out.
pub(super) fn spare(world: &World, from: &str, replies: &mut Vec<Spoken>) {
    let prompted = |reply: &Spoken| reply.via == Via::Answer || reply.to == from;
    replies.retain(|reply| prompted(reply) || !world.is_opted_out(&reply.to));
}
