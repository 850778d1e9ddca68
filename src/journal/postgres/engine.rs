//! The one thread that talks to the database, and how other threads have it do
//! so. Knows no tables.

use std::future::Future;
use std::sync::mpsc;
use std::sync::{Mutex, PoisonError};
use std::thread::JoinHandle;

use tokio::runtime::{Builder, Handle, RuntimeFlavor};
use tokio::sync::oneshot;

use crate::journal::JournalError;

/// The thread.
#[derive(Debug)]
pub(super) struct Engine {
    handle: Handle,
    stop: Mutex<Option<oneshot::Sender<()>>>,
    thread: Mutex<Option<JoinHandle<()>>>,
}

impl Engine {
    /// Begins.
    ///
    /// # Errors
    /// There is no thread to be had.
    pub(super) fn begin() -> Result<Engine, JournalError> {
        let failed = |error: std::io::Error| {
            JournalError::Storage(format!("no thread to reach the database with: {error}"))
        };
        let runtime = Builder::new_current_thread().enable_all().build().map_err(failed)?;
        let handle = runtime.handle().clone();
        let (stop, stopped) = oneshot::channel();
        let thread = std::thread::Builder::new()
            .name("database".into())
            .spawn(move || drop(runtime.block_on(stopped)))
            .map_err(failed)?;
        let (stop, thread) = (Mutex::new(Some(stop)), Mutex::new(Some(thread)));
        Ok(Engine { handle, stop, thread })
    }

    /// Has that done, and waits for it. May be called on any thread; on one that
    /// answers requests, others take over its work meanwhile.
    ///
    /// # Errors
    /// The engine has ended.
    pub(super) fn run<T: Send + 'static>(
        &self,
        work: impl Future<Output = T> + Send + 'static,
    ) -> Result<T, JournalError> {
        let (tell, told) = mpsc::sync_channel(1);
        self.handle.spawn(async move {
            // Whoever asked may have gone.
            let _ = tell.send(work.await);
        });
        aside(|| told.recv()).map_err(|_| JournalError::Closed)
    }

    /// Ends, whatever is under way.
    pub(super) fn end(&self) {
        self.stop.lock().unwrap_or_else(PoisonError::into_inner).take();
        let thread = self.thread.lock().unwrap_or_else(PoisonError::into_inner).take();
        if thread.is_some_and(|thread| thread.join().is_err()) {
            tracing::error!("what talks to the database had panicked");
        }
    }
}

/// Waits without keeping a thread of a runtime of several from its work.
fn aside<T>(wait: impl FnOnce() -> T) -> T {
    match Handle::try_current().map(|runtime| runtime.runtime_flavor()) {
        Ok(RuntimeFlavor::MultiThread) => tokio::task::block_in_place(wait),
        _ => wait(),
    }
}
