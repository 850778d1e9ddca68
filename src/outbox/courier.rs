//! Sends letters out when their turn comes: to one recipient one after the
//! other, to different ones side by side.

use std::collections::{HashMap, HashSet};
use std::sync::Arc;
use std::time::Duration;

use tokio::task::{Id, JoinError, JoinSet};
use tokio::time::sleep;
use tokio_util::sync::CancellationToken;

use super::carrier::{Carrier, Returned, Wish};
use super::gate::Gate;
use super::schedule::next_try;
use crate::clock::Clock;
use crate::service::{Due, LetterEvent, Service};

/// Letters under way at once, at most. Ours: a slow other end then costs eight
/// connections.
const SIDE_BY_SIDE: usize = 8;

/// How often the clock is looked at, so that a leap of it is noticed.
const LOOK: Duration = Duration::from_secs(1);

/// How long nothing is sent after the journal could not keep what became of a
/// letter: it would be sent over and over.
const UNKEPT: Duration = Duration::from_secs(5);

/// Brings the service's letters to one destination.
pub struct Courier {
    service: Arc<Service>,
    clock: Arc<dyn Clock>,
    carrier: Arc<Carrier>,
    gate: Gate,
}

/// Letters that are out, and to whom each of them goes.
#[derive(Default)]
struct Out {
    tries: JoinSet<()>,
    to: HashMap<Id, Arc<str>>,
}

impl Courier {
    /// A courier for this service's letters. There must be only one.
    pub fn new(
        service: Arc<Service>,
        clock: Arc<dyn Clock>,
        carrier: Arc<Carrier>,
    ) -> Arc<Courier> {
        Arc::new(Courier { service, clock, carrier, gate: Gate::default() })
    }

    /// Delivers until `stopping`, then ends what is out: that may take as long
    /// as one try, and whoever can't wait may drop it, at the price of a repeat
    /// under the same id.
    pub async fn run(self: Arc<Self>, stopping: CancellationToken) {
        let mut out = Out::default();
        while !stopping.is_cancelled() {
            self.send_out(&mut out);
            tokio::select! {
                () = stopping.cancelled() => {}
                Some(back) = out.tries.join_next_with_id() => self.is_back(&mut out, back),
                () = self.service.letter_posted() => {}
                () = sleep(LOOK) => {}
            }
        }
        while out.tries.join_next().await.is_some() {}
    }

    /// Tries all that is due at this instant and returns when nothing is out
    /// and nothing is due: for whoever moves the clock.
    pub async fn deliver_due(self: &Arc<Self>) {
        let mut out = Out::default();
        loop {
            self.send_out(&mut out);
            match out.tries.join_next_with_id().await {
                None => return,
                Some(back) => self.is_back(&mut out, back),
            }
        }
    }

    fn send_out(self: &Arc<Self>, out: &mut Out) {
        let now = self.clock.now();
        let room = SIDE_BY_SIDE - out.to.len();
        if room == 0 || !self.gate.is_open(now) {
            return;
        }
        let busy: HashSet<Arc<str>> = out.to.values().cloned().collect();
        for due in self.service.letters_due(now, &busy, room) {
            let (courier, to) = (Arc::clone(self), Arc::clone(&due.to));
            let task = out.tries.spawn(async move { courier.try_one(due).await });
            out.to.insert(task.id(), to);
        }
    }

    async fn try_one(&self, due: Due) {
        self.carrier.admitted().await;
        // The other end may have asked for a rest while we waited.
        if !self.gate.is_open(self.clock.now()) {
            return;
        }
        let Due { number, to, tries } = due;
        let to = to.to_string();
        let (id, carried) = match self.service.letter(number) {
            Ok(letter) => {
                let carried = self.carrier.carry(&letter, self.clock.now()).await;
                (letter.id, carried)
            }
            Err(unread) => (number.to_string(), Err(Returned::because(unread.to_string()))),
        };
        let event = match carried {
            Ok(()) => {
                tracing::debug!(%id, "delivered");
                LetterEvent::Delivered { to, letter: number }
            }
            Err(returned) => {
                let at = self.clock.now();
                match returned.wish {
                    Some(Wish::Never) => return self.shut(),
                    Some(Wish::Rest(wait)) => self.gate.rest(at, wait),
                    None => {}
                }
                let Returned { why, wait, .. } = returned;
                match next_try(&id, tries + 1, at, wait) {
                    Some(next) => {
                        tracing::warn!(%id, tries = tries + 1, %next, %why, "not delivered");
                        LetterEvent::Failed { to, letter: number, next, why }
                    }
                    None => {
                        tracing::error!(%id, %why, "given up; `lapwing outbox retry` tries again");
                        LetterEvent::Died { to, letter: number, at, why }
                    }
                }
            }
        };
        if self.service.settle(event).await.is_err() {
            self.gate.rest(self.clock.now(), UNKEPT);
        }
    }

    fn shut(&self) {
        if self.gate.shut() {
            tracing::error!("the outbox's address is gone (410): no more letters until restarted");
        }
    }

    fn is_back(&self, out: &mut Out, back: Result<(Id, ()), JoinError>) {
        let id = match back {
            Ok((id, ())) => id,
            Err(broken) => {
                tracing::error!(%broken, "a delivery broke");
                self.gate.rest(self.clock.now(), UNKEPT);
                broken.id()
            }
        };
        out.to.remove(&id);
    }
}
