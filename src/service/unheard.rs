//! Tells whoever raised an alarm that it has reached nobody yet.

use std::sync::Arc;

use super::record::Record;
use super::world::lock;
use super::{Failure, Service, Spoken, Unheard, Via};
use crate::desk;
use crate::profile::{Called, Event};

impl Service {
    /// Writes to whoever raised an alarm that it has reached nobody yet, once for
    /// each; on return it is durable.
    ///
    /// # Errors
    /// [`Failure::Unavailable`] where it can't be stored now.
    pub async fn tell_unheard(self: &Arc<Self>, alarm: &Unheard) -> Result<(), Failure> {
        self.ready()?;
        let (ticket, place) = {
            let world = self.world();
            let Some(id) = alarm.squad.clone() else { return Ok(()) };
            let Some(room) = world.room(&id) else { return Ok(()) };
            let mut room = lock(&room);
            let (cause, now) = (room.squad.next_cause, room.squad.as_of.unwrap_or(alarm.at));
            let text = desk::nobody_reached(&room.squad, &alarm.from, now);
            let notice = Spoken {
                alarm: Some(Called::Sender),
                ..Spoken::alone(alarm.from.clone(), Via::Outbox, text)
            };
            let record = Record {
                events: vec![Event::AlarmUnheard { alarm: alarm.alarm }],
                replies: vec![notice],
                received: self.now(),
                ..Record::unsaid(Some(id), cause, &alarm.from, now)
            };
            let put = self.append(&world, &record, None)?;
            let mut after = room.squad.clone();
            let touched = record.stamped().map(|event| after.apply(&event)).collect();
            room.replace(after, cause, now, touched);
            put
        };
        self.stored(ticket).await?;
        self.alarms.notify_one();
        self.snapshot_when_due(place).await;
        Ok(())
    }
}
