//! The line that is read over: opened when something is asked, and again when it broke.

use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};

use tokio_postgres_rustls::MakeRustlsConnect;

use super::engine::Engine;
use super::line::{Line, Trouble, Use};
use super::{DatabaseUrl, schema};
use crate::journal::JournalError;

/// For how long nothing is asked after no server was reached (ours).
const REST: Duration = Duration::from_secs(1);

/// See the module.
pub(super) struct Reader {
    url: DatabaseUrl,
    tls: MakeRustlsConnect,
    what_for: Use,
    state: Mutex<State>,
}

#[derive(Default)]
struct State {
    line: Option<Arc<Line>>,
    /// When no server was reached, and why not.
    failed: Option<(Instant, JournalError)>,
}

impl Reader {
    /// One that has asked nothing yet.
    pub(super) fn new(url: DatabaseUrl, tls: MakeRustlsConnect, what_for: Use) -> Reader {
        Reader { url, tls, what_for, state: Mutex::default() }
    }

    /// Asks the database for something that may be asked twice.
    ///
    /// # Errors
    /// No server is reached, or it refuses.
    pub(super) fn ask<T, Answer>(
        &self,
        engine: &Engine,
        ask: impl Fn(Arc<Line>) -> Answer,
    ) -> Result<T, JournalError>
    where
        T: Send + 'static,
        Answer: Future<Output = Result<T, Trouble>> + Send + 'static,
    {
        let mut again = true;
        loop {
            let line = self.line(engine)?;
            match engine.run(ask(Arc::clone(&line)))? {
                Ok(answer) => return Ok(answer),
                Err(Trouble::Refused(error)) => return Err(error),
                Err(Trouble::Lost(why)) => {
                    self.hang_up(&line);
                    if !std::mem::take(&mut again) {
                        return Err(JournalError::Storage(why));
                    }
                }
            }
        }
    }

    /// The line, made where there is none.
    fn line(&self, engine: &Engine) -> Result<Arc<Line>, JournalError> {
        let mut state = self.state();
        if let Some(line) = &state.line {
            return Ok(Arc::clone(line));
        }
        // Those who wait here must not wait one after the other.
        if let Some((when, why)) = &state.failed
            && when.elapsed() < REST
        {
            return Err(why.clone());
        }
        let (url, tls, what_for) = (self.url.clone(), self.tls.clone(), self.what_for);
        let opened = engine.run(async move {
            let line = Line::open(&url, tls, what_for).await?;
            schema::require(&line, &url).await?;
            Ok(line)
        })?;
        match opened {
            Ok(line) => {
                let line = Arc::new(line);
                *state = State { line: Some(Arc::clone(&line)), failed: None };
                Ok(line)
            }
            Err(trouble) => {
                let error = Trouble::error(trouble);
                state.failed = Some((Instant::now(), error.clone()));
                Err(error)
            }
        }
    }

    fn hang_up(&self, line: &Arc<Line>) {
        let mut state = self.state();
        if state.line.as_ref().is_some_and(|one| Arc::ptr_eq(one, line)) {
            state.line = None;
        }
    }

    /// Hangs up.
    pub(super) fn close(&self) {
        self.state().line = None;
    }

    fn state(&self) -> MutexGuard<'_, State> {
        self.state.lock().unwrap_or_else(PoisonError::into_inner)
    }
}
