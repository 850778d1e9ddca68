//! `board`: opens the squad's page to whoever may see the squad.

use std::fmt;

use jiff::ToSpan;

use crate::desk::bench::{Desk, Stopped, refused};
use crate::digest;
use crate::profile::{Event, Right};
use crate::reply::{OkReply, Outcome, RefusedWhy};

/// How long a page stays open (ours: an evening and the morning after).
const OPEN_HOURS: i64 = 12;

/// Where a page can be seen that this message opens.
///
/// The token is handed in as the instant is: chance comes in at the rim.
pub struct BoardDoor {
    /// How addresses of our server begin, without a slash at the end.
    pub base: String,
    /// What nobody can guess, made for this message.
    pub token: String,
}

impl BoardDoor {
    /// What is kept of a token.
    pub fn digest(token: &str) -> String {
        digest::hex(&digest::of(["board", token]))
    }
}

/// Whoever has the token has the page.
impl fmt::Debug for BoardDoor {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.debug_struct("BoardDoor").field("base", &self.base).finish_non_exhaustive()
    }
}

/// `board`
pub fn open(desk: &mut Desk<'_>) -> Result<Outcome, Stopped> {
    desk.demand(Right::SeeSquad)?;
    let door = desk.asked.board.ok_or_else(|| refused("no_board", RefusedWhy::NoBoard))?;
    let until = desk.asked.wall.saturating_add(OPEN_HOURS.hours());
    let until = until.map_err(|_| refused("no_board", RefusedWhy::NoBoard))?;
    let (address, token) = (desk.asked.from.to_owned(), BoardDoor::digest(&door.token));
    desk.record(Event::BoardOpened { address, token, until });
    let url = format!("{}/board/{}", door.base, door.token);
    Ok(Outcome::Ok(OkReply::Board { url, hours: OPEN_HOURS }))
}
