//! The promise that something queued will be durable. Knows nothing of what
//! was queued.

use std::future::Future;
use std::pin::Pin;
use std::task::{Context, Poll};

use tokio::sync::oneshot;

use super::{JournalError, Seq};

/// Resolves once what it stands for is on the disk, or never will be.
///
/// Dropping it takes nothing back: what was queued is still written.
#[derive(Debug)]
#[must_use = "only a resolved ticket says that anything is stored"]
pub struct Ticket(oneshot::Receiver<Result<Seq, JournalError>>);

/// The committer's end of a ticket.
pub(super) type Promise = oneshot::Sender<Result<Seq, JournalError>>;

impl Ticket {
    /// A ticket and the end by which it is resolved.
    pub(super) fn pair() -> (Promise, Self) {
        let (promise, receiver) = oneshot::channel();
        (promise, Self(receiver))
    }

    /// A ticket for what is durable already, at this place: for journals that need
    /// not wait.
    pub fn resolved(place: Seq) -> Self {
        let (promise, ticket) = Self::pair();
        // The receiver is in `ticket`, so the send can't fail.
        let _ = promise.send(Ok(place));
        ticket
    }

    /// A ticket that has failed before anything was queued.
    pub(super) fn refused(error: JournalError) -> Self {
        let (promise, ticket) = Self::pair();
        // The receiver is in `ticket`, so the send can't fail.
        let _ = promise.send(Err(error));
        ticket
    }

    /// Blocks until the ticket resolves: for threads outside an async runtime.
    /// Inside one, await the ticket instead; blocking there panics.
    ///
    /// # Errors
    /// What kept it from being stored.
    pub fn wait(self) -> Result<Seq, JournalError> {
        self.0.blocking_recv().unwrap_or(Err(JournalError::Closed))
    }
}

impl Future for Ticket {
    type Output = Result<Seq, JournalError>;

    fn poll(mut self: Pin<&mut Self>, context: &mut Context<'_>) -> Poll<Self::Output> {
        // A promise dropped without a word means that the committer is gone.
        Pin::new(&mut self.0)
            .poll(context)
            .map(|answer| answer.unwrap_or(Err(JournalError::Closed)))
    }
}
