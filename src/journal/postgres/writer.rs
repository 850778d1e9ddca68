//! Adding to a log that others add to as well: what others added is learnt (`learning`),
//! what stands on it is given back, the rest goes behind it.
//!
//! A step whose outcome is unknown, since the line broke, is settled on the next line:
//! what stands at its place bears its mark, or something else does and the step can't
//! happen any more, or nothing does and the same step is tried again.

use std::collections::VecDeque;
use std::sync::Arc;
use std::sync::atomic::Ordering;
use std::thread;
use std::time::{Duration, Instant};

use super::batch::Batch;
use super::known::Known;
use super::learning::learnt;
use super::line::Trouble;
use super::pen::{PAGE, Pen};
use super::reading;
use super::shared::Shared;
use super::waiting::{Job, apart};
use crate::journal::ticket::Promise;
use crate::journal::waiters::refuse;
use crate::journal::{Entry, JournalError, Placed, Seq};

/// How long a server is looked for that takes what is to be written, before those who
/// wait are told that it can't be stored now (ours).
pub(super) const PATIENCE: Duration = Duration::from_secs(5);
/// How long between two looks.
pub(super) const PAUSE: Duration = Duration::from_millis(100);

/// What is needed to add to the log.
pub(super) struct Writer {
    /// None where the line broke.
    pub(super) pen: Option<Arc<Pen>>,
    pub(super) known: Known,
    /// What was learnt and is not yet folded.
    pub(super) fresh: Vec<Placed>,
    /// Those whose entries are given back, once that is folded.
    pub(super) moved: Vec<Promise>,
    /// Somebody else was quicker the last time: the end is held before anything is added.
    contended: bool,
    /// Since when it is known that something was erased that is folded here.
    pub(super) revised_since: Option<Instant>,
    pub(super) looked: Instant,
    /// What can't be folded: nothing is done any more.
    pub(super) unread: Option<JournalError>,
    /// Somebody follows since, and was not handed what was learnt before.
    pub(super) followed: bool,
    /// What is folded is of another log, and has to be read anew.
    pub(super) begins_anew: bool,
}

/// A step that was sent, and what became of it unknown.
struct Sent {
    batch: Arc<Batch>,
    /// It is known by now: it is in the log.
    happened: bool,
}

/// What became of a try.
enum Tried {
    /// All of them know what became of theirs.
    Told,
    /// Others were quicker.
    Again,
}

impl Writer {
    /// Opens a line and learns where the log ends.
    ///
    /// # Errors
    /// No server takes writes within some seconds, it keeps nothing for sure, or its clock
    /// is not ours.
    pub(super) fn begin(shared: &Shared) -> Result<Writer, JournalError> {
        let until = Instant::now() + PATIENCE;
        loop {
            let begun = shared.open_pen().and_then(|pen| {
                let seen = run(shared, Arc::clone(&pen).look(u64::MAX >> 1))?;
                shared.compare_clocks(seen.time)?;
                Ok((learnt(shared, &pen)?, pen))
            });
            match begun {
                Ok((known, pen)) => {
                    return Ok(Writer {
                        pen: Some(pen),
                        known,
                        fresh: Vec::new(),
                        moved: Vec::new(),
                        contended: false,
                        revised_since: None,
                        looked: Instant::now(),
                        unread: None,
                        followed: false,
                        begins_anew: false,
                    });
                }
                Err(Trouble::Lost(_)) if Instant::now() < until => thread::sleep(PAUSE),
                Err(trouble) => return Err(trouble.error()),
            }
        }
    }

    /// Adds what was waited with. On return everybody knows what became of theirs.
    ///
    /// # Errors
    /// Some are not certain to be stored.
    pub(super) fn put(&mut self, shared: &Shared, jobs: Vec<Job>) -> Result<(), JournalError> {
        let until = Instant::now() + PATIENCE;
        let mut waiting = VecDeque::from(jobs);
        while !waiting.is_empty() {
            let (mut together, later) = apart(waiting);
            waiting = later;
            let mut sent = None;
            let failed = loop {
                match self.try_to_put(shared, &mut together, &mut sent) {
                    Ok(Tried::Told) => break None,
                    Ok(Tried::Again) => {}
                    Err(Trouble::Lost(why)) if Instant::now() < until => {
                        tracing::warn!(%why, "what was to be stored may be: looking");
                        self.pen = None;
                        thread::sleep(PAUSE);
                    }
                    Err(trouble) => break Some(trouble.error()),
                }
            };
            if let Some(why) = failed {
                self.pen = None;
                let waiting = together.into_iter().chain(waiting).map(|job| job.promise);
                for promise in waiting.chain(self.moved.drain(..)) {
                    refuse(promise, &why);
                }
                return Err(why);
            }
        }
        Ok(())
    }

    /// Tries to add them; `sent` is the step of which it isn't known whether it happened.
    fn try_to_put(
        &mut self,
        shared: &Shared,
        jobs: &mut Vec<Job>,
        sent: &mut Option<Sent>,
    ) -> Result<Tried, Trouble> {
        self.can_go_on(shared)?;
        let pen = self.pen(shared)?;
        if let Some(Sent { batch, happened: true }) = sent {
            // Nobody is told before it is on the standbys.
            run(shared, async move { pen.take().await })?;
            return self.tell(shared, jobs, batch);
        }
        let holds = self.contended || sent.is_some();
        if holds {
            let seen = run(shared, Arc::clone(&pen).hold(self.known.end.place))?;
            self.contended = !seen.frames.is_empty();
            let batch = sent.take().map(|sent| sent.batch);
            let happened = batch.filter(|batch| is_in(batch, &seen.frames));
            self.learn(shared, &seen)?;
            *sent = happened.map(|batch| Sent { batch, happened: true });
            // Or so far behind, that it would be held for long.
            if sent.is_some() || seen.frames.len() == PAGE {
                run(shared, pen.let_go())?;
                return Ok(Tried::Again);
            }
        }
        self.give_back(jobs);
        if jobs.is_empty() {
            if holds {
                run(shared, pen.let_go())?;
            }
            self.hand_over(shared)?;
            return Ok(Tried::Told);
        }
        let entries: Vec<&Entry> = jobs.iter().map(|job| &job.entry).collect();
        let known = &self.known;
        let batch = Arc::new(Batch::of(known.end, &entries, |stream| known.number(stream)));
        let theirs = Arc::clone(&batch);
        let added = match holds {
            true => run(shared, Arc::clone(&pen).append_held(theirs)),
            false => run(shared, Arc::clone(&pen).append(theirs)),
        };
        match added {
            Ok(true) => {
                self.learn_own(shared, jobs, &batch)?;
                self.tell(shared, jobs, &batch)
            }
            // It can't be while the end is held.
            Ok(false) if holds => {
                Err(Trouble::Lost("the log's end moved while it was held".into()))
            }
            Ok(false) => {
                self.contended = true;
                Ok(Tried::Again)
            }
            Err(trouble) => {
                if matches!(trouble, Trouble::Lost(_)) {
                    *sent = Some(Sent { batch, happened: false });
                }
                Err(trouble)
            }
        }
    }

    /// Tells those whose entries are stored, once these are folded.
    fn tell(
        &mut self,
        shared: &Shared,
        jobs: &mut Vec<Job>,
        batch: &Batch,
    ) -> Result<Tried, Trouble> {
        shared.sure.fetch_max(batch.to.place, Ordering::AcqRel);
        self.hand_over(shared)?;
        for (job, place) in jobs.drain(..).zip(batch.places()) {
            let _ = job.promise.send(Ok(place));
        }
        Ok(Tried::Told)
    }

    /// Gives those back that stand on what has changed since.
    fn give_back(&mut self, jobs: &mut Vec<Job>) {
        let known = &self.known;
        let stale = |job: &mut Job| job.basis.as_ref().is_some_and(|basis| !known.holds(basis));
        self.moved.extend(jobs.extract_if(.., stale).map(|job| job.promise));
    }

    /// The line, opened where it broke.
    ///
    /// # Errors
    /// No server takes writes.
    pub(super) fn pen(&mut self, shared: &Shared) -> Result<Arc<Pen>, Trouble> {
        if let Some(pen) = &self.pen {
            return Ok(Arc::clone(pen));
        }
        let pen = shared.open_pen()?;
        self.pen = Some(Arc::clone(&pen));
        Ok(pen)
    }

    /// Adds entries as they stood in another log.
    ///
    /// # Errors
    /// They don't follow what is there, or are not certain to be stored.
    pub(super) fn take_over(
        &mut self,
        shared: &Shared,
        entries: &[Placed],
    ) -> Result<(), JournalError> {
        self.look(shared, true)?;
        let end = self.known.end;
        let follows = entries.first().is_none_or(|first| {
            let next = end.place + 1;
            first.place.number() > next
                || (first.place.number() == next && first.before == end.mark)
        });
        if !follows {
            return Err(JournalError::NotEmpty(end.place));
        }
        let batch = Arc::new(Batch::again(end, entries));
        let until = Instant::now() + PATIENCE;
        loop {
            let added =
                self.pen(shared).and_then(|pen| run(shared, pen.append(Arc::clone(&batch))));
            match added {
                Ok(added) => {
                    self.look(shared, true)?;
                    // Or it was added by the line that broke.
                    let is_there = added || self.known.end == batch.to;
                    shared.sure.fetch_max(self.known.end.place, Ordering::AcqRel);
                    return if is_there { Ok(()) } else { Err(JournalError::Moved) };
                }
                Err(Trouble::Lost(_)) if Instant::now() < until => {
                    self.pen = None;
                    thread::sleep(PAUSE);
                }
                Err(trouble) => {
                    self.pen = None;
                    return Err(trouble.error());
                }
            }
        }
    }

    /// The place of the last entry that is known.
    pub(super) fn last(&self) -> Seq {
        Seq::new(self.known.end.place)
    }
}

/// Whether a step stands among frames.
fn is_in(batch: &Batch, frames: &[Vec<u8>]) -> bool {
    frames.iter().any(|bytes| {
        reading::placed(bytes).is_ok_and(|placed| {
            placed.place.number() == batch.to.place && placed.tip.mark == batch.to.mark
        })
    })
}

/// Has something done by the thread that talks to the database.
///
/// # Errors
/// The line is gone, or it was refused.
pub(super) fn run<T: Send + 'static>(
    shared: &Shared,
    work: impl Future<Output = Result<T, Trouble>> + Send + 'static,
) -> Result<T, Trouble> {
    shared.run(work).map_err(Trouble::Refused)?
}
