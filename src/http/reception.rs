//! Hands a message to the service and sees it through, whatever becomes of
//! whoever brought it.

use std::sync::Arc;
use std::time::Duration;

use tokio::sync::{OwnedSemaphorePermit, Semaphore};
use tokio::time::timeout;
use tokio_util::sync::CancellationToken;

use super::finish_on_drop::FinishOnDrop;
use super::{Limits, Metrics, Neighbours, Problem, problem};
use crate::background;
use crate::desk;
use crate::service::{Answer, Body, Failure, Incoming, Service, WayBack};

/// How many more messages may be under way where they can't wait.
const URGENT: usize = 256;

/// Where every door brings its messages.
#[derive(Clone)]
pub struct Reception {
    service: Arc<Service>,
    limits: Limits,
    stopping: CancellationToken,
    metrics: Arc<Metrics>,
    /// Places for messages under way.
    under_way: Arc<Semaphore>,
    /// Places that are kept for what can't wait.
    urgent: Arc<Semaphore>,
    /// The other machines, where they and this one know each other.
    neighbours: Option<Arc<Neighbours>>,
}

impl Reception {
    /// A reception before this service, open until `stopping`.
    pub fn new(service: Arc<Service>, limits: Limits, stopping: CancellationToken) -> Reception {
        let under_way = Arc::new(Semaphore::new(limits.under_way));
        let urgent = Arc::new(Semaphore::new(URGENT));
        let metrics = Arc::default();
        Reception { service, limits, stopping, metrics, under_way, urgent, neighbours: None }
    }

    /// The same with other machines, which are told of this one: each squad's messages go
    /// to one of them.
    #[must_use]
    pub fn with_neighbours(self, neighbours: Neighbours) -> Reception {
        self.service.announce(neighbours.own().clone());
        Reception { neighbours: Some(Arc::new(neighbours)), ..self }
    }

    /// The other machines, where they and this one know each other.
    pub(super) fn neighbours(&self) -> Option<&Neighbours> {
        self.neighbours.as_deref()
    }

    /// The limits in force.
    pub fn limits(&self) -> Limits {
        self.limits
    }

    /// Cancelled once we are told to stop.
    pub fn stopping(&self) -> &CancellationToken {
        &self.stopping
    }

    /// Passes while messages are taken.
    ///
    /// # Errors
    /// 503 once we are stopping.
    pub fn open(&self) -> Result<(), Problem> {
        if self.stopping.is_cancelled() {
            return Err(Problem::unavailable("the server is stopping").hanging_up());
        }
        Ok(())
    }

    /// What is counted, for all that come by here.
    pub fn metrics(&self) -> Arc<Metrics> {
        Arc::clone(&self.metrics)
    }

    /// Passes while messages are taken and can be stored.
    ///
    /// # Errors
    /// 503 once we are stopping, or while the store has failed.
    pub fn ready(&self) -> Result<(), Problem> {
        self.open()?;
        Ok(self.service.ready()?)
    }

    /// How many letters wait to be delivered.
    pub fn letters_waiting(&self) -> usize {
        self.service.letters_waiting()
    }

    /// Whether this is the one of several processes that sends.
    pub fn leads(&self) -> bool {
        self.service.leads()
    }

    /// How often something was decided again, since another process had changed what it
    /// stood on.
    pub fn decided_again(&self) -> u64 {
        self.service.decided_again()
    }

    /// How many alarms have reached nobody who can help, and since when there is
    /// one.
    pub fn unheard(&self) -> (usize, Option<jiff::Timestamp>) {
        let unheard = self.service.unheard();
        (unheard.len(), unheard.first().map(|one| one.at))
    }

    /// The answer to a message. Once begun it runs to its end, even if the
    /// caller hangs up and this future is dropped.
    ///
    /// # Errors
    /// The service's failure, 503 where the answer takes too long (the message
    /// may be stored all the same), or 500 for a fault.
    pub async fn receive(&self, incoming: Incoming) -> Result<Answer, Problem> {
        self.receive_by(incoming, WayBack::default()).await
    }

    /// The same for a channel with its own way back.
    ///
    /// # Errors
    /// As [`receive`](Self::receive).
    pub async fn receive_by(&self, incoming: Incoming, back: WayBack) -> Result<Answer, Problem> {
        if let Some(answer) = self.elsewhere(&incoming, &back).await {
            self.metrics.message(&incoming.channel, "brought_on");
            return Ok(answer);
        }
        self.receive_here(incoming, back).await
    }

    /// The answer of the machine that answers for the message's squad, if that is another.
    async fn elsewhere(&self, incoming: &Incoming, back: &WayBack) -> Option<Answer> {
        let neighbours = self.neighbours.as_ref()?;
        self.open().ok()?;
        let machine = self.service.preferred_machine(incoming)?;
        neighbours.bring(machine, incoming, back).await
    }

    /// The answer to a message, from this machine.
    ///
    /// # Errors
    /// As [`receive`](Self::receive).
    pub(super) async fn receive_here(
        &self,
        incoming: Incoming,
        back: WayBack,
    ) -> Result<Answer, Problem> {
        let service = Arc::clone(&self.service);
        let channel = incoming.channel.clone();
        let place = match self.place_for(&incoming) {
            Ok(place) => place,
            Err(full) => {
                self.metrics.message(&channel, "shed");
                return Err(full);
            }
        };
        let work = async move {
            // Kept until it ends, whether or not its bringer waits for that.
            let _place = place;
            service.receive_by(incoming, back).await
        };
        let seen = self.see_through(work).await;
        let outcome = match &seen {
            Ok(answer) if answer.duplicate => "duplicate",
            Ok(_) => "answered",
            Err(problem) if problem.status().is_server_error() => "failed",
            Err(_) => "refused",
        };
        self.metrics.message(&channel, outcome);
        seen
    }

    /// A place for a message among those under way: what can't wait finds one where
    /// others don't.
    fn place_for(&self, incoming: &Incoming) -> Result<OwnedSemaphorePermit, Problem> {
        if let Ok(place) = Arc::clone(&self.under_way).try_acquire_owned() {
            return Ok(place);
        }
        let urgent = matches!(&incoming.body, Body::Text(text) if desk::is_urgent(text));
        let place = urgent.then(|| Arc::clone(&self.urgent).try_acquire_owned().ok()).flatten();
        place.ok_or_else(|| {
            Problem::unavailable("too much at once; send it again with the same id")
                .retried_after(Duration::from_secs(1))
        })
    }

    /// True if a bare word of this person's answers what we asked of danger.
    pub fn is_asked_of_danger(&self, from: &str) -> bool {
        self.service.is_asked_of_danger(from)
    }

    /// True if we said these very words lately: a chat may bring them back.
    pub fn has_said(&self, text: &str) -> bool {
        self.service.has_said(text)
    }

    /// What a page, or whoever owns the folder, asks of the service. Once begun it runs
    /// to its end, as a message does.
    ///
    /// # Errors
    /// As [`receive`](Self::receive).
    pub async fn ask<T: Send + 'static, Work>(
        &self,
        ask: impl FnOnce(Arc<Service>) -> Work,
    ) -> Result<T, Problem>
    where
        Work: Future<Output = Result<T, Failure>> + Send + 'static,
    {
        self.open()?;
        self.see_through(ask(Arc::clone(&self.service))).await
    }

    async fn see_through<T: Send + 'static>(
        &self,
        work: impl Future<Output = Result<T, Failure>> + Send + 'static,
    ) -> Result<T, Problem> {
        background::heard();
        match timeout(self.limits.answer, FinishOnDrop::new(work)).await {
            Ok(Ok(done)) => Ok(done?),
            Ok(Err(panic)) => Err(problem::of_panic(&*panic)),
            Err(_) => {
                tracing::error!("the service took too long to answer");
                Err(Problem::unavailable("no answer in time; send it again with the same id"))
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use std::future::pending;

    use axum::http::StatusCode;
    use tokio::sync::oneshot;

    use super::*;
    use crate::clock::{ClockMode, WallClock};
    use crate::journal::SledJournal;

    fn reception(answer: Duration) -> (Reception, tempfile::TempDir) {
        let dir = tempfile::tempdir().unwrap();
        let journal = Arc::new(SledJournal::open(dir.path().join("journal")).unwrap());
        let service = Service::open(journal, Arc::new(WallClock), ClockMode::Wall).unwrap();
        let limits = Limits { answer, ..Limits::default() };
        (Reception::new(service, limits, CancellationToken::new()), dir)
    }

    #[tokio::test]
    async fn an_answer_that_does_not_come_is_a_503() {
        let (reception, _dir) = reception(Duration::from_millis(20));
        let waited = reception.see_through(pending::<Result<(), Failure>>()).await;
        assert_eq!(waited.unwrap_err().status(), StatusCode::SERVICE_UNAVAILABLE);
    }

    #[tokio::test]
    async fn a_panic_behind_the_counter_is_a_500() {
        let (reception, _dir) = reception(Duration::from_secs(9));
        let broken =
            reception.see_through(async { panic!("a fault") as Result<(), Failure> }).await;
        assert_eq!(broken.unwrap_err().status(), StatusCode::INTERNAL_SERVER_ERROR);
    }

    #[tokio::test]
    async fn what_was_begun_ends_though_its_bringer_left() {
        let (reception, _dir) = reception(Duration::from_secs(9));
        let (go, gone) = oneshot::channel::<()>();
        let (tell, told) = oneshot::channel();
        let brought = reception.see_through(async move {
            gone.await.map_err(|_| Failure::Unavailable)?;
            tell.send(()).map_err(|()| Failure::Unavailable)
        });
        // Polled once, then dropped, as hyper does when a client hangs up.
        assert!(timeout(Duration::from_millis(20), brought).await.is_err());
        go.send(()).unwrap();
        told.await.unwrap();
    }
}
