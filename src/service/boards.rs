//! The squad's page for whoever has its address: whose it is, and whether it may
//! still be seen.
//!
//! Decides nothing about what is on it.

use std::sync::Arc;

use jiff::Timestamp;
use jiff::tz::TimeZone;

use super::deciding::PutOf;
use super::opening::code_letter;
use super::record::Record;
use super::{Changes, Failure, Service};
use crate::clock::ClockMode;
use crate::desk::Asked;
use crate::desk::board::{self, Board, BoardDoor, Look, One};
use crate::export::Whose;
use crate::history::{BoardOpen, Squad, SquadId, StrangersAsked};
use crate::message::Name;

/// How many letters make a token, each one of 32 that are not taken for one
/// another: 130 bits, and it can be typed into a tablet.
const TOKEN_LENGTH: usize = 26;

/// What a token has opened.
pub(super) struct Opened<T> {
    /// What is shown.
    pub shown: T,
    /// Of which squad.
    squad: SquadId,
    /// Its zone.
    zone: TimeZone,
    /// What is to be durable before it is shown.
    put: Option<PutOf>,
}

impl Service {
    /// Lets people be told that their pages are under `base`, as `https://a.example`.
    /// The first word holds.
    pub fn show_boards_at(&self, base: &str) {
        let _ = self.boards_at.set(base.trim_end_matches('/').to_owned());
    }

    /// A door for one message, where pages can be seen at all.
    pub(super) fn board_door(&self) -> Option<BoardDoor> {
        let base = self.boards_at.get()?.clone();
        Some(BoardDoor { base, token: token()? })
    }

    /// The page that a token opens, as of now; `None` for one that opens none,
    /// that is shut, or whose owner may no longer see the squad.
    ///
    /// # Errors
    /// [`Failure::Unavailable`] where it can't be shown now.
    pub async fn board(self: &Arc<Self>, token: &str) -> Result<Option<Board>, Failure> {
        let Some(Opened { mut shown, squad, zone, .. }) = self.opened(token, board::look).await?
        else {
            return Ok(None);
        };
        let unheard = self.world().alarms().unheard(self.now());
        let of_squad =
            unheard.iter().filter(|one| one.danger && one.squad.as_ref() == Some(&squad));
        shown.unheard = of_squad.map(|one| one.at.to_zoned_datetime(zone.clone()).time()).collect();
        shown.ticks = self.mode == ClockMode::Wall;
        Ok(Some(shown))
    }

    /// The page of one swimmer: of `name` by the squad's token, without a name by
    /// their own. `None` as for [`board`](Self::board), and where there is no such
    /// swimmer.
    ///
    /// # Errors
    /// As [`board`](Self::board).
    pub async fn board_of_one(
        self: &Arc<Self>,
        token: &str,
        name: Option<&Name>,
    ) -> Result<Option<One>, Failure> {
        let opened =
            self.opened(token, |squad, asked, open| board::look_at_one(squad, asked, open, name));
        Ok(opened.await?.map(|opened| opened.shown))
    }

    /// What changes in the squad whose page a token opens; `None` as for
    /// [`board`](Self::board).
    ///
    /// # Errors
    /// As [`board`](Self::board).
    pub fn changes_of_board(&self, token: &str) -> Result<Option<Changes>, Failure> {
        let digest = BoardDoor::digest(token);
        self.by_door(&digest, |id, squad, now, wall| {
            let Some(open) = squad.board_open(&digest, wall) else { return Ok(None) };
            let nobody = StrangersAsked::default();
            let asked = self.looking(&open.address, now, wall, &nobody);
            let theirs = board::whose(squad, &asked, open) == Some(Whose::Squad);
            Ok(theirs.then(|| self.listeners.listen(id)))
        })
    }

    /// What `look` sees of the squad whose page or calendar has this address, known by its
    /// digest. `look` is handed the instant that is shown as now, and the wall clock's. Nothing
    /// changes.
    pub(super) fn by_door<T>(
        &self,
        digest: &str,
        look: impl FnOnce(&SquadId, &Squad, Timestamp, Timestamp) -> Result<Option<T>, Failure>,
    ) -> Result<Option<T>, Failure> {
        self.ready()?;
        let world = self.world();
        let Some(id) = world.squad_by_board(digest) else { return Ok(None) };
        let seat = world.room(&id).map_err(|error| self.failed(&error))?;
        let Some(seat) = seat else { return Ok(None) };
        let room = seat.enter();
        let wall = self.now();
        look(&id, &room.squad, self.shown_as_of(room.squad.as_of, wall), wall)
    }

    /// What `look` sees by a token. That somebody's health was seen is durable before
    /// it is shown.
    pub(super) async fn opened<T>(
        self: &Arc<Self>,
        token: &str,
        look: impl Fn(&Squad, &Asked<'_>, &BoardOpen) -> Option<Look<T>>,
    ) -> Result<Option<Opened<T>>, Failure> {
        self.ready()?;
        self.caught_up().await?;
        loop {
            let Some(mut opened) = self.open_once(token, &look)? else { return Ok(None) };
            let Some((put, due)) = opened.put.take() else { return Ok(Some(opened)) };
            if let Some(place) = self.stored(put.ticket).await? {
                self.look_after(place, due);
                return Ok(Some(opened));
            }
        }
    }

    /// What `look` sees by a token now, with what is to be durable before it is shown.
    fn open_once<T>(
        &self,
        token: &str,
        look: impl Fn(&Squad, &Asked<'_>, &BoardOpen) -> Option<Look<T>>,
    ) -> Result<Option<Opened<T>>, Failure> {
        let world = self.world();
        let digest = BoardDoor::digest(token);
        let Some(id) = world.squad_by_board(&digest) else { return Ok(None) };
        let seat = world.room(&id).map_err(|error| self.failed(&error))?;
        let Some(seat) = seat else { return Ok(None) };
        let mut room = seat.enter();
        let wall = self.now();
        let Some(open) = room.squad.board_open(&digest, wall).cloned() else { return Ok(None) };
        let now = self.shown_as_of(room.squad.as_of, wall);
        let nobody = StrangersAsked::default();
        let asked = self.looking(&open.address, now, wall, &nobody);
        let Some(seen) = look(&room.squad, &asked, &open) else { return Ok(None) };
        let Look { shown, events, squad, touched } = seen;
        let zone = room.squad.zone();
        let mut opened = Opened { shown, squad: id.clone(), zone, put: None };
        if events.is_empty() {
            return Ok(Some(opened));
        }
        let cause = room.squad.next_cause;
        let mut record = Record::unsaid(Some(id), cause, &open.address, now);
        (record.events, record.received) = (events, wall);
        let put = self.append(&world, &record, None)?;
        let due = self.went_on(&mut room, squad, touched, &record, &put);
        opened.put = Some((put, due));
        Ok(Some(opened))
    }

    /// What a look asks: a text without words.
    pub(super) fn looking<'a>(
        &'a self,
        from: &'a str,
        now: Timestamp,
        wall: Timestamp,
        strangers_asked: &'a StrangersAsked,
    ) -> Asked<'a> {
        Asked { wall, ..Asked::alone(from, "", now, &self.book, strangers_asked) }
    }

    /// By the wall clock, or as of the squad's last message where messages bring
    /// the clock.
    pub(super) fn shown_as_of(&self, last: Option<Timestamp>, wall: Timestamp) -> Timestamp {
        match self.mode {
            ClockMode::Wall => wall,
            ClockMode::Message => last.unwrap_or(wall),
        }
    }
}

/// A new token; `None` without randomness.
pub(super) fn token() -> Option<String> {
    let mut bytes = [0; TOKEN_LENGTH];
    getrandom::fill(&mut bytes).ok()?;
    Some(bytes.into_iter().map(|byte| code_letter(byte).to_ascii_lowercase()).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 26 of 32 letters: 130 bits.
    #[test]
    fn no_two_tokens_are_alike() {
        let (one, other) = (token().unwrap(), token().unwrap());
        assert_ne!(one, other);
        assert!(one.len() == TOKEN_LENGTH && one.chars().all(|c| c.is_ascii_alphanumeric()));
    }
}
