//! Sends letters out when their turn comes: to one recipient one after the
//! other, to different ones side by side.

use std::collections::{HashMap, HashSet};
use std::sync::Arc;
use std::time::Duration;

use tokio::task::{Id, JoinError, JoinSet};
use tokio::time::sleep;
use tokio_util::sync::CancellationToken;

use super::carrier::{Returned, Wish};
use super::routes::{Route, Routes};
use super::schedule::next_try;
use crate::clock::Clock;
use crate::service::{Due, LetterEvent, Service};

/// Letters under way at once on each way out, at most. Ours: a slow other end
/// then costs eight connections, and holds up no other.
const SIDE_BY_SIDE: usize = 8;

/// How often the clock is looked at, so that a leap of it is noticed.
const LOOK: Duration = Duration::from_secs(1);

/// How long nothing is sent after the journal could not keep what became of a
/// letter: it would be sent over and over.
const UNKEPT: Duration = Duration::from_secs(5);

/// Brings the service's letters where they belong.
pub struct Courier {
    service: Arc<Service>,
    clock: Arc<dyn Clock>,
    routes: Routes,
}

/// Letters that are out, to whom each of them goes, and which way.
#[derive(Default)]
struct Out {
    tries: JoinSet<()>,
    to: HashMap<Id, (Arc<str>, usize)>,
}

impl Courier {
    /// A courier for this service's letters. There must be only one.
    pub fn new(service: Arc<Service>, clock: Arc<dyn Clock>, routes: Routes) -> Arc<Courier> {
        Arc::new(Courier { service, clock, routes })
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
        for (number, route) in self.routes.iter() {
            let room = SIDE_BY_SIDE.saturating_sub(out.on(number));
            if room == 0 || !route.gate.is_open(now) {
                continue;
            }
            let busy: HashSet<Arc<str>> = out.to.values().map(|(to, _)| Arc::clone(to)).collect();
            let free = |to: &str| !busy.contains(to) && self.routes.number_for(to) == Some(number);
            for due in self.service.letters_due(now, free, room) {
                let (courier, to) = (Arc::clone(self), Arc::clone(&due.to));
                let task = out.tries.spawn(async move { courier.try_one(due, number).await });
                out.to.insert(task.id(), (to, number));
            }
        }
    }

    async fn try_one(&self, due: Due, number: usize) {
        let Some(route) = self.routes.route(number) else { return };
        let event = match self.service.is_unwanted(&due) {
            // The word came after the letter was written.
            true => Some(self.died(&due, "the recipient has opted out".to_owned())),
            false => self.carried(&due, route).await,
        };
        let Some(event) = event else { return };
        if self.service.settle(event).await.is_err() {
            route.gate.rest(self.clock.now(), UNKEPT);
        }
    }

    /// What became of one try; nothing where there was none.
    async fn carried(&self, due: &Due, route: &Route) -> Option<LetterEvent> {
        route.carrier.admitted().await;
        // The other end may have asked for a rest while we waited.
        if !route.gate.is_open(self.clock.now()) {
            return None;
        }
        let (id, carried) = match self.service.letter(due.number) {
            Ok(letter) => {
                let carried = route.carrier.carry(&letter, self.clock.now()).await;
                (letter.id, carried)
            }
            Err(unread) => (due.number.to_string(), Err(Returned::because(unread.to_string()))),
        };
        let (to, letter) = (due.to.to_string(), due.number);
        let Err(Returned { why, wait, wish }) = carried else {
            tracing::debug!(%id, "delivered");
            return Some(LetterEvent::Delivered { to, letter });
        };
        let at = self.clock.now();
        match wish {
            Some(Wish::Never) => {
                shut(route);
                return None;
            }
            Some(Wish::Rest(wait)) => route.gate.rest(at, wait),
            Some(Wish::OptedOut) => return self.opted_out_there(due, route).await,
            None => {}
        }
        match next_try(&id, due.tries + 1, at, wait) {
            Some(next) => {
                tracing::warn!(%id, tries = due.tries + 1, %next, %why, "not delivered");
                Some(LetterEvent::Failed { to, letter, next, why })
            }
            None => {
                tracing::error!(%id, %why, "given up; `lapwing outbox retry` tries again");
                Some(self.died(due, why))
            }
        }
    }

    /// The other end knows that the recipient wants no more: now we do too.
    async fn opted_out_there(&self, due: &Due, route: &Route) -> Option<LetterEvent> {
        if self.service.opt_out_elsewhere(&due.to).await.is_err() {
            route.gate.rest(self.clock.now(), UNKEPT);
            return None;
        }
        tracing::info!(letter = %due.number, "its recipient has opted out at the gateway");
        Some(self.died(due, "the recipient has opted out at the gateway".to_owned()))
    }

    fn died(&self, due: &Due, why: String) -> LetterEvent {
        LetterEvent::Died { to: due.to.to_string(), letter: due.number, at: self.clock.now(), why }
    }

    fn is_back(&self, out: &mut Out, back: Result<(Id, ()), JoinError>) {
        let broke = back.is_err();
        let id = match back {
            Ok((id, ())) => id,
            Err(broken) => {
                tracing::error!(%broken, "a delivery broke");
                broken.id()
            }
        };
        let Some((_, number)) = out.to.remove(&id) else { return };
        if broke && let Some(route) = self.routes.route(number) {
            route.gate.rest(self.clock.now(), UNKEPT);
        }
    }
}

impl Out {
    /// How many are out on this way.
    fn on(&self, number: usize) -> usize {
        self.to.values().filter(|(_, on)| *on == number).count()
    }
}

fn shut(route: &Route) {
    if route.gate.shut() {
        tracing::error!("an outbox's address is gone (410): no more letters until restarted");
    }
}
