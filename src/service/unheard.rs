//! Tells whoever raised an alarm that it has reached nobody yet.

use std::sync::Arc;

use super::deciding::PutOf;
use super::record::Record;
use super::{Failure, Service, Spoken, Unheard, Via};
use crate::desk;
use crate::history::{Called, Event};

impl Service {
    /// Writes to whoever raised an alarm that it has reached nobody yet, once for
    /// each; on return it is durable.
    ///
    /// # Errors
    /// [`Failure::Unavailable`] where it can't be stored now.
    pub async fn tell_unheard(self: &Arc<Self>, alarm: &Unheard) -> Result<(), Failure> {
        self.ready()?;
        loop {
            let (service, alarm) = (Arc::clone(self), alarm.clone());
            // A squad that is not in memory is loaded for it.
            let put = tokio::task::spawn_blocking(move || service.put_unheard(&alarm)).await;
            let put = put.map_err(|error| self.failed(&error))??;
            let Some((put, due)) = put else { return Ok(()) };
            if let Some(place) = self.stored(put.ticket).await? {
                self.alarms.notify_one();
                self.look_after(place, due);
                return Ok(());
            }
        }
    }

    fn put_unheard(&self, alarm: &Unheard) -> Result<Option<PutOf>, Failure> {
        let world = self.world();
        // Another process may have told it.
        if self.shared && !world.alarms().is_untold(alarm.alarm) {
            return Ok(None);
        }
        let Some(id) = alarm.squad.clone() else { return Ok(None) };
        let seat = world.room(&id).map_err(|error| self.failed(&error))?;
        let Some(seat) = seat else { return Ok(None) };
        let mut room = seat.enter();
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
        let due = self.went_on(&mut room, after, touched, &record, &put);
        Ok(Some((put, due)))
    }
}
