//! The journal in a folder of this machine: a log in files of its own, the
//! snapshots in an embedded store.

use std::path::Path;
use std::sync::atomic::Ordering;
use std::sync::{Arc, Mutex, PoisonError, RwLockWriteGuard};
use std::thread::{self, JoinHandle};

use super::contract::{Change, Entries, Journal, State};
use super::folder::Folder;
use super::high_water::Reach;
use super::log::{Log, PlacesOf};
use super::shared::Shared;
use super::snapshots::{self, List};
use super::walk::key_of;
use super::{
    Checked, Entry, JournalError, MessageKey, Part, Placed, Seq, Snapshot, StreamId, Ticket, Tip,
    committer, frame, revise,
};

/// A [`Journal`] in one folder, which it holds until it is closed or dropped.
///
/// The folder is its own: nothing else may be kept in it. What a
/// [revision](Journal::revise) leaves out is in no file of it from then on.
#[derive(Debug)]
pub struct SledJournal {
    pub(super) shared: Arc<Shared>,
    committer: Mutex<Option<JoinHandle<()>>>,
}

impl SledJournal {
    /// Opens the journal in `folder`, or begins a new one where there is
    /// nothing or an empty folder. Only its owner gets rights to it. How far the
    /// log was acknowledged is kept in the folder too.
    ///
    /// A journal that is not whole, or not what was acknowledged, is opened to be
    /// [read only](State::ReadOnly).
    ///
    /// # Errors
    /// [`JournalError::Locked`] if it is open elsewhere,
    /// [`NotOurs`](JournalError::NotOurs), [`Newer`](JournalError::Newer) or
    /// [`Older`](JournalError::Older) if something else or another version wrote
    /// it, and whatever else keeps it from being read.
    pub fn open(folder: impl AsRef<Path>) -> Result<Self, JournalError> {
        let folder = Folder::take(folder.as_ref())?;
        let mark = folder.high_water();
        Self::open_in(folder, &mark)
    }

    /// The same, with the file that keeps how far the log was acknowledged in
    /// another place: what happens to the folder doesn't happen to it.
    ///
    /// # Errors
    /// As [`open`](Self::open).
    pub fn open_beside(
        folder: impl AsRef<Path>,
        high_water: impl AsRef<Path>,
    ) -> Result<Self, JournalError> {
        Self::open_in(Folder::take(folder.as_ref())?, high_water.as_ref())
    }

    fn open_in(folder: Folder, mark: &Path) -> Result<Self, JournalError> {
        let shared = Arc::new(Shared::open(folder, mark.to_owned())?);
        shared.forget_old_ids();
        let theirs = Arc::clone(&shared);
        let committer = thread::Builder::new()
            .name("journal".into())
            .spawn(move || committer::run(&theirs))
            .map_err(|error| JournalError::Storage(format!("no thread to write with: {error}")))?;
        Ok(Self { shared, committer: Mutex::new(Some(committer)) })
    }

    fn last_place(&self) -> u64 {
        self.shared.last.load(Ordering::Acquire)
    }

    /// The mark of a stream's entry of this number.
    fn mark_of(&self, log: &Log, of: &StreamId, number: u64) -> Result<Tip, JournalError> {
        let ahead = |last| JournalError::Ahead { through: number, last };
        let place = if *of == StreamId::all() {
            Some(number).filter(|&place| place > 0 && place <= self.last_place())
        } else {
            match log.head(of.tag()) {
                Some(head) if head.number == number => Some(head.place),
                _ if number == 0 => None,
                _ => log.places_of(of, number - 1).next(log).transpose()?,
            }
        };
        let Some(place) = place else {
            let last = match *of == StreamId::all() {
                true => self.last_place(),
                false => log.head(of.tag()).map_or(0, |head| head.number),
            };
            return Err(ahead(last));
        };
        let placed = log.entry(place)?;
        match *of == StreamId::all() || placed.tip.number == number {
            true => Ok(Tip { number, mark: placed.tip.mark }),
            false => Err(ahead(placed.tip.number)),
        }
    }

    /// A stream's snapshot, if it has one that fits the log.
    fn whole_snapshot(&self, of: &StreamId) -> Result<Option<Snapshot>, JournalError> {
        let log = self.shared.log()?;
        let tag = of.tag();
        let read = self.shared.reading(|store| {
            let Some(list) = store.list(tag)? else { return Ok(None) };
            let parts = store.parts(tag, &list)?;
            Ok(Some((list, parts)))
        })?;
        let Some((list, parts)) = read else { return Ok(None) };
        let fits = self.mark_of(&log, of, list.through).is_ok_and(|tip| tip.mark == list.mark);
        // What was lost since, and told of, may be in it all the same.
        let fits = fits || (list.through > 0 && self.is_in_a_hole(&log, of, &list));
        if !fits {
            tracing::warn!(stream = %of, "a snapshot does not fit the log, and is left out");
        }
        Ok(fits.then_some(Snapshot { through: list.through, parts }))
    }

    /// A stream's snapshot, whole, and whether or not it fits the log: where entries
    /// were lost, it may hold more than the log does.
    ///
    /// # Errors
    /// The store can't be read.
    pub fn snapshot_whatever_is_lost(&self, of: &StreamId) -> Result<Snapshot, JournalError> {
        let tag = of.tag();
        let read = self.shared.reading(|store| {
            let Some(list) = store.list(tag)? else { return Ok(Snapshot::default()) };
            Ok(Snapshot { through: list.through, parts: store.parts(tag, &list)? })
        });
        match read {
            Err(JournalError::Damaged(_)) => Ok(Snapshot::default()),
            read => read,
        }
    }

    /// True where the entry that a snapshot ends with was lost, but not those
    /// after it.
    fn is_in_a_hole(&self, log: &Log, of: &StreamId, list: &List) -> bool {
        log.head(of.tag()).is_some_and(|head| head.number > list.through)
            && matches!(self.mark_of(log, of, list.through), Err(JournalError::Ahead { .. }))
    }
}

impl Journal for SledJournal {
    fn append(&self, entry: Entry) -> Ticket {
        match frame::fits(&entry) {
            Ok(()) => self.shared.queue.push(entry),
            Err(error) => Ticket::refused(error),
        }
    }

    fn find(&self, key: &MessageKey) -> Result<Option<Placed>, JournalError> {
        let log = self.shared.log()?;
        let Some(place) = log.place_of(key_of(key))? else { return Ok(None) };
        if place > self.last_place() {
            return Ok(None);
        }
        let placed = log.entry(place)?;
        let is_it = |other: &MessageKey| other.digest() == key.digest();
        Ok(Some(placed).filter(|placed| placed.entry.key.as_ref().is_some_and(is_it)))
    }

    fn entry(&self, place: Seq) -> Result<Option<Placed>, JournalError> {
        if place.number() == 0 || place.number() > self.last_place() {
            return Ok(None);
        }
        let placed = self.shared.log()?.entry(place.number())?;
        Ok(Some(placed).filter(|placed| placed.entry.stream != StreamId::all()))
    }

    fn entries_of(&self, stream: &StreamId, after: u64) -> Entries<'_> {
        let places = match self.shared.log() {
            Ok(_) if *stream == StreamId::all() => Places::All(after + 1),
            Ok(log) => Places::Of(log.places_of(stream, after)),
            Err(error) => Places::Failed(Some(error)),
        };
        Box::new(Reading { shared: &self.shared, places, failed: false })
    }

    fn streams(&self) -> Result<Vec<StreamId>, JournalError> {
        let log = self.shared.log()?;
        let all = StreamId::all().tag();
        let heads = log.tags().into_iter().filter(|(tag, _)| *tag != all);
        heads.map(|(_, head)| Ok(log.entry(head.place)?.entry.stream)).collect()
    }

    fn tip(&self, stream: &StreamId) -> Result<Option<Tip>, JournalError> {
        let log = self.shared.log()?;
        let number = match *stream == StreamId::all() {
            true => self.last_place(),
            false => log.head(stream.tag()).map_or(0, |head| head.number),
        };
        if number == 0 { Ok(None) } else { self.mark_of(&log, stream, number).map(Some) }
    }

    fn last(&self) -> Option<Seq> {
        Some(self.last_place()).filter(|&last| last > 0).map(Seq::new)
    }

    fn checkpoint(
        &self,
        of: &StreamId,
        from: Option<u64>,
        through: u64,
        parts: Vec<Part>,
    ) -> Result<(), JournalError> {
        frame::within("the name of a stream", of.0.len(), frame::LONGEST_NAME)?;
        snapshots::fit(&parts)?;
        let tag = of.tag();
        let mark = self.mark_of(&*self.shared.log()?, of, through)?.mark;
        let _upkeep = self.shared.upkeep();
        if let Some(wrong) = self.shared.wrong() {
            return Err(JournalError::ReadOnly(wrong));
        }
        let snapshots = self.shared.changing_snapshots();
        let store = snapshots.as_ref().ok_or_else(|| self.shared.refusal())?;
        let mut list = match from {
            Some(from) => match store.list(tag)? {
                Some(list) if list.through == from => list,
                _ => return Err(JournalError::NoBase(from)),
            },
            None => List::default(),
        };
        (list.through, list.mark) = (through, mark);
        store.put(tag, list, &parts, from.is_none())?;
        // Readers may go on while it goes to the disk.
        let snapshots = RwLockWriteGuard::downgrade(snapshots);
        snapshots.as_ref().ok_or_else(|| self.shared.refusal())?.sync()
    }

    fn snapshot(&self, of: &StreamId) -> Result<Snapshot, JournalError> {
        match self.whole_snapshot(of) {
            Ok(found) => Ok(found.unwrap_or_default()),
            Err(error @ JournalError::Damaged(_)) => {
                tracing::warn!(%error, stream = %of, "a snapshot is not whole, and is left out");
                Ok(Snapshot::default())
            }
            Err(error) => Err(error),
        }
    }

    fn revise(&self, streams: &[StreamId], change: &mut Change<'_>) -> Result<(), JournalError> {
        revise::revise(&self.shared, streams, change)
    }

    fn check(&self) -> Result<Checked, JournalError> {
        self.check_all()
    }

    fn take_over(&self, entries: &[Placed]) -> Result<(), JournalError> {
        let mut writer = self.shared.writer();
        let opened = self.shared.opened();
        let (Some(writer), Some(opened)) = (writer.as_mut(), opened.as_ref()) else {
            return Err(self.shared.refusal());
        };
        let Some(last) = entries.last() else { return Ok(()) };
        writer.take_over(entries, &opened.aside)?;
        let place = last.place.number();
        opened.water.note(Reach { place, mark: writer.mark() })?;
        opened.aside.noted();
        self.shared.last.store(place, Ordering::Release);
        Ok(())
    }

    fn state(&self) -> State {
        self.shared.state()
    }

    fn reopen(&self) -> Result<(), JournalError> {
        self.shared.reopen()
    }

    fn close(&self) {
        self.shared.queue.close();
        let committer = self.committer.lock().unwrap_or_else(PoisonError::into_inner).take();
        if committer.is_some_and(|thread| thread.join().is_err()) {
            tracing::error!("the journal's committer had panicked");
        }
        self.shared.close();
    }
}

impl Drop for SledJournal {
    fn drop(&mut self) {
        self.close();
    }
}

/// Where the entries are that are still to be read.
enum Places {
    All(u64),
    Of(PlacesOf),
    Failed(Option<JournalError>),
}

/// Reads entry by entry, holding nothing in between.
struct Reading<'a> {
    shared: &'a Shared,
    places: Places,
    failed: bool,
}

impl Reading<'_> {
    fn next_place(&mut self, log: &Log) -> Option<Result<u64, JournalError>> {
        match &mut self.places {
            Places::All(next) => {
                let last = self.shared.last.load(Ordering::Acquire);
                let place = *next;
                *next += 1;
                (place <= last).then_some(Ok(place))
            }
            Places::Of(places) => places.next(log),
            Places::Failed(error) => error.take().map(Err),
        }
    }
}

impl Iterator for Reading<'_> {
    type Item = Result<Placed, JournalError>;

    fn next(&mut self) -> Option<Self::Item> {
        loop {
            if self.failed {
                return None;
            }
            let read = self.shared.log().and_then(|log| match self.next_place(&log) {
                None => Ok(None),
                Some(place) => log.entry(place?).map(Some),
            });
            match read {
                Ok(None) => {
                    self.failed = true;
                    return None;
                }
                // What was lost before, and told of.
                Ok(Some(placed)) if placed.entry.stream == StreamId::all() => {}
                Ok(Some(placed)) => return Some(Ok(placed)),
                // It has been told that not all is there: give what is.
                Err(JournalError::Damaged(why)) if self.shared.wrong().is_some() => {
                    tracing::debug!(%why, "passed over");
                }
                Err(error) => {
                    self.failed = true;
                    return Some(Err(error));
                }
            }
        }
    }
}
