//! What the committer, the callers and whoever looks after the journal share: the
//! ways to the database, and whether anything may be written.

use std::collections::HashMap;
use std::path::PathBuf;
use std::sync::atomic::{AtomicI64, AtomicU64, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};

use tokio_postgres_rustls::MakeRustlsConnect;

use super::batch::Batch;
use super::engine::Engine;
use super::line::{Line, Trouble, Use};
use super::pen::Pen;
use super::reader::Reader;
use super::{DatabaseUrl, tls};
use crate::clock::Clock;
use crate::journal::high_water::Reach;
use crate::journal::queue::Queue;
use crate::journal::{Entry, JournalError, Placed, StreamId};

/// How long whoever writes looks for a server that takes what he has, before those who
/// wait are told that it can't be stored now (ours).
const PATIENCE: Duration = Duration::from_secs(5);
/// How long whoever had the lock may take to let go: a process that is ending.
const GRACE: Duration = Duration::from_secs(2);
/// How long between two looks.
const PAUSE: Duration = Duration::from_millis(100);
/// Why nothing more can be written by whoever does not know the log's end.
const OVERTAKEN: &str = "another process has added to the journal";
/// For how long nothing is asked after no server was reached.
const REST: Duration = Duration::from_secs(1);

/// See the module.
pub(super) struct Shared {
    url: DatabaseUrl,
    tls: MakeRustlsConnect,
    clock: Arc<dyn Clock>,
    what_for: Use,
    engine: Engine,
    /// When nobody took what was to be written when it was last tried, and why not.
    refused: Mutex<Option<(Instant, JournalError)>>,
    writer: Mutex<Option<Writer>>,
    reader: Reader,
    pub(super) queue: Queue,
    /// The place of the last entry that is known to be durable.
    pub(super) last: AtomicU64,
    /// Which of those that took to writing we are, 0 for none of them.
    pub(super) epoch: AtomicI64,
}

/// What is needed to add to the log.
pub(super) struct Writer {
    pen: Arc<Pen>,
    end: Reach,
    /// How far each stream goes, by its tag.
    numbers: HashMap<u64, u64>,
}

impl Shared {
    /// Reaches the database, to read from it or to write to it too.
    ///
    /// # Errors
    /// It isn't reached, or another process writes.
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
            refused: Mutex::default(),
            writer: Mutex::default(),
            queue: Queue::default(),
            last: AtomicU64::new(0),
            epoch: AtomicI64::new(0),
        };
        match what_for {
            Use::Writing => {
                let writer = shared.take_pen(Instant::now() + GRACE)?;
                shared.adopt(&writer);
                *shared.writer() = Some(writer);
            }
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

    fn take_pen(&self, until: Instant) -> Result<Writer, JournalError> {
        let lets_go = until.min(Instant::now() + GRACE);
        loop {
            let (error, until) = match self.try_to_take_pen() {
                Ok(writer) => return Ok(writer),
                Err(Trouble::Refused(error @ JournalError::Locked(_))) => (error, lets_go),
                Err(Trouble::Refused(error)) => return Err(error),
                Err(lost) => (lost.error(), until),
            };
            if Instant::now() >= until {
                return Err(error);
            }
            std::thread::sleep(PAUSE);
        }
    }

    fn try_to_take_pen(&self) -> Result<Writer, Trouble> {
        let (url, tls, clock) = (self.url.clone(), self.tls.clone(), Arc::clone(&self.clock));
        let taken = self.engine.run(async move {
            let pen = Pen::take(url, tls, clock).await?;
            let numbers = pen.numbers().await?;
            Ok((pen, numbers))
        });
        let (pen, numbers) = taken.map_err(Trouble::Refused)??;
        let end = pen.end;
        Ok(Writer { pen: Arc::new(pen), end, numbers })
    }

    /// Goes by a pen from now on: what is known here goes as far as the log does.
    fn adopt(&self, writer: &Writer) {
        self.epoch.store(writer.pen.epoch, Ordering::Release);
        self.last.store(writer.end.place, Ordering::Release);
    }

    /// Adds new entries to the log. On return they are durable.
    ///
    /// # Errors
    /// They are not certain to be durable, and the journal must be opened again.
    pub(super) fn add(
        &self,
        writer: &mut Writer,
        entries: &[&Entry],
    ) -> Result<Arc<Batch>, JournalError> {
        let last = |stream: &StreamId| writer.numbers.get(&stream.tag()).copied().unwrap_or(0);
        let batch = Arc::new(Batch::of(writer.end, entries, last));
        self.put(writer, &batch)?;
        Ok(batch)
    }

    /// Adds entries as they stood in another log.
    ///
    /// # Errors
    /// As [`add`](Self::add); or they don't follow what is there.
    pub(super) fn take_over(
        &self,
        writer: &mut Writer,
        entries: &[Placed],
    ) -> Result<(), JournalError> {
        let follows = entries.first().is_none_or(|first| {
            let next = writer.end.place + 1;
            first.place.number() > next
                || (first.place.number() == next && first.before == writer.end.mark)
        });
        if !follows {
            return Err(JournalError::NotEmpty(writer.end.place));
        }
        self.put(writer, &Arc::new(Batch::again(writer.end, entries)))
    }

    /// Has a batch added, on a new line where the one breaks: then where the log ends
    /// tells what became of it.
    fn put(&self, writer: &mut Writer, batch: &Arc<Batch>) -> Result<(), JournalError> {
        let until = Instant::now() + PATIENCE;
        loop {
            let added = self.engine.run(Arc::clone(&writer.pen).append(Arc::clone(batch)))?;
            let lost = match added {
                Ok(true) => break,
                Ok(false) => OVERTAKEN.to_owned(),
                Err(Trouble::Refused(error)) => return Err(error),
                Err(Trouble::Lost(why)) => why,
            };
            tracing::warn!(%lost, "what was to be stored may be: looking");
            // It holds the lock.
            writer.pen.cut();
            *writer = self.take_pen(until)?;
            match writer.end {
                end if end == batch.to => break,
                // It was not, and now can't be by the line that broke.
                end if end == batch.from && Instant::now() < until => {}
                end if end == batch.from => return Err(JournalError::Storage(lost)),
                _ => return Err(JournalError::Storage(OVERTAKEN.into())),
            }
        }
        writer.end = batch.to;
        for (stream, (tip, _)) in &batch.tips {
            writer.numbers.insert(stream.tag(), tip.number);
        }
        self.adopt(writer);
        Ok(())
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

    /// Takes the lock and reads where the log ends, again, and lets nothing be written
    /// yet.
    ///
    /// # Errors
    /// No server takes writes, or another process writes.
    pub(super) fn prepare_to_reopen(&self) -> Result<(), JournalError> {
        if self.queue.is_closed() {
            return Err(JournalError::Closed);
        }
        if self.what_for == Use::Reading || self.queue.refusal().is_none() {
            return Ok(());
        }
        let mut refused = self.refused.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some((when, why)) = refused.as_ref()
            && when.elapsed() < REST
        {
            return Err(why.clone());
        }
        let mut writer = self.writer();
        if writer.is_none() {
            match self.try_to_take_pen() {
                Ok(taken) => *writer = Some(taken),
                Err(trouble) => {
                    let error = trouble.error();
                    *refused = Some((Instant::now(), error.clone()));
                    return Err(error);
                }
            }
        }
        *refused = None;
        Ok(())
    }

    /// The same, and then lets be written.
    ///
    /// # Errors
    /// As [`prepare_to_reopen`](Self::prepare_to_reopen).
    pub(super) fn reopen(&self) -> Result<(), JournalError> {
        if self.queue.is_closed() {
            return Err(JournalError::Closed);
        }
        if self.what_for == Use::Reading {
            return Ok(());
        }
        let mut writer = self.writer();
        // What is ready to be written with may be written with.
        if self.queue.refusal().is_none() || writer.is_none() {
            *writer = None;
            match self.take_pen(Instant::now() + GRACE) {
                Ok(taken) => *writer = Some(taken),
                Err(error) => {
                    self.stop(error.clone());
                    return Err(error);
                }
            }
        }
        if let Some(writer) = writer.as_ref() {
            self.adopt(writer);
        }
        self.queue.recover();
        Ok(())
    }

    /// Looks whether we may still write, however long nobody has.
    pub(super) fn look(&self) {
        let mut writer = self.writer();
        let Some(held) = writer.as_ref() else { return };
        let pen = Arc::clone(&held.pen);
        let why = match self.engine.run(async move { pen.look().await }) {
            Ok(Ok(())) | Err(_) => return,
            Ok(Err(Trouble::Refused(error))) => error,
            Ok(Err(Trouble::Lost(_))) => {
                held.pen.cut();
                match self.take_pen(Instant::now() + PATIENCE) {
                    Ok(taken) if taken.end == held.end => {
                        self.adopt(&taken);
                        *writer = Some(taken);
                        return;
                    }
                    Ok(_) => JournalError::Storage(OVERTAKEN.into()),
                    Err(error) => error,
                }
            }
        };
        tracing::error!(%why, "nothing can be stored");
        *writer = None;
        self.stop(why);
    }

    /// Lets nothing be written, and says why to whoever waits.
    fn stop(&self, why: JournalError) {
        for job in self.queue.fail(why.clone()) {
            let _ = job.promise.send(Err(why.clone()));
        }
    }

    /// Why nothing may be written.
    pub(super) fn refusal(&self) -> JournalError {
        let unlocked = || JournalError::Locked(PathBuf::from(self.url.to_string()));
        self.queue.refusal().unwrap_or_else(unlocked)
    }

    /// Lets go of all, for good.
    pub(super) fn close(&self) {
        *self.writer() = None;
        self.reader.close();
        self.engine.end();
    }
}
