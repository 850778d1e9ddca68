//! The service itself: takes messages in, and sees each through to its answer.

use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::sync::{Arc, Mutex, OnceLock, PoisonError, RwLock};
use std::time::Duration;

use jiff::Timestamp;
use tokio::sync::Notify;

use super::changes::Listeners;
use super::conflicts::Keyed;
use super::deciding::Decided;
use super::echo::Echo;
use super::record::Record;
use super::under_way::UnderWay;
use super::upkeep::Upkeep;
use super::world::{OpenError, World, lock};
use super::{Answer, Body, Failure, Incoming, Opening, SquadAdded, Via, WayBack, opening};
use crate::clock::{Clock, ClockMode};
use crate::coaching::Rulebook;
use crate::history::{Event, SquadId};
use crate::journal::{Follower, Journal, MessageKey, Seq, State};

/// How long whoever wished to be forgotten waits for it before the answer (ours:
/// erasing goes on behind it, and is told of as done either way).
const ERASED_WITHIN: Duration = Duration::from_secs(2);

/// For how long a message is decided again where others change what it stands on, each
/// time (ours).
const AGAIN_WITHIN: Duration = Duration::from_secs(15);

/// Takes messages in and answers them, durably.
pub struct Service {
    pub(super) journal: Arc<dyn Journal>,
    pub(super) clock: Arc<dyn Clock>,
    pub(super) mode: ClockMode,
    pub(super) book: Rulebook,
    /// How the addresses of squads' pages begin, where there is a server.
    pub(super) boards_at: OnceLock<String>,
    /// Read while a message is decided, written while the world is rebuilt or
    /// pictured.
    pub(super) world: RwLock<World>,
    /// Whether other processes write to the journal too: then only what is durable is
    /// folded, as it is handed over (`following`).
    pub(super) shared: bool,
    under_way: UnderWay<MessageKey>,
    /// Squads to which a message is being answered, where others write too.
    spoken_to: UnderWay<SquadId>,
    /// How often something was decided again.
    pub(super) decided_again: AtomicU64,
    /// What was said lately.
    pub(super) echo: Mutex<Echo>,
    /// Entries put in the journal's queue so far, from its beginning; where others write
    /// too, those that are folded.
    pub(super) appended: Mutex<u64>,
    /// Woken when there may be a letter to deliver.
    pub(super) letters: Notify,
    /// Woken when there may be an alarm's.
    pub(super) alarms: Notify,
    /// Told of what changes in squads.
    pub(super) listeners: Listeners,
    /// What is done beside.
    pub(super) upkeep: Upkeep,
    /// The journal failed: what is in memory may be ahead of it.
    pub(super) broken: AtomicBool,
    closing: AtomicBool,
}

impl Service {
    /// Opens the service on a journal, with all that it holds and the standard
    /// rules of coaching.
    ///
    /// # Errors
    /// What the journal holds can't be read.
    pub fn open(
        journal: Arc<dyn Journal>,
        clock: Arc<dyn Clock>,
        mode: ClockMode,
    ) -> Result<Arc<Self>, OpenError> {
        Self::open_by(Rulebook::default(), journal, clock, mode)
    }

    /// [`Service::open`] with a coach's own numbers.
    ///
    /// # Errors
    /// What the journal holds can't be read.
    pub fn open_by(
        book: Rulebook,
        journal: Arc<dyn Journal>,
        clock: Arc<dyn Clock>,
        mode: ClockMode,
    ) -> Result<Arc<Self>, OpenError> {
        let world = World::rebuild(&journal)?;
        let to_erase = world.is_to_erase();
        let (upkeep, tasks) = Upkeep::new();
        let shared = journal.is_shared();
        let appended = match shared {
            true => world.read_through,
            false => journal.last().map_or(0, Seq::number),
        };
        let service = Arc::new(Self {
            appended: Mutex::new(appended),
            letters: Notify::new(),
            alarms: Notify::new(),
            journal,
            clock,
            mode,
            book,
            boards_at: OnceLock::new(),
            world: RwLock::new(world),
            shared,
            under_way: UnderWay::default(),
            spoken_to: UnderWay::default(),
            decided_again: AtomicU64::new(0),
            echo: Mutex::default(),
            listeners: Listeners::default(),
            upkeep,
            broken: AtomicBool::new(false),
            closing: AtomicBool::new(false),
        });
        Upkeep::begin(&service, tasks)?;
        let follower: Arc<dyn Follower> = service.clone();
        service.journal.follow(Arc::downgrade(&follower));
        // A cut may have come between the wish and its fulfilment.
        if to_erase && !shared && service.state() == State::Writable {
            service.upkeep.erase(ERASED_WITHIN);
        }
        Ok(service)
    }

    /// Answers one message. Nothing is answered that is not durable.
    ///
    /// # Errors
    /// [`Failure::Conflict`] where the id belongs to another message,
    /// [`Failure::Unavailable`] where it can't be stored now.
    pub async fn receive(self: &Arc<Self>, incoming: Incoming) -> Result<Answer, Failure> {
        self.receive_by(incoming, WayBack::default()).await
    }

    /// [`Service::receive`] from a channel with its own way back.
    ///
    /// # Errors
    /// As [`Service::receive`].
    pub async fn receive_by(
        self: &Arc<Self>,
        incoming: Incoming,
        back: WayBack,
    ) -> Result<Answer, Failure> {
        if !self.is_read_only() {
            self.ready()?;
        }
        let mut key =
            incoming.id.clone().map(|id| MessageKey { channel: incoming.channel.to_string(), id });
        let _turn = match &key {
            Some(key) => Some(self.under_way.turn(key.clone()).await),
            None => None,
        };
        let until = self.clock.passed() + AGAIN_WITHIN;
        let (mut answer, place, forgets, due) = loop {
            let since = *lock(&self.appended);
            if let Some(key) = &key
                && let Some(answer) = self.answered_before(key, &incoming)?
            {
                return Ok(answer);
            }
            let squad = self.load_for(&incoming).await?;
            if let Err(Failure::ReadOnly(why)) = self.ready() {
                return self.answer_unstored(incoming, &back, why);
            }
            let _turn = match squad.filter(|_| self.shared) {
                Some(squad) => Some(self.spoken_to.turn(squad).await),
                None => None,
            };
            // Where nobody else writes, it is needed once.
            let key = if self.shared { key.clone() } else { key.take() };
            let key = key.map(|key| Keyed { key, since });
            let Decided { answer, ticket, forgets, due } = self.decide(&incoming, &back, key)?;
            if let Some(place) = self.stored(ticket).await? {
                break (answer, place, forgets, due);
            }
            if self.clock.passed() > until {
                return Err(Failure::Unavailable);
            }
        };
        if answer.id.is_empty() {
            answer.id = place.to_string();
        }
        if answer.replies.iter().any(|reply| reply.alarm.is_some()) {
            self.alarms.notify_one();
        }
        self.look_after(place, due);
        if let (ClockMode::Message, Some(sent_at)) = (self.mode, incoming.sent_at) {
            let squads = self.world().squads_of(&incoming.from);
            self.say_due(&squads, sent_at).await?;
        }
        if forgets {
            self.erase().await?;
        }
        if answer.replies.iter().any(|reply| reply.via == Via::Outbox) {
            self.letters.notify_one();
        }
        Ok(answer)
    }

    /// Opens a squad.
    ///
    /// # Errors
    /// [`Failure::Refused`] where it can't be one, [`Failure::Unavailable`]
    /// where it can't be stored now.
    pub async fn add_squad(
        self: &Arc<Self>,
        squad: impl Into<Opening>,
    ) -> Result<SquadAdded, Failure> {
        self.ready()?;
        let now = self.clock.now();
        let Opening { squad, safeguards } = squad.into();
        let coach = squad.coach.clone();
        let mut events = vec![opening::opened(squad, now)?];
        events.extend(opening::safeguarded(safeguards, &coach)?);
        let id = SquadId(opening::id()?);
        let Some(Event::SquadOpened { code, .. }) = events.first() else {
            return Err(Failure::Unavailable);
        };
        let added = SquadAdded { id: id.0.clone(), code: code.clone() };
        loop {
            let put = {
                let world = self.world();
                let seat = world.rooms().open(&id);
                let mut room = seat.enter();
                let mut after = room.squad.clone();
                let (cause, id) = (after.next_cause, Some(id.clone()));
                let events = events.clone();
                let record = Record { events, ..Record::unsaid(id, cause, &coach, now) };
                let touched = record.stamped().map(|event| after.apply(&event)).collect();
                let put = self.append(&world, &record, None)?;
                self.went_on(&mut room, after, touched, &record, &put);
                put
            };
            if let Some(place) = self.stored(put.ticket).await? {
                self.look_after(place, None);
                return Ok(added);
            }
        }
    }

    /// Takes nothing more, writes last snapshots, and closes the journal.
    pub async fn close(self: &Arc<Self>) {
        self.closing.store(true, Ordering::SeqCst);
        let service = Arc::clone(self);
        // Closing waits for the disk.
        let closed = tokio::task::spawn_blocking(move || {
            service.upkeep.end();
            service.journal.close();
        });
        let _ = closed.await;
    }

    pub(super) fn now(&self) -> Timestamp {
        self.clock.now()
    }

    /// Whether the journal takes anything.
    pub fn state(&self) -> State {
        self.journal.state()
    }

    fn is_read_only(&self) -> bool {
        matches!(self.state(), State::ReadOnly(_))
    }

    /// Passes while messages can be stored; after a failed write it opens the
    /// store again.
    ///
    /// # Errors
    /// [`Failure::ReadOnly`] while the journal is not whole,
    /// [`Failure::Unavailable`] while it can't be written.
    pub fn ready(&self) -> Result<(), Failure> {
        if self.closing.load(Ordering::SeqCst) {
            return Err(Failure::Unavailable);
        }
        // A journal may stop by itself.
        let stopped = !self.shared && matches!(self.state(), State::Stopped(_));
        if stopped || self.broken.load(Ordering::SeqCst) {
            self.rebuild()?;
        }
        match self.state() {
            State::ReadOnly(why) => Err(Failure::ReadOnly(why)),
            // One that others write to goes on by itself, and nothing is folded but what it
            // holds.
            State::Stopped(_) if self.shared => Err(Failure::Unavailable),
            State::Writable | State::Stopped(_) => Ok(()),
        }
    }

    /// After a failed write: opens the store again and starts from what it
    /// holds.
    fn rebuild(&self) -> Result<(), Failure> {
        let unavailable = |error: &dyn std::fmt::Display| {
            tracing::error!(%error, "the store can't be opened again yet");
            Failure::Unavailable
        };
        let mut world = self.world.write().unwrap_or_else(PoisonError::into_inner);
        let stopped = matches!(self.state(), State::Stopped(_));
        if !stopped && !self.broken.load(Ordering::SeqCst) {
            return Ok(());
        }
        self.journal.reopen().map_err(|error| unavailable(&error))?;
        *world = World::rebuild(&self.journal).map_err(|error| unavailable(&error))?;
        let to_erase = world.is_to_erase();
        *lock(&self.appended) = self.journal.last().map_or(0, Seq::number);
        self.broken.store(false, Ordering::SeqCst);
        drop(world);
        if to_erase {
            self.upkeep.erase(Duration::ZERO);
        }
        tracing::info!("the store is open again");
        Ok(())
    }

    fn answered_before(
        &self,
        key: &MessageKey,
        incoming: &Incoming,
    ) -> Result<Option<Answer>, Failure> {
        let found = self.journal.find(key).map_err(|error| self.failed(&error))?;
        let Some(placed) = found else { return Ok(None) };
        let record = Record::read(&placed.entry.body).map_err(|error| self.failed(&error))?;
        let again = |record: Record| {
            record.answer_again(key.id.clone(), &incoming.from, incoming.room.as_deref())
        };
        if record.body == Body::Erased {
            return Ok(Some(again(record)));
        }
        let same = record.from == incoming.from
            && record.room == incoming.room
            && record.body.is_of(&incoming.body);
        if same { Ok(Some(again(record))) } else { Err(Failure::Conflict) }
    }

    pub(super) fn failed(&self, error: &dyn std::fmt::Display) -> Failure {
        tracing::error!(%error, "a message could not be stored or looked up");
        Failure::Unavailable
    }

    /// Has snapshots written that are due.
    pub(super) fn look_after(&self, place: u64, due: Option<SquadId>) {
        if let Some(id) = due {
            self.upkeep.picture(id);
        }
        self.upkeep.grown(place, self.leads());
    }

    /// Erases those who wished to be forgotten. It goes on beside whatever else
    /// does, and for a while behind the answer where there is much. Where others write
    /// too, the one that leads does it.
    pub(super) async fn erase(self: &Arc<Self>) -> Result<(), Failure> {
        if !self.leads() {
            return Ok(());
        }
        let service = Arc::clone(self);
        let erased = tokio::task::spawn_blocking(move || service.upkeep.erase(ERASED_WITHIN));
        erased.await.map(drop).map_err(|error| self.failed(&error))
    }

    /// Has those erased who wished it, and waits for that at most so long; true once
    /// it is done. Where others write too, the one that leads does it.
    pub async fn erased(self: &Arc<Self>, at_most: Duration) -> bool {
        let service = Arc::clone(self);
        let settled = tokio::task::spawn_blocking(move || service.upkeep.erase(at_most));
        settled.await.unwrap_or(false)
    }
}
