//! What is done beside the messages, on a thread of its own, so that no message
//! waits for it: snapshots, and erasing.

use std::sync::mpsc::{self, Receiver, Sender};
use std::sync::{
    Arc, Condvar, Mutex, MutexGuard, PoisonError, RwLockWriteGuard, TryLockError, Weak,
};
use std::thread::JoinHandle;
use std::time::{Duration, Instant};

use super::erasure::Erasing;
use super::parts::Changed;
use super::record::RecordError;
use super::room::{Room, from_part};
use super::world::{OpenError, World, lock};
use super::{Service, parts};
use crate::background;
use crate::history::SquadId;
use crate::journal::{JournalError, Part, Seq, State, StreamId};

/// What is known apart from squads is written down after so many messages: what
/// is read again at a start.
const WORLD_EVERY: u64 = 4096;

/// How long writing last snapshots may take at the end.
const LAST: Duration = Duration::from_millis(1500);

/// How long a thread sleeps that waits for the disk.
const MOMENT: Duration = Duration::from_millis(1);

/// How often it is looked for an instant in which no message is being decided, …
const LOOKS: u32 = 1_000;
/// … and how long after (ours: looking for a tenth of a second at least).
const BETWEEN_LOOKS: Duration = Duration::from_micros(100);

/// How often a squad is caught up with while messages go on, before they are held up for the
/// last step.
const PASSES: u32 = 8;

/// Something to be done.
pub(super) enum Task {
    /// Write down what changed in a squad.
    Squad(SquadId),
    /// Write down what changed apart from squads.
    World,
    /// Erase those who wished it.
    Erase,
    /// Write down what is best not read again at the next start, and end.
    End,
}

/// The way to the thread.
pub(super) struct Upkeep {
    tasks: Mutex<Sender<Task>>,
    thread: Mutex<Option<JoinHandle<()>>>,
    /// The place up to which the world is written down, or is being.
    world_through: Mutex<u64>,
    /// How many erasures were asked for, and how many are done.
    erasures: Mutex<(u64, u64)>,
    erased: Condvar,
    /// Held while something is done.
    at_work: Mutex<()>,
}

impl Upkeep {
    /// The way, and its other end.
    pub fn new() -> (Upkeep, Receiver<Task>) {
        let (tasks, waiting) = mpsc::channel();
        let upkeep = Upkeep {
            tasks: Mutex::new(tasks),
            thread: Mutex::default(),
            world_through: Mutex::default(),
            erasures: Mutex::default(),
            erased: Condvar::new(),
            at_work: Mutex::default(),
        };
        (upkeep, waiting)
    }

    /// Begins the thread.
    ///
    /// # Errors
    /// There is none to be had.
    pub fn begin(service: &Arc<Service>, tasks: Receiver<Task>) -> Result<(), OpenError> {
        let theirs = Arc::downgrade(service);
        *lock(&service.upkeep.world_through) = lock(&service.world().based).unwrap_or_default();
        let thread = background::begin("upkeep", move || run(&theirs, &tasks))
            .map_err(|error| JournalError::Storage(format!("no thread to work with: {error}")))?;
        *lock(&service.upkeep.thread) = Some(thread);
        Ok(())
    }

    /// Has a squad written down.
    pub fn picture(&self, id: SquadId) {
        self.give(Task::Squad(id));
    }

    /// Tells how far the log goes by now; of several processes, one `leads`.
    pub fn grown(&self, place: u64, leads: bool) {
        let mut through = lock(&self.world_through);
        if place >= *through + WORLD_EVERY {
            *through = place;
            drop(through);
            if leads {
                self.give(Task::World);
            }
        }
    }

    /// Keeps anything from being done beside until it is let go.
    pub fn held(&self) -> MutexGuard<'_, ()> {
        lock(&self.at_work)
    }

    /// Has those erased who wished it, whenever that is done.
    pub fn erase_soon(&self) {
        lock(&self.erasures).0 += 1;
        self.give(Task::Erase);
    }

    /// Has those erased who wished it, and waits for that so long; true if it is
    /// done.
    pub fn erase(&self, at_most: Duration) -> bool {
        let mine = {
            let mut erasures = lock(&self.erasures);
            erasures.0 += 1;
            erasures.0
        };
        self.give(Task::Erase);
        let until = Instant::now() + at_most;
        let mut erasures = lock(&self.erasures);
        while erasures.1 < mine {
            let left = until.saturating_duration_since(Instant::now());
            if left.is_zero() {
                return false;
            }
            let waited = self.erased.wait_timeout(erasures, left);
            erasures = waited.unwrap_or_else(PoisonError::into_inner).0;
        }
        true
    }

    /// Has last snapshots written, and waits for the end.
    pub fn end(&self) {
        self.give(Task::End);
        let thread = lock(&self.thread).take();
        if thread.is_some_and(|thread| thread.join().is_err()) {
            tracing::error!("the upkeep had panicked");
        }
    }

    fn give(&self, task: Task) {
        // Without the thread it stays undone, and the next start does it.
        let _ = lock(&self.tasks).send(task);
    }

    fn done_erasing(&self, through: u64) {
        lock(&self.erasures).1 = through;
        self.erased.notify_all();
    }
}

fn run(service: &Weak<Service>, tasks: &Receiver<Task>) {
    while let Ok(task) = tasks.recv() {
        let Some(service) = service.upgrade() else { return };
        let is_last = matches!(task, Task::End);
        service.do_upkeep(task);
        if is_last {
            return;
        }
    }
}

impl Service {
    fn do_upkeep(&self, task: Task) {
        let _held = self.upkeep.held();
        let pictures = matches!(task, Task::Squad(_) | Task::World | Task::End);
        let done = match task {
            Task::Squad(id) => self.picture_squad(&id),
            Task::World => self.picture_world(false),
            Task::Erase => {
                let through = lock(&self.upkeep.erasures).0;
                let erased = self.erase_wished();
                if erased.is_ok() {
                    self.upkeep.done_erasing(through);
                }
                erased
            }
            Task::End => self.picture_last(),
        };
        match done {
            Ok(()) => {}
            Err(OpenError::Journal(JournalError::NoBase(_)))
                if pictures && self.journal.is_shared() =>
            {
                tracing::debug!("another process wrote a snapshot meanwhile");
            }
            Err(error) => {
                tracing::error!(%error, "what is done beside the messages failed, and is tried later");
            }
        }
    }

    /// Writes down what changed in a squad.
    fn picture_squad(&self, id: &SquadId) -> Result<(), OpenError> {
        let seat = {
            let world = self.world();
            if !world.rooms().holds(id) {
                return Ok(());
            }
            world.room(id)?
        };
        let Some(seat) = seat else { return Ok(()) };
        let still = seat.enter().still();
        if !self.wait_durable(still.place()) {
            return Ok(());
        }
        let written = still.write(self.journal.as_ref());
        match written {
            Ok((through, size)) => seat.enter().written(Some(through), size),
            // The next one is written whole.
            Err(_) => seat.enter().written(None, 0),
        }
        written.map(drop)
    }

    /// The world while no message is decided. It is taken at an instant at which none is:
    /// whoever wants it while some are makes all that come after wait, too, until this thread
    /// has had its turn, and it gives way to all others. Where there is no such instant for
    /// long, they do wait.
    fn still_world(&self) -> RwLockWriteGuard<'_, World> {
        for _ in 0..LOOKS {
            match self.world.try_write() {
                Ok(world) => return world,
                Err(TryLockError::Poisoned(world)) => return world.into_inner(),
                Err(TryLockError::WouldBlock) => std::thread::sleep(BETWEEN_LOOKS),
            }
        }
        self.world.write().unwrap_or_else(PoisonError::into_inner)
    }

    /// Writes down what changed apart from squads, or all of it, with another part
    /// if there is one.
    fn picture_world(&self, whole: bool) -> Result<(), OpenError> {
        self.picture_world_with(whole, None)
    }

    fn picture_world_with(&self, whole: bool, with: Option<Part>) -> Result<(), OpenError> {
        let (through, from, changed) = {
            let world = self.still_world();
            let mut based = lock(&world.based);
            if whole {
                *based = None;
            }
            if based.is_none() {
                parts::touch_all(&world);
            }
            (*lock(&self.appended), *based, parts::changed(&world))
        };
        // Messages are decided again while it is written out.
        let written = changed.into_iter().map(Changed::write);
        let mut parts: Vec<Part> = written.collect::<Result<_, _>>()?;
        parts.extend(with);
        if through == 0 || !self.wait_durable(through) {
            return Ok(());
        }
        let written = self.journal.checkpoint(&StreamId::all(), from, through, parts);
        *lock(&self.world().based) = written.is_ok().then_some(through);
        Ok(written?)
    }

    /// Writes down what would take long to read at the next start.
    fn picture_last(&self) -> Result<(), OpenError> {
        if self.journal.state() != State::Writable {
            return Ok(());
        }
        let until = Instant::now() + LAST;
        if self.leads() {
            self.picture_world(false)?;
        }
        let rooms = Arc::clone(self.world().rooms());
        for id in rooms.ids() {
            if Instant::now() > until {
                break;
            }
            if rooms.holds(&id) && rooms.seat(&id)?.enter().is_due() {
                self.picture_squad(&id)?;
            }
        }
        Ok(())
    }

    /// Erases those who wished to be forgotten, beside whatever else goes on.
    fn erase_wished(&self) -> Result<(), OpenError> {
        if !self.leads() {
            return Ok(());
        }
        let earlier = self.erasing_before()?;
        let squads = self.world().directory().to_erase();
        if squads.is_empty() && earlier.is_none() {
            return Ok(());
        }
        // Not held while it is waited for: every message appends.
        let appended = *lock(&self.appended);
        if !self.wait_durable(appended) {
            return Err(JournalError::Closed.into());
        }
        let people = |id: &SquadId| self.world().addresses_of(id);
        let wants_none = |address: &str| self.world().is_opted_out(address);
        let mut erasing = Erasing::plan(self.journal.as_ref(), &squads, people, wants_none)?;
        erasing.join(earlier.unwrap_or_default());
        if !erasing.is_empty() {
            let bytes = serde_json::to_vec(&erasing).map_err(RecordError::from)?;
            let plan = Part { name: parts::ERASING.to_owned(), bytes };
            self.picture_world_with(false, Some(plan))?;
            let streams: Vec<_> = erasing.streams().into_iter().chain([StreamId::all()]).collect();
            self.journal.revise(&streams, &mut |placed| erasing.change(placed))?;
        }
        {
            let world = self.still_world();
            // A STOP may have come while this went on.
            world.keep_silent(&erasing.addresses_in_squads());
            world.forget(&erasing.letters(), &erasing.addresses(), &erasing.theirs());
            squads.iter().for_each(|id| world.directory_mut().erased(id));
        }
        self.picture_world(true)?;
        for id in erasing.squads() {
            self.fold_anew(&id)?;
        }
        Ok(())
    }

    /// What an earlier try was to erase and did not finish.
    fn erasing_before(&self) -> Result<Option<Erasing>, OpenError> {
        let snapshot = self.journal.snapshot(&StreamId::all())?;
        let part = snapshot.parts.iter().find(|part| part.name == parts::ERASING);
        part.map(from_part).transpose()
    }

    /// Folds a squad from its log alone, and puts that in the place of what is in
    /// memory, while it goes on being spoken to.
    fn fold_anew(&self, id: &SquadId) -> Result<(), OpenError> {
        let journal = self.journal.as_ref();
        let mut fresh = Room::load_anew(journal, id)?;
        let Some(seat) = self.world().room(id)? else { return Ok(()) };
        for pass in 1.. {
            let mut room = seat.enter();
            if room.number > fresh.number {
                let behind = room.place;
                let held = (pass > PASSES).then_some(room);
                if !self.wait_durable(behind) {
                    return Err(JournalError::Closed.into());
                }
                let Some(still) = held else {
                    fresh.catch_up(journal)?;
                    continue;
                };
                background::at_once(|| fresh.catch_up(journal))?;
                room = still;
            }
            *room = fresh;
            break;
        }
        self.picture_squad(id)
    }

    /// Waits until all up to a place is durable; false if it won't be.
    pub(super) fn wait_durable(&self, place: u64) -> bool {
        while self.journal.last().map_or(0, Seq::number) < place {
            if self.journal.state() != State::Writable {
                return false;
            }
            std::thread::sleep(MOMENT);
        }
        true
    }
}
