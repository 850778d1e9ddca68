//! Learning what others added to the log, and having it folded.

use std::sync::Arc;
use std::sync::atomic::Ordering;
use std::thread;
use std::time::{Duration, Instant};

use super::batch::Batch;
use super::known::Known;
use super::line::Trouble;
use super::pen::{PAGE, Pen, Seen};
use super::reading::{self, Reading, Whose};
use super::shared::Shared;
use super::waiting::Job;
use super::writer::{PATIENCE, PAUSE, Writer, run};
use crate::journal::high_water::Reach;
use crate::journal::waiters::refuse;
use crate::journal::{Follower, JournalError, Placed, Topic};

/// How long after something was erased it is waited for that what remains is in a
/// snapshot again, until all of it is read (ours).
const PICTURED: Duration = Duration::from_secs(60);

impl Writer {
    /// Whether it is so long since it was looked what others wrote.
    pub(super) fn has_not_looked_for(&self, long: Duration) -> bool {
        self.looked.elapsed() >= long
    }

    /// Learns all that others have added by now; `patiently` where somebody waits for it.
    ///
    /// # Errors
    /// The database isn't reached, its clock is not ours, or what is there can't be read.
    pub(super) fn look(&mut self, shared: &Shared, patiently: bool) -> Result<(), JournalError> {
        let until = Instant::now() + if patiently { PATIENCE } else { Duration::ZERO };
        let mut first = true;
        loop {
            // Cut lines are no news.
            let again = std::mem::take(&mut first) || Instant::now() < until;
            match self.try_to_look(shared) {
                Ok(()) => return Ok(()),
                Err(Trouble::Lost(_)) if again => {
                    self.pen = None;
                    if patiently {
                        thread::sleep(PAUSE);
                    }
                }
                Err(trouble) => {
                    self.pen = None;
                    return Err(trouble.error());
                }
            }
        }
    }

    fn try_to_look(&mut self, shared: &Shared) -> Result<(), Trouble> {
        loop {
            self.can_go_on(shared)?;
            let pen = self.pen(shared)?;
            let seen = run(shared, pen.look(self.known.end.place))?;
            shared.compare_clocks(seen.time)?;
            self.learn(shared, &seen)?;
            self.hand_over(shared)?;
            if seen.frames.len() < PAGE {
                self.looked = Instant::now();
                return self.begin_anew_if_revised(shared, &seen);
            }
        }
    }

    /// Learns what was added here.
    ///
    /// # Errors
    /// It isn't what was written.
    pub(super) fn learn_own(
        &mut self,
        shared: &Shared,
        jobs: &[Job],
        batch: &Batch,
    ) -> Result<(), Trouble> {
        for (row, job) in batch.rows.iter().zip(jobs) {
            let placed = reading::placed(&row.frame).map_err(Trouble::Refused)?;
            let changes = match &job.basis {
                Some(basis) => basis.changes.clone(),
                None => changes(shared, &placed),
            };
            self.known.advance(&placed, &changes);
            self.fresh.push(placed);
        }
        Ok(())
    }

    /// Learns what others added, or that the log is another one.
    ///
    /// # Errors
    /// It is, or what was added can't be read.
    pub(super) fn learn(&mut self, shared: &Shared, seen: &Seen) -> Result<(), Trouble> {
        let Reach { place, mark } = self.known.end;
        let is_another =
            seen.end.place < place || (seen.end.place == place && seen.end.mark != mark);
        if is_another {
            return self.begin_another(shared);
        }
        for bytes in &seen.frames {
            let placed = reading::placed(bytes).map_err(Trouble::Refused)?;
            if !self.known.is_next(&placed) {
                return self.begin_another(shared);
            }
            let changes = changes(shared, &placed);
            self.known.advance(&placed, &changes);
            // What was lost before, and told of, is in no stream.
            if placed.tip.number > 0 {
                self.fresh.push(placed);
            }
        }
        Ok(())
    }

    /// The log is not the one that we knew: a server took over that had not all of it.
    fn begin_another(&mut self, shared: &Shared) -> Result<(), Trouble> {
        tracing::error!("the database holds another history: what is known here is read anew");
        let why = JournalError::Storage("the database holds another history".into());
        // What was decided on the old one must not come in behind the new.
        shared.queue.stop(&why);
        // It may hold the end.
        self.pen = None;
        let pen = self.pen(shared)?;
        self.known = learnt(shared, &pen)?;
        self.fresh.clear();
        self.begins_anew = true;
        Err(Trouble::Refused(why))
    }

    /// Reads all anew where something was erased that is folded here: once what remains is
    /// in a snapshot again.
    fn begin_anew_if_revised(&mut self, shared: &Shared, seen: &Seen) -> Result<(), Trouble> {
        if shared.revised.load(Ordering::Acquire) == seen.revised {
            self.revised_since = None;
            return Ok(());
        }
        let since = *self.revised_since.get_or_insert_with(Instant::now);
        if seen.pictured || since.elapsed() > PICTURED {
            begin_anew(shared)?;
            shared.revised.store(seen.revised, Ordering::Release);
            self.revised_since = None;
        }
        Ok(())
    }

    /// Has what was learnt folded; then those are told whose entries are given back.
    ///
    /// # Errors
    /// It can't be read.
    pub(super) fn hand_over(&mut self, shared: &Shared) -> Result<(), Trouble> {
        shared.last.store(self.known.end.place, Ordering::Release);
        if let Err(error) = shared.hand_over(std::mem::take(&mut self.fresh)) {
            self.unread = Some(error.clone());
            return Err(Trouble::Refused(error));
        }
        for promise in self.moved.drain(..) {
            refuse(promise, &JournalError::Moved);
        }
        Ok(())
    }

    /// Passes once whoever folds the log has what is to be had before anything else.
    ///
    /// # Errors
    /// It can't be had now, or there is what can't be read.
    pub(super) fn can_go_on(&mut self, shared: &Shared) -> Result<(), Trouble> {
        if let Some(error) = self.unread.clone() {
            return Err(Trouble::Refused(error));
        }
        if self.begins_anew {
            begin_anew(shared)?;
            self.begins_anew = false;
        }
        match shared.follower().filter(|_| self.followed) {
            Some(follower) => self.hand_over_before(shared, follower.as_ref()),
            None => Ok(()),
        }
    }

    /// Hands over what was learnt since the follower read the log, and before it followed.
    fn hand_over_before(
        &mut self,
        shared: &Shared,
        follower: &dyn Follower,
    ) -> Result<(), Trouble> {
        let end = self.known.end.place;
        let before = Reading::of(shared, Whose::Everybodys, follower.through());
        let before = before.take_while(|placed| {
            placed.as_ref().map_or(true, |placed| placed.place.number() <= end)
        });
        let before: Vec<Placed> = before.collect::<Result<_, _>>().map_err(Trouble::Refused)?;
        // It isn't known what they change.
        self.known.forget();
        self.fresh = before;
        self.hand_over(shared)?;
        self.followed = false;
        Ok(())
    }

    /// Somebody follows from now on.
    pub(super) fn is_followed(&mut self) {
        self.followed = true;
    }
}

/// Where the log ends, and what is known by it.
///
/// # Errors
/// The line is gone.
pub(super) fn learnt(shared: &Shared, pen: &Arc<Pen>) -> Result<Known, Trouble> {
    let theirs = Arc::clone(pen);
    let (end, revised) = run(shared, async move { theirs.take().await })?;
    let theirs = Arc::clone(pen);
    let numbers = run(shared, async move { theirs.numbers().await })?;
    shared.revised.store(revised, Ordering::Release);
    shared.last.store(end.place, Ordering::Release);
    shared.sure.store(end.place, Ordering::Release);
    Ok(Known::at(end, numbers))
}

fn changes(shared: &Shared, placed: &Placed) -> Vec<Topic> {
    shared.follower().map(|follower| follower.changes(placed)).unwrap_or_default()
}

fn begin_anew(shared: &Shared) -> Result<(), Trouble> {
    let begun = shared.follower().map_or(Ok(()), |follower| follower.begin_anew());
    begun.map_err(Trouble::Refused)
}
