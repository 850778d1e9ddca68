//! Sends letters out when their turn comes: to one recipient one after the
//! other, to different ones side by side. An alarm's letters are not its
//! business.

use std::collections::{HashMap, HashSet};
use std::sync::Arc;
use std::time::Duration;

use jiff::Timestamp;
use tokio::task::{Id, JoinError, JoinSet};
use tokio::time::sleep;
use tokio_util::sync::CancellationToken;

use super::carrier::{Returned, Wish};
use super::routes::{Route, Routes};
use super::schedule::{later, latest_try, next_try};
use crate::clock::Clock;
use crate::service::{Due, Instants, Letter, LetterEvent, Service};

/// Letters under way at once on each way out, at most. Ours: a slow other end
/// then costs eight connections, and holds up no other.
const SIDE_BY_SIDE: usize = 8;

/// How often the clock is looked at, so that a leap of it is noticed.
const LOOK: Duration = Duration::from_secs(1);

/// How long nothing is sent to an address that says it is gone for good (410):
/// it may have meant one letter, and it may be put right. Ours.
const GONE: Duration = Duration::from_secs(15 * 60);

/// How long nothing is sent after the journal could not keep what became of a
/// letter: it would be sent over and over.
const UNKEPT: Duration = Duration::from_secs(5);

/// Brings the service's letters where they belong.
pub struct Courier {
    service: Arc<Service>,
    clock: Arc<dyn Clock>,
    routes: Arc<Routes>,
    /// The time of day when nothing had passed: what waits for a try goes by it.
    begun: Timestamp,
}

/// Letters that are out, to whom each of them goes, and which way.
#[derive(Default)]
struct Out {
    tries: JoinSet<()>,
    to: HashMap<Id, (Arc<str>, usize)>,
}

impl Courier {
    /// A courier for this service's letters. There must be only one in a process.
    pub fn new(
        service: Arc<Service>,
        clock: Arc<dyn Clock>,
        routes: impl Into<Arc<Routes>>,
    ) -> Arc<Courier> {
        let passed = i64::try_from(clock.passed().as_secs()).unwrap_or_default();
        let now = clock.now();
        let begun = now.checked_sub(jiff::SignedDuration::from_secs(passed)).unwrap_or(now);
        service.rein_in(now, |failed| latest_try(failed, now));
        Arc::new(Courier { service, clock, routes: routes.into(), begun })
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
        let at = Instants { wall: self.clock.now(), passed: self.passed() };
        for (number, route) in self.routes.iter() {
            let room = SIDE_BY_SIDE.saturating_sub(out.on(number));
            if room == 0 || !route.pause.is_over(self.clock.passed()) {
                continue;
            }
            let busy: HashSet<Arc<str>> = out.to.values().map(|(to, _)| Arc::clone(to)).collect();
            let free = |to: &str| !busy.contains(to) && self.routes.number_for(to) == Some(number);
            for due in self.service.letters_due(at, free, room) {
                let (courier, to) = (Arc::clone(self), Arc::clone(&due.to));
                let task = out.tries.spawn(async move { courier.try_one(due, number).await });
                out.to.insert(task.id(), (to, number));
            }
        }
    }

    async fn try_one(&self, due: Due, number: usize) {
        let Some(route) = self.routes.route(number) else { return };
        let event = match self.service.letter(due.number) {
            // The word came after the letter was written.
            Ok(letter) if self.service.is_unwanted(&letter) => {
                Some(self.died(&due, "the recipient has opted out".to_owned()))
            }
            Ok(letter) => self.carried(&due, &letter, route).await,
            Err(unread) => {
                let unread = Returned::because(unread.to_string());
                Some(self.failed(&due, &due.number.to_string(), unread))
            }
        };
        let Some(event) = event else { return };
        if self.service.settle(event).await.is_err() {
            self.unkept(route);
        }
    }

    /// What became of it could not be stored.
    fn unkept(&self, route: &Route) {
        route.pause.at_least(self.clock.passed(), UNKEPT);
    }

    /// What has passed since we began, as a time of day that nobody sets.
    fn passed(&self) -> Timestamp {
        later(self.begun, self.clock.passed()).unwrap_or(Timestamp::MAX)
    }

    /// What became of one try; nothing where there was none.
    async fn carried(&self, due: &Due, letter: &Letter, route: &Route) -> Option<LetterEvent> {
        route.carrier.admitted().await;
        // The other end may have asked for a rest while we waited.
        if !route.pause.is_over(self.clock.passed()) {
            return None;
        }
        let Err(returned) = route.carrier.carry(letter, self.clock.now()).await else {
            tracing::debug!(id = %letter.id, "delivered");
            return Some(LetterEvent::Delivered { to: due.to.to_string(), letter: due.number });
        };
        let passed = self.clock.passed();
        match returned.wish {
            Some(Wish::Never) => {
                route.pause.at_least(passed, GONE);
                tracing::error!("an outbox's address says that it is gone (410): letters rest");
            }
            Some(Wish::Rest(wait)) => route.pause.at_least(passed, wait),
            Some(Wish::OptedOut) => {
                return self.opted_out_there(due, &letter.spoken.to, route).await;
            }
            Some(Wish::NotThis) | None => {}
        }
        Some(self.failed(due, &letter.id, returned))
    }

    /// A try failed; there will be another, or it was the last.
    fn failed(&self, due: &Due, id: &str, returned: Returned) -> LetterEvent {
        let Returned { why, wait, wish } = returned;
        let aside = matches!(wish, Some(Wish::NotThis | Wish::Never));
        match next_try(id, due.tries + 1, self.passed(), wait) {
            Some(next) => {
                tracing::warn!(%id, tries = due.tries + 1, %next, %why, aside, "not delivered");
                let (to, letter) = (due.to.to_string(), due.number);
                LetterEvent::Failed { to, letter, next, why, aside }
            }
            None => {
                tracing::error!(%id, %why, "given up; `lapwing outbox retry` tries again");
                self.died(due, why)
            }
        }
    }

    /// The other end knows that the recipient wants no more: now we do too.
    async fn opted_out_there(&self, due: &Due, to: &str, route: &Route) -> Option<LetterEvent> {
        if self.service.opt_out_elsewhere(to).await.is_err() {
            self.unkept(route);
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
            self.unkept(route);
        }
    }
}

impl Out {
    /// How many are out on this way.
    fn on(&self, number: usize) -> usize {
        self.to.values().filter(|(_, on)| *on == number).count()
    }
}
