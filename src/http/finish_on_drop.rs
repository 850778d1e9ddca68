//! Work that is finished though whoever waits for it goes, and drops it.
//!
//! It is done by whoever waits, and only what is left of it where they go becomes a task
//! of its own: a task for each message would wake another thread for each.

use std::any::Any;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::pin::Pin;
use std::task::{Context, Poll};

use tokio::runtime::Handle;

/// What a panic was thrown with.
pub(super) type Panic = Box<dyn Any + Send>;

/// Work under way.
pub(super) struct FinishOnDrop<T: Send + 'static> {
    /// None once it has ended.
    work: Option<Pin<Box<dyn Future<Output = T> + Send>>>,
}

impl<T: Send + 'static> FinishOnDrop<T> {
    /// Work that is begun when it is first waited for.
    pub(super) fn new(work: impl Future<Output = T> + Send + 'static) -> Self {
        FinishOnDrop { work: Some(Box::pin(work)) }
    }
}

impl<T: Send + 'static> Future for FinishOnDrop<T> {
    type Output = Result<T, Panic>;

    fn poll(mut self: Pin<&mut Self>, context: &mut Context<'_>) -> Poll<Self::Output> {
        let Some(work) = self.work.as_mut() else { return Poll::Pending };
        // What broke is dropped, and never looked at again.
        let polled = catch_unwind(AssertUnwindSafe(|| work.as_mut().poll(context)));
        let ended = match polled {
            Ok(Poll::Pending) => return Poll::Pending,
            Ok(Poll::Ready(done)) => Ok(done),
            Err(panic) => Err(panic),
        };
        self.work = None;
        Poll::Ready(ended)
    }
}

impl<T: Send + 'static> Drop for FinishOnDrop<T> {
    fn drop(&mut self) {
        // Without a runtime there is nobody left to do it.
        if let (Some(work), Ok(runtime)) = (self.work.take(), Handle::try_current()) {
            runtime.spawn(work);
        }
    }
}
