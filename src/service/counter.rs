//! The counter that messages are handed over at.

use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, OnceLock, PoisonError, RwLock};
use std::time::Duration;

use jiff::Timestamp;
use tokio::sync::Notify;

use super::echo::Echo;
use super::record::Record;
use super::routing::Route;
use super::under_way::UnderWay;
use super::world::{OpenError, World, lock};
use super::{Answer, Body, Failure, Incoming, Opening, SquadAdded, Via, WayBack, speaking};
use super::{consent, erasure, opening};
use crate::clock::{Clock, ClockMode};
use crate::coaching::Rulebook;
use crate::desk::{self, Asked};
use crate::journal::{Entry, Journal, MessageKey, Part, Seq, Ticket};
use crate::profile::{Event, SquadId, Stamped, Waiting};
use crate::reply::{Asks, Outcome, QuestionReply};

/// A snapshot is written after so many messages.
const SNAPSHOT_EVERY: u64 = 512;

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
    under_way: UnderWay,
    /// What was said lately.
    pub(super) echo: Mutex<Echo>,
    /// Entries put in the journal's queue so far, from its beginning.
    appended: Mutex<u64>,
    /// Woken when there may be a letter to deliver.
    pub(super) letters: Notify,
    /// Woken when there may be an alarm's.
    pub(super) alarms: Notify,
    /// The journal failed: what is in memory may be ahead of it.
    broken: AtomicBool,
    closing: AtomicBool,
}

/// What was decided of one message, on its way to the disk.
struct Decided {
    answer: Answer,
    ticket: Ticket,
    place: u64,
    /// Someone wished to be forgotten.
    forgets: bool,
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
        let mut world = World::rebuild(journal.as_ref())?;
        // A cut may have come between the wish and its fulfilment.
        if world.is_to_erase() {
            world = erasure::erase(journal.as_ref())?;
        }
        Ok(Arc::new(Self {
            appended: Mutex::new(journal.last().map_or(0, Seq::number)),
            letters: Notify::new(),
            alarms: Notify::new(),
            journal,
            clock,
            mode,
            book,
            boards_at: OnceLock::new(),
            world: RwLock::new(world),
            under_way: UnderWay::default(),
            echo: Mutex::default(),
            broken: AtomicBool::new(false),
            closing: AtomicBool::new(false),
        }))
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
        self.ready()?;
        let key =
            incoming.id.clone().map(|id| MessageKey { channel: incoming.channel.to_string(), id });
        let _turn = match &key {
            Some(key) => Some(self.under_way.turn(key.clone()).await),
            None => None,
        };
        if let Some(key) = &key
            && let Some(answer) = self.answered_before(key, &incoming)?
        {
            return Ok(answer);
        }
        let (from, sent_at) = (incoming.from.clone(), incoming.sent_at);
        let decided = self.decide(incoming, back, key)?;
        self.stored(decided.ticket).await?;
        if decided.answer.replies.iter().any(|reply| reply.alarm.is_some()) {
            self.alarms.notify_one();
        }
        if let (ClockMode::Message, Some(sent_at)) = (self.mode, sent_at) {
            self.say_due(&self.squads_of(&from), sent_at).await?;
        }
        if decided.forgets {
            self.erase().await?;
        }
        if decided.answer.replies.iter().any(|reply| reply.via == Via::Outbox) {
            self.letters.notify_one();
        }
        self.snapshot_when_due(decided.place).await;
        Ok(decided.answer)
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
        let ticket = {
            let world = self.world();
            let room = world.open(&id);
            let mut room = lock(&room);
            let mut after = room.squad.clone();
            let cause = after.next_cause;
            let record = Record { events, ..Record::unsaid(Some(id.clone()), cause, &coach, now) };
            let touched = record.stamped().map(|event| after.apply(&event)).collect();
            let (ticket, _) = self.append(&world, &record, None)?;
            room.replace(after, cause, now, touched);
            world.register(&id, &record.events);
            ticket
        };
        self.stored(ticket).await?;
        Ok(added)
    }

    /// Takes nothing more, writes a last snapshot, and closes the journal.
    pub async fn close(self: &Arc<Self>) {
        self.closing.store(true, Ordering::SeqCst);
        if !self.broken.load(Ordering::SeqCst) {
            self.snapshot().await;
        }
        let journal = Arc::clone(&self.journal);
        // Closing waits for the disk.
        let _ = tokio::task::spawn_blocking(move || journal.close()).await;
    }

    pub(super) fn now(&self) -> Timestamp {
        self.clock.now()
    }

    /// Passes while messages can be stored; after a failed write it opens the
    /// store again.
    ///
    /// # Errors
    /// [`Failure::Unavailable`] while they can't.
    pub fn ready(&self) -> Result<(), Failure> {
        if self.closing.load(Ordering::SeqCst) {
            return Err(Failure::Unavailable);
        }
        if self.broken.load(Ordering::SeqCst) { self.rebuild() } else { Ok(()) }
    }

    /// After a failed write: opens the store again and starts from what it
    /// holds.
    fn rebuild(&self) -> Result<(), Failure> {
        let mut world = self.world.write().unwrap_or_else(PoisonError::into_inner);
        if !self.broken.load(Ordering::SeqCst) {
            return Ok(());
        }
        let unavailable = |error: &dyn std::fmt::Display| {
            tracing::error!(%error, "the store can't be opened again yet");
            Failure::Unavailable
        };
        self.journal.reopen().map_err(|error| unavailable(&error))?;
        *world = World::rebuild(self.journal.as_ref()).map_err(|error| unavailable(&error))?;
        if world.is_to_erase() {
            *world = erasure::erase(self.journal.as_ref()).map_err(|error| unavailable(&error))?;
        }
        *lock(&self.appended) = self.journal.last().map_or(0, Seq::number);
        self.broken.store(false, Ordering::SeqCst);
        tracing::info!("the store is open again");
        Ok(())
    }

    fn answered_before(
        &self,
        key: &MessageKey,
        incoming: &Incoming,
    ) -> Result<Option<Answer>, Failure> {
        let found = self.journal.find(key).map_err(|error| self.failed(&error))?;
        let Some((_, entry)) = found else { return Ok(None) };
        let record = Record::read(&entry.body).map_err(|error| self.failed(&error))?;
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

    fn decide(
        &self,
        incoming: Incoming,
        back: WayBack,
        key: Option<MessageKey>,
    ) -> Result<Decided, Failure> {
        let wall = self.clock.now();
        let now = match self.mode {
            ClockMode::Wall => wall,
            ClockMode::Message => incoming.sent_at.unwrap_or(wall),
        };
        let world = self.world();
        let text = match &incoming.body {
            Body::Text(text) => Some(text.as_str()),
            Body::NotText(_) | Body::Withheld(_) | Body::Erased => None,
        };
        let (squad, named, which) = match world.route(&incoming.from, text, wall) {
            Route::Squad { id, named } => (Some(id), named, None),
            Route::Which { names, waiting } => (None, None, Some((names, waiting))),
            Route::None => (None, None, None),
        };
        let squads = world.names(&world.squads_of(&incoming.from));
        let room = squad.as_ref().and_then(|id| world.room(id));
        let mut record = Record {
            room: incoming.room.clone(),
            body: incoming.body.clone(),
            sent_at: incoming.sent_at,
            received: wall,
            handle: back.handle.clone(),
            ..Record::unsaid(squad, 0, &incoming.from, now)
        };
        let id = incoming.id.clone();
        if let Some(which) = which {
            return self.ask_squad(&world, record, which, &back, id, key);
        }
        let Some(room) = room else {
            return self.decide_stranger(&world, record, text.unwrap_or_default(), &back, id, key);
        };
        let mut room = lock(&room);
        record.cause = room.squad.next_cause;
        let Some(text) = text else {
            speaking::say_not_text(&mut record, &back);
            return self.finish(&world, record, id, key);
        };
        let joins =
            desk::opening_code(text).is_some() || !room.squad.members.contains_key(&incoming.from);
        let door = self.board_door();
        let asked_in = world.strangers().asked_in.clone();
        let asked = Asked {
            from: &incoming.from,
            room: incoming.room.as_deref(),
            text: named.as_deref().unwrap_or(text),
            squads: &squads,
            takes: named.is_some(),
            now,
            book: &self.book,
            wall,
            board: door.as_ref(),
            opted_out: !joins && world.is_opted_out(&incoming.from),
            asked_in: &asked_in,
            unheard: world.alarms().unheard_of(&incoming.from, wall),
        };
        let decision = desk::answer(&room.squad, &asked);
        if decision.private {
            record.body = record.body.withheld();
        }
        record.events = decision.events;
        speaking::say_all(&mut record, decision.said, decision.aside, &back);
        speaking::hold(&mut record, &decision.held);
        consent::spare(&world, &incoming.from, &mut record.replies);
        record.understood = decision.understood;
        record.result = decision.result;
        let (cause, events, squad) = (record.cause, record.events.clone(), record.squad.clone());
        let decided = self.finish(&world, record, id, key)?;
        let before = room.belonging_before(&events);
        room.replace(decision.squad, cause, now, decision.touched);
        if let Some(id) = squad {
            world.register(&id, &events);
            world.let_go(&id, &before, &room.squad);
        }
        world.hear(&incoming.from, wall, &events);
        Ok(decided)
    }

    /// Keeps a text until its sender says which squad it is for.
    fn ask_squad(
        &self,
        world: &World,
        mut record: Record,
        (names, waiting): (Vec<String>, Waiting),
        back: &WayBack,
        id: Option<String>,
        key: Option<MessageKey>,
    ) -> Result<Decided, Failure> {
        let outcome = Outcome::Question(QuestionReply {
            asks: Asks::WhichSquad,
            options: names,
            until: waiting.until,
        });
        speaking::say(&mut record, vec![], &outcome, back);
        let (address, until) = (record.from.clone(), waiting.until);
        record.events = vec![Event::SquadAsked { address, text: waiting.text, until }];
        let (from, events) = (record.from.clone(), record.events.clone());
        let received = record.received;
        let decided = self.finish(world, record, id, key)?;
        world.hear(&from, received, &events);
        Ok(decided)
    }

    fn decide_stranger(
        &self,
        world: &World,
        mut record: Record,
        text: &str,
        back: &WayBack,
        id: Option<String>,
        key: Option<MessageKey>,
    ) -> Result<Decided, Failure> {
        record.squad = None;
        let mut strangers = world.strangers();
        if matches!(record.body, Body::NotText(_)) {
            speaking::say_not_text(&mut record, back);
            return self.finish(world, record, id, key);
        }
        let asked = Asked {
            from: &record.from,
            room: record.room.as_deref(),
            text,
            squads: &[],
            takes: false,
            now: record.now,
            book: &self.book,
            wall: record.received,
            board: None,
            opted_out: strangers.is_opted_out(&record.from),
            asked_in: &strangers.asked_in,
            unheard: None,
        };
        let (understood, outcome, event) = desk::answer_stranger(&asked);
        speaking::say(&mut record, understood, &outcome, back);
        record.events.extend(event);
        let stamped: Vec<Stamped> = record.stamped().collect();
        let decided = self.finish(world, record, id, key)?;
        stamped.iter().for_each(|one| strangers.apply(one));
        Ok(decided)
    }

    /// Puts the record in the journal's queue, in the order of decisions.
    fn finish(
        &self,
        world: &World,
        record: Record,
        id: Option<String>,
        key: Option<MessageKey>,
    ) -> Result<Decided, Failure> {
        let forgets = record.events.iter().any(|event| matches!(event, Event::Forgotten { .. }));
        let (ticket, place) = self.append(world, &record, key)?;
        let id = id.unwrap_or_else(|| format!("{place}"));
        let answer = Answer {
            id,
            duplicate: false,
            replies: record.replies,
            understood: record.understood,
            result: record.result,
        };
        Ok(Decided { answer, ticket, place, forgets })
    }

    pub(super) fn append(
        &self,
        world: &World,
        record: &Record,
        key: Option<MessageKey>,
    ) -> Result<(Ticket, u64), Failure> {
        let body = record.write().map_err(|error| self.failed(&error))?;
        let (ticket, place) = self.put(Entry { key, body });
        world.post(place, record);
        lock(&self.echo).note(&record.replies, self.clock.passed());
        Ok((ticket, place))
    }

    /// Puts an entry in the journal's queue and tells the place it will have.
    /// The world is held meanwhile, and follows before it is let go.
    pub(super) fn put(&self, entry: Entry) -> (Ticket, u64) {
        let mut appended = lock(&self.appended);
        let ticket = self.journal.append(entry);
        *appended += 1;
        (ticket, *appended)
    }

    pub(super) async fn stored(&self, ticket: Ticket) -> Result<(), Failure> {
        match ticket.await {
            Ok(_) => Ok(()),
            Err(error) => {
                self.broken.store(true, Ordering::SeqCst);
                Err(self.failed(&error))
            }
        }
    }

    pub(super) fn failed(&self, error: &dyn std::fmt::Display) -> Failure {
        tracing::error!(%error, "a message could not be stored or looked up");
        Failure::Unavailable
    }

    pub(super) async fn snapshot_when_due(self: &Arc<Self>, place: u64) {
        if place.is_multiple_of(SNAPSHOT_EVERY) {
            self.snapshot().await;
        }
    }

    /// Erases those who wished to be forgotten; nothing else is decided or
    /// delivered meanwhile.
    async fn erase(self: &Arc<Self>) -> Result<(), Failure> {
        let service = Arc::clone(self);
        let erased = tokio::task::spawn_blocking(move || {
            let mut world = service.world.write().unwrap_or_else(PoisonError::into_inner);
            let appended = Seq::new(*lock(&service.appended));
            // Someone else's wish may have been fulfilled with this one.
            if !world.is_to_erase() || !service.wait_durable(appended) {
                return !world.is_to_erase();
            }
            match erasure::erase(service.journal.as_ref()) {
                Ok(without) => *world = without,
                Err(error) => {
                    tracing::error!(%error, "what was to be erased is not yet");
                    return false;
                }
            }
            true
        })
        .await;
        if matches!(erased, Ok(true)) {
            return Ok(());
        }
        // The next message begins with another try.
        self.broken.store(true, Ordering::SeqCst);
        Err(Failure::Unavailable)
    }

    /// Writes what changed since the last snapshot.
    async fn snapshot(self: &Arc<Self>) {
        let service = Arc::clone(self);
        let done = tokio::task::spawn_blocking(move || service.write_snapshot()).await;
        if !matches!(done, Ok(true)) {
            // What changed is no longer marked so: start from the journal.
            tracing::error!("a snapshot could not be written");
            self.broken.store(true, Ordering::SeqCst);
        }
    }

    fn write_snapshot(&self) -> bool {
        let (through, pictures) = {
            let world = self.world.write().unwrap_or_else(PoisonError::into_inner);
            let appended = *lock(&self.appended);
            if appended == 0 || self.broken.load(Ordering::SeqCst) {
                return !self.broken.load(Ordering::SeqCst);
            }
            (Seq::new(appended), world.changed())
        };
        let mut parts = Vec::with_capacity(pictures.len());
        for (name, picture) in pictures {
            match picture.write() {
                Ok(bytes) => parts.push(Part { name, bytes }),
                Err(error) => {
                    tracing::error!(%error, part = %name, "a snapshot part can't be written");
                    return false;
                }
            }
        }
        self.wait_durable(through) && self.journal.checkpoint(through, parts).wait().is_ok()
    }

    /// Waits until all up to `through` is durable; false if it won't be.
    fn wait_durable(&self, through: Seq) -> bool {
        while self.journal.last() < Some(through) {
            if self.broken.load(Ordering::SeqCst) {
                return false;
            }
            std::thread::sleep(Duration::from_millis(1));
        }
        true
    }
}
