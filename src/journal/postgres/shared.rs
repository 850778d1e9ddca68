//! What the committer, the callers and whoever looks after the journal share: the
//! ways to the database, and whether anything may be written.

use std::sync::atomic::{AtomicI64, AtomicU64, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, OnceLock, PoisonError, RwLock, Weak};

use tokio_postgres_rustls::MakeRustlsConnect;

use super::engine::Engine;
use super::line::{Line, Trouble, Use};
use super::pen::Pen;
use super::reader::Reader;
use super::waiting::Waiting;
use super::writer::Writer;
use super::{DatabaseUrl, tls};
use crate::clock::Clock;
use crate::journal::{Follower, JournalError, Machine, Placed};

/// By how many seconds our clock and the database's may differ (ours): what is due, and
/// who is to be asked what when, goes by ours.
const CLOCKS_APART: u64 = 30;

/// See the module.
pub(super) struct Shared {
    url: DatabaseUrl,
    tls: MakeRustlsConnect,
    clock: Arc<dyn Clock>,
    what_for: Use,
    engine: Engine,
    writer: Mutex<Option<Writer>>,
    reader: Reader,
    follower: OnceLock<Weak<dyn Follower>>,
    pub(super) queue: Waiting,
    /// The place of the last entry that is known to be durable.
    pub(super) last: AtomicU64,
    /// The place up to which all is known to be on the standbys.
    pub(super) sure: AtomicU64,
    /// How often something was put in other words, as far as what is folded here knows.
    pub(super) revised: AtomicI64,
    /// This one, as the others are told; nothing where they are not.
    pub(super) own: OnceLock<Machine>,
    machines: RwLock<Arc<[Machine]>>,
}

impl Shared {
    /// Reaches the database, to read from it or to write to it too.
    ///
    /// # Errors
    /// It isn't reached; to write, also where our clock is not its own.
    pub(super) fn open(
        url: DatabaseUrl,
        clock: Arc<dyn Clock>,
        what_for: Use,
    ) -> Result<Shared, JournalError> {
        let tls = tls::connector(&url)?;
        let shared = Shared {
            reader: Reader::new(url.clone(), tls.clone(), what_for),
            tls,
            url,
            clock,
            what_for,
            engine: Engine::begin()?,
            writer: Mutex::default(),
            follower: OnceLock::new(),
            queue: Waiting::default(),
            last: AtomicU64::new(0),
            sure: AtomicU64::new(0),
            revised: AtomicI64::new(0),
            own: OnceLock::new(),
            machines: RwLock::default(),
        };
        match what_for {
            Use::Writing => *shared.writer() = Some(Writer::begin(&shared)?),
            Use::Reading => {
                let last = "select place from lapwing.head";
                let row = shared.ask(move |line| async move {
                    line.within(line.client.query_one(last, &[])).await
                })?;
                shared.last.store(row.get::<_, i64>(0).cast_unsigned(), Ordering::Release);
            }
        }
        Ok(shared)
    }

    /// What it was opened for.
    pub(super) fn what_for(&self) -> Use {
        self.what_for
    }

    /// Whoever adds to the log; none where nobody may.
    pub(super) fn writer(&self) -> MutexGuard<'_, Option<Writer>> {
        self.writer.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// From now on this one folds what is added.
    pub(super) fn follow(&self, follower: Weak<dyn Follower>) {
        // The first one holds.
        let _ = self.follower.set(follower);
    }

    /// Whoever folds what is added, if anybody does.
    pub(super) fn follower(&self) -> Option<Arc<dyn Follower>> {
        self.follower.get()?.upgrade()
    }

    /// Those that serve, as was seen last.
    pub(super) fn machines(&self) -> Arc<[Machine]> {
        Arc::clone(&self.machines.read().unwrap_or_else(PoisonError::into_inner))
    }

    /// From now on these serve.
    pub(super) fn saw(&self, machines: Vec<Machine>) {
        *self.machines.write().unwrap_or_else(PoisonError::into_inner) = machines.into();
    }

    /// Has entries folded that are durable now.
    ///
    /// # Errors
    /// One can't be read.
    pub(super) fn hand_over(&self, entries: Vec<Placed>) -> Result<(), JournalError> {
        match self.follower().filter(|_| !entries.is_empty()) {
            Some(follower) => follower.take_in(entries),
            None => Ok(()),
        }
    }

    /// Has something done by the thread that talks to the database.
    ///
    /// # Errors
    /// The journal is closed.
    pub(super) fn run<T: Send + 'static>(
        &self,
        work: impl Future<Output = T> + Send + 'static,
    ) -> Result<T, JournalError> {
        self.engine.run(work)
    }

    /// Opens a line.
    ///
    /// # Errors
    /// No server is reached.
    pub(super) fn open_line(&self, what_for: Use) -> Result<Line, Trouble> {
        let (url, tls) = (self.url.clone(), self.tls.clone());
        let opened = self.run(async move { Line::open(&url, tls, what_for).await });
        opened.map_err(Trouble::Refused)?
    }

    /// Opens a line to write over.
    ///
    /// # Errors
    /// No server takes writes, or it keeps nothing for sure.
    pub(super) fn open_pen(&self) -> Result<Arc<Pen>, Trouble> {
        let opened = self.run(Pen::open(self.url.clone(), self.tls.clone()));
        opened.map_err(Trouble::Refused)?.map(Arc::new)
    }

    /// Passes while the database's clock, which shows these seconds, is ours.
    ///
    /// # Errors
    /// One of them is wrong.
    pub(super) fn compare_clocks(&self, theirs: i64) -> Result<(), Trouble> {
        // Half seconds are the way there and back.
        let off = self.clock.now().as_second() - theirs;
        match off.unsigned_abs() {
            0..=2 => Ok(()),
            seconds @ 3..=CLOCKS_APART => {
                tracing::debug!(seconds, "this machine's clock and the database's are apart");
                Ok(())
            }
            seconds => Err(Trouble::Refused(JournalError::Storage(format!(
                "this machine's clock is {seconds} s {} the database's: one of them is wrong",
                if off > 0 { "ahead of" } else { "behind" }
            )))),
        }
    }

    /// Asks the database for something that may be asked twice.
    ///
    /// # Errors
    /// No server is reached, or it refuses; or the journal is closed.
    pub(super) fn ask<T, Answer>(
        &self,
        ask: impl Fn(Arc<Line>) -> Answer,
    ) -> Result<T, JournalError>
    where
        T: Send + 'static,
        Answer: Future<Output = Result<T, Trouble>> + Send + 'static,
    {
        match self.queue.is_closed() {
            true => Err(JournalError::Closed),
            false => self.reader.ask(&self.engine, ask),
        }
    }

    /// Lets go of all, for good.
    pub(super) fn close(&self) {
        *self.writer() = None;
        self.reader.close();
        self.engine.end();
    }
}
