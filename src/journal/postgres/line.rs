//! A line to the database, and what became of what was asked over it.

use std::future::poll_fn;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Duration;

use tokio::task::AbortHandle;
use tokio_postgres::error::SqlState;
use tokio_postgres::{AsyncMessage, Client, Error};
use tokio_postgres_rustls::MakeRustlsConnect;

use super::{DatabaseUrl, hosts};
use crate::journal::JournalError;

/// How long an answer may take (ours): then the line counts as cut, and what was
/// asked as unknown. It is never called off: a server whose wait for its standby is
/// called off says that it has stored what it may lose.
const ANSWER: Duration = Duration::from_secs(5);
/// The same for what is long.
const LONG_ANSWER: Duration = Duration::from_secs(120);

/// What a session is told first: commits count once they are durable, on the standbys
/// too where there are any; a server that lost us lets go of our lock soon, and of what we
/// waited for (where its system can tell it); who stands still while he holds the log's end
/// is cut off.
const SETTINGS: &str = "
    select set_config('synchronous_commit', 'on', false)
        where current_setting('synchronous_commit') in ('off', 'local');
    set statement_timeout = 0;
    set idle_session_timeout = 0;
    set idle_in_transaction_session_timeout = '2 s';
    set tcp_keepalives_idle = 5;
    set tcp_keepalives_interval = 2;
    set tcp_keepalives_count = 3;
    do $$ begin
        set client_connection_check_interval = '5 s';
    exception when others then
        null;
    end $$;
    set client_min_messages = warning;
";

/// Why something was not done, or is not known to be.
#[derive(Debug)]
pub(super) enum Trouble {
    /// The line is gone: it may have been done.
    Lost(String),
    /// It was not done.
    Refused(JournalError),
}

/// What a line is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Use {
    /// Reading, from whichever server answers.
    Reading,
    /// Writing: from the one that takes writes.
    Writing,
}

/// An open line.
pub(super) struct Line {
    pub client: Client,
    /// The server warned of something meanwhile: mostly that it did not wait for its
    /// standby.
    doubted: Arc<AtomicBool>,
    carrier: AbortHandle,
}

impl Line {
    /// Connects.
    ///
    /// # Errors
    /// Nobody answers there, or not to us.
    pub(super) async fn open(
        url: &DatabaseUrl,
        tls: MakeRustlsConnect,
        what_for: Use,
    ) -> Result<Line, Trouble> {
        let connected = tokio::time::timeout(ANSWER, hosts::connect(url, &tls, what_for)).await;
        let (client, mut connection) =
            connected.unwrap_or_else(|_| Err(Trouble::silent(ANSWER)))?;
        let doubted = Arc::new(AtomicBool::new(false));
        let theirs = Arc::clone(&doubted);
        let carrier = tokio::spawn(async move {
            while let Some(message) = poll_fn(|context| connection.poll_message(context)).await {
                match message {
                    Ok(AsyncMessage::Notice(notice)) => {
                        theirs.store(true, Ordering::Release);
                        tracing::warn!(%notice, "the database warns");
                    }
                    Ok(_) => {}
                    Err(error) => {
                        tracing::debug!(%error, "a line to the database is gone");
                        break;
                    }
                }
            }
        });
        let line = Line { client, doubted, carrier: carrier.abort_handle() };
        line.within(line.client.batch_execute(SETTINGS)).await?;
        Ok(line)
    }

    /// Cuts it: the server lets go of what it held for us once it has done what it was
    /// asked last.
    pub(super) fn cut(&self) {
        self.carrier.abort();
    }

    /// Waits for an answer.
    ///
    /// # Errors
    /// It does not come, or is a refusal; or the server warned meanwhile, and what
    /// was asked may be lost.
    pub(super) async fn within<T>(
        &self,
        answer: impl Future<Output = Result<T, Error>>,
    ) -> Result<T, Trouble> {
        self.sure(within(ANSWER, answer).await?)
    }

    /// The same of what is long.
    ///
    /// # Errors
    /// As [`within`](Self::within).
    pub(super) async fn long<T>(
        &self,
        answer: impl Future<Output = Result<T, Error>>,
    ) -> Result<T, Trouble> {
        self.sure(within(LONG_ANSWER, answer).await?)
    }

    fn sure<T>(&self, answer: T) -> Result<T, Trouble> {
        match self.doubted.load(Ordering::Acquire) {
            true => Err(Trouble::Lost("the database warned of what it stored".into())),
            false => Ok(answer),
        }
    }
}

impl Drop for Line {
    fn drop(&mut self) {
        self.cut();
    }
}

async fn within<T>(
    at_most: Duration,
    answer: impl Future<Output = Result<T, Error>>,
) -> Result<T, Trouble> {
    match tokio::time::timeout(at_most, answer).await {
        Ok(Ok(answer)) => Ok(answer),
        Ok(Err(error)) => Err(Trouble::of(&error)),
        Err(_) => Err(Trouble::silent(at_most)),
    }
}

impl Trouble {
    /// That nothing was said for so long.
    fn silent(so_long: Duration) -> Trouble {
        Trouble::Lost(format!("no answer within {} s", so_long.as_secs()))
    }

    /// What an error means.
    pub(super) fn of(error: &Error) -> Trouble {
        let Some(said) = error.as_db_error() else { return Trouble::Lost(told(error)) };
        let class = said.code().code().get(..2).unwrap_or_default();
        let words = format!("the database: {} ({})", said.message(), said.code().code());
        if *said.code() == SqlState::DISK_FULL {
            return Trouble::Refused(JournalError::Full { detail: words });
        }
        // It is going down or coming up, is a standby by now, or gave way to another.
        let passes = matches!(class, "08" | "57" | "40")
            || *said.code() == SqlState::READ_ONLY_SQL_TRANSACTION;
        match passes {
            true => Trouble::Lost(words),
            false => Trouble::Refused(JournalError::Storage(words)),
        }
    }

    /// The error to tell.
    pub(super) fn error(self) -> JournalError {
        match self {
            Trouble::Lost(why) => JournalError::Storage(why),
            Trouble::Refused(error) => error,
        }
    }
}

/// An error with what is behind it.
fn told(error: &Error) -> String {
    match std::error::Error::source(error) {
        Some(cause) => format!("the database: {error}: {cause}"),
        None => format!("the database: {error}"),
    }
}
