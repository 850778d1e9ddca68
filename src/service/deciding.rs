//! Deciding one message: which squad it goes to, what the desk says, and its
//! record on the way to the disk, all in one step.

use std::sync::Arc;

use super::conflicts::{self, Keyed};
use super::record::Record;
use super::room::Room;
use super::rooms::Entered;
use super::routing::Route;
use super::told::Told;
use super::world::{self, World, lock};
use super::{Answer, Body, Failure, Incoming, Service, Via, WayBack, consent, speaking};
use crate::clock::ClockMode;
use crate::desk::{self, Asked};
use crate::history::{Event, Squad, SquadId, Strangers, Touched, Waiting};
use crate::journal::{Basis, Entry, State, Ticket};
use crate::reply::{Asks, Outcome, QuestionReply};

/// What was decided of one message, on its way to the disk.
pub(super) struct Decided {
    /// Its answer; without an id where the message had none.
    pub answer: Answer,
    pub ticket: Ticket,
    /// Someone wished to be forgotten.
    pub forgets: bool,
    /// A squad of which a snapshot is due.
    pub due: Option<SquadId>,
}

/// What the desk said to a message in a squad.
struct Weighed {
    record: Record,
    squad: Squad,
    touched: Vec<Touched>,
}

/// A record that was put in the journal's queue.
pub(super) struct Put {
    pub ticket: Ticket,
    /// The place that it will have.
    pub place: u64,
    /// How long it is.
    pub bytes: usize,
    /// What of it stands in the answer too.
    told: Told,
}

/// The same, with the squad of which a snapshot is due.
pub(super) type PutOf = (Put, Option<SquadId>);

impl Service {
    /// Loads the squad that a message goes to, away from the threads that answer; gives
    /// which it is.
    pub(super) async fn load_for(
        self: &Arc<Self>,
        incoming: &Incoming,
    ) -> Result<Option<SquadId>, Failure> {
        let (rooms, id) = {
            let world = self.world();
            let route = world.route(&incoming.from, text_of(&incoming.body), self.now());
            match route.map_err(|error| self.failed(&error))? {
                Route::Squad { id, .. } if !world.rooms().holds(&id) => {
                    (Arc::clone(world.rooms()), id)
                }
                Route::Squad { id, .. } => return Ok(Some(id)),
                _ => return Ok(None),
            }
        };
        let squad = id.clone();
        let loaded = tokio::task::spawn_blocking(move || rooms.seat(&id).map(drop));
        match loaded.await {
            Ok(Ok(())) => Ok(Some(squad)),
            Ok(Err(error)) => Err(self.failed(&error)),
            Err(error) => Err(self.failed(&error)),
        }
    }

    pub(super) fn decide(
        &self,
        incoming: &Incoming,
        back: &WayBack,
        key: Option<Keyed>,
    ) -> Result<Decided, Failure> {
        let wall = self.clock.now();
        let now = match self.mode {
            ClockMode::Wall => wall,
            ClockMode::Message => incoming.sent_at.unwrap_or(wall),
        };
        let world = self.world();
        let text = text_of(&incoming.body);
        let route = world.route(&incoming.from, text, wall).map_err(|error| self.failed(&error))?;
        let (squad, named, which) = match route {
            Route::Squad { id, named } => (Some(id), named, None),
            Route::Which { names, waiting } => (None, None, Some((names, waiting))),
            Route::None => (None, None, None),
        };
        let squads = world.names(&world.squads_of(&incoming.from));
        let seat = match &squad {
            Some(id) => world.room(id).map_err(|error| self.failed(&error))?,
            None => None,
        };
        let record = Record {
            room: incoming.room.clone(),
            body: incoming.body.clone(),
            sent_at: incoming.sent_at,
            received: wall,
            handle: back.handle.clone(),
            ..Record::unsaid(squad, 0, &incoming.from, now)
        };
        let id = incoming.id.clone();
        if let Some(which) = which {
            return self.ask_squad(&world, record, which, back, id, key);
        }
        let Some(seat) = seat else {
            return self.decide_stranger(&world, record, text.unwrap_or_default(), back, id, key);
        };
        let mut room = seat.enter();
        let Weighed { record, squad, touched } =
            self.weigh(&world, &room, record, named.as_deref(), &squads, back)?;
        let put = self.append(&world, &record, key)?;
        let due = self.went_on(&mut room, squad, touched, &record, &put);
        Ok(decided(record, put, id, due))
    }

    /// What the desk says to a message in a squad.
    fn weigh(
        &self,
        world: &World,
        room: &Room,
        mut record: Record,
        named: Option<&str>,
        squads: &[String],
        back: &WayBack,
    ) -> Result<Weighed, Failure> {
        record.cause = room.squad.next_cause;
        let body = record.body.clone();
        let Some(text) = text_of(&body) else {
            speaking::say_not_text(&mut record, back);
            return Ok(Weighed { record, squad: room.squad.clone(), touched: vec![] });
        };
        let (from, chat) = (record.from.clone(), record.room.clone());
        let joins = desk::opening_code(text).is_some() || !room.squad.members.contains_key(&from);
        let door = self.board_door();
        let strangers_asked = world.strangers().asked.clone();
        let asked = Asked {
            from: &from,
            room: chat.as_deref(),
            text: named.unwrap_or(text),
            squads,
            takes: named.is_some(),
            now: record.now,
            book: &self.book,
            wall: record.received,
            board: door.as_ref(),
            opted_out: !joins && world.is_opted_out(&from),
            strangers_asked: &strangers_asked,
            unheard: world.alarms().unheard_of(&from, record.received),
            calls: self.state() == State::Writable,
        };
        // Time may go back; what counted then may be kept in the journal only.
        let whole = match room.squad.needs_more_at(record.now) {
            true => Some(self.whole_history(&room.squad, room.place)?),
            false => None,
        };
        let decision = desk::answer(whole.as_ref().unwrap_or(&room.squad), &asked);
        if decision.private {
            record.body = record.body.withheld();
        }
        record.events = decision.events;
        speaking::say_all(&mut record, decision.said, decision.aside, back);
        speaking::hold(&mut record, &decision.held);
        consent::spare(world, &from, &mut record.replies);
        record.understood = decision.understood;
        record.result = decision.result;
        record.gone = world::gone(&room.squad, &record.events, &decision.squad);
        if whole.is_none() {
            return Ok(Weighed { record, squad: decision.squad, touched: decision.touched });
        }
        let mut squad = room.squad.clone();
        let touched = record.stamped().map(|event| squad.apply(&event)).collect();
        Ok(Weighed { record, squad, touched })
    }

    /// A squad with its whole history, up to its message at `place`.
    fn whole_history(&self, squad: &Squad, place: u64) -> Result<Squad, Failure> {
        if !self.wait_durable(place) {
            return Err(Failure::Unavailable);
        }
        Room::whole_history(self.journal.as_ref(), &squad.id).map_err(|error| self.failed(&error))
    }

    /// Answers without storing anything, while nothing can be stored: questions, and
    /// what can't wait. Nobody else is told anything.
    ///
    /// # Errors
    /// [`Failure::ReadOnly`], for this reason, for all else.
    pub(super) fn answer_unstored(
        &self,
        incoming: Incoming,
        back: &WayBack,
        why: String,
    ) -> Result<Answer, Failure> {
        let wall = self.clock.now();
        let world = self.world();
        let text = text_of(&incoming.body).unwrap_or_default();
        let urgent = desk::is_urgent(text);
        let route = world.route(&incoming.from, Some(text), wall);
        let Ok(Route::Squad { id, named }) = route else { return Err(Failure::ReadOnly(why)) };
        let seat = world.room(&id).map_err(|error| self.failed(&error))?;
        let Some(seat) = seat else { return Err(Failure::ReadOnly(why)) };
        let squads = world.names(&world.squads_of(&incoming.from));
        let record = Record {
            room: incoming.room,
            body: incoming.body,
            ..Record::unsaid(Some(id), 0, &incoming.from, wall)
        };
        let room = seat.enter();
        let Weighed { mut record, .. } =
            self.weigh(&world, &room, record, named.as_deref(), &squads, back)?;
        let keeps = |event: &Event| {
            !matches!(
                event,
                Event::MoreKept { .. } | Event::ReasonsKept { .. } | Event::QuestionHeard { .. }
            )
        };
        if !urgent && record.events.iter().any(keeps) {
            return Err(Failure::ReadOnly(why));
        }
        record.replies.retain(|reply| reply.via == Via::Answer);
        Ok(Answer {
            id: incoming.id.unwrap_or_default(),
            duplicate: false,
            replies: record.replies,
            understood: record.understood,
            result: record.result,
            told: Told::default(),
        })
    }

    /// Keeps a text until its sender says which squad it is for.
    fn ask_squad(
        &self,
        world: &World,
        mut record: Record,
        (names, waiting): (Vec<String>, Waiting),
        back: &WayBack,
        id: Option<String>,
        key: Option<Keyed>,
    ) -> Result<Decided, Failure> {
        let outcome = Outcome::Question(QuestionReply {
            asks: Asks::WhichSquad,
            options: names,
            until: waiting.until,
        });
        speaking::say(&mut record, vec![], &outcome, back);
        let (address, until) = (record.from.clone(), waiting.until);
        record.events = vec![Event::SquadAsked { address, text: waiting.text, until }];
        let put = self.append(world, &record, key)?;
        Ok(decided(record, put, id, None))
    }

    fn decide_stranger(
        &self,
        world: &World,
        mut record: Record,
        text: &str,
        back: &WayBack,
        id: Option<String>,
        key: Option<Keyed>,
    ) -> Result<Decided, Failure> {
        record.squad = None;
        let mut strangers = world.strangers();
        if matches!(record.body, Body::NotText(_)) {
            speaking::say_not_text(&mut record, back);
        } else {
            let asked = Asked {
                wall: record.received,
                room: record.room.as_deref(),
                opted_out: strangers.is_opted_out(&record.from),
                ..Asked::alone(&record.from, text, record.now, &self.book, &strangers.asked)
            };
            let (understood, outcome, event) = desk::answer_stranger(&asked);
            speaking::say(&mut record, understood, &outcome, back);
            record.events.extend(event);
        }
        let put = self.append_with(world, &record, key, &mut strangers)?;
        Ok(decided(record, put, id, None))
    }

    /// Puts the record in the journal's queue, in the order of decisions, and
    /// takes in what it does outside its squad: at once, or where others write too, once
    /// it is handed over.
    pub(super) fn append(
        &self,
        world: &World,
        record: &Record,
        key: Option<Keyed>,
    ) -> Result<Put, Failure> {
        self.append_with(world, record, key, &mut world.strangers())
    }

    /// [`append`](Self::append) while the strangers are held.
    pub(super) fn append_with(
        &self,
        world: &World,
        record: &Record,
        key: Option<Keyed>,
        strangers: &mut Strangers,
    ) -> Result<Put, Failure> {
        let (body, told) = record.write_told().map_err(|error| self.failed(&error))?;
        let bytes = body.len();
        let basis = self.shared.then(|| {
            let squads = world.squads_of(&record.from);
            conflicts::basis_of(record, key.as_ref(), &squads, *lock(&self.appended))
        });
        let key = key.map(|keyed| keyed.key);
        let entry = Entry { stream: record.stream(), key, at: record.received, body };
        let (ticket, place) = self.put(entry, basis);
        if !self.shared {
            world.note(place, record, strangers);
            lock(&self.echo).note(&record.replies, self.clock.passed());
        }
        Ok(Put { ticket, place, bytes, told })
    }

    /// Puts an entry in the journal's queue and tells the place it will have, where nobody
    /// else writes. The world is held meanwhile, and follows before it is let go.
    pub(super) fn put(&self, entry: Entry, basis: Option<Basis>) -> (Ticket, u64) {
        if let Some(basis) = basis {
            return (self.journal.append_on(entry, basis), 0);
        }
        let mut appended = lock(&self.appended);
        let ticket = self.journal.append(entry);
        *appended += 1;
        (ticket, *appended)
    }

    /// Makes the squad as this message left it the current one, and tells open pages;
    /// gives the squad's id where a snapshot is due. Where others write too, that is done
    /// once it is handed over.
    pub(super) fn went_on(
        &self,
        room: &mut Entered<'_>,
        squad: Squad,
        touched: Vec<Touched>,
        record: &Record,
        put: &Put,
    ) -> Option<SquadId> {
        if self.shared {
            return None;
        }
        let room: &mut Room = room;
        room.replace(squad, touched, record, (put.place, put.bytes));
        self.listeners.tell(&room.squad.id);
        room.is_due().then(|| room.squad.id.clone())
    }
}

fn decided(record: Record, put: Put, id: Option<String>, due: Option<SquadId>) -> Decided {
    let forgets = record.events.iter().any(|event| matches!(event, Event::Forgotten { .. }));
    let answer = Answer {
        id: id.unwrap_or_default(),
        duplicate: false,
        replies: record.replies,
        understood: record.understood,
        result: record.result,
        told: put.told,
    };
    Decided { answer, ticket: put.ticket, forgets, due }
}

fn text_of(body: &Body) -> Option<&str> {
    match body {
        Body::Text(text) => Some(text.as_str()),
        Body::NotText(_) | Body::Withheld(_) | Body::Erased => None,
    }
}
