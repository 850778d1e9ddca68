//! The address of a page, which `board` opens to whoever may see the squad, and `trend` to
//! a swimmer for their own.

use jiff::ToSpan;

use crate::desk::decision::asked::BoardDoor;
use crate::desk::decision::desk::Desk;
use crate::desk::decision::refusing::{Stopped, refused};
use crate::desk::squad::overview;
use crate::history::{Event, Right};
use crate::message::{Name, Statement};
use crate::reply::{OkReply, Outcome, OwnPage, RefusedWhy};

/// How long a page stays open (ours: an evening and the morning after).
const OPEN_HOURS: i64 = 12;

/// `board`
pub fn open(desk: &mut Desk<'_>) -> Result<Outcome, Stopped> {
    desk.demand(Right::SeeSquad)?;
    let url = opened(desk, None).ok_or_else(|| refused("no_board", RefusedWhy::NoBoard))?;
    Ok(Outcome::Ok(OkReply::Board { url, hours: OPEN_HOURS }))
}

/// `trend`: a swimmer's own page, to whom they text from, where pages can be seen at
/// all.
pub fn open_own(desk: &mut Desk<'_>, who: &Name) -> Option<OwnPage> {
    if !desk.is_mine(who) || desk.asked.room.is_some() {
        return None;
    }
    let url = opened(desk, Some(who.clone()))?;
    Some(OwnPage { url, hours: OPEN_HOURS })
}

/// The address of a page that is open from now on.
fn opened(desk: &mut Desk<'_>, of: Option<Name>) -> Option<String> {
    let door = desk.asked.board?;
    let until = desk.asked.wall.saturating_add(OPEN_HOURS.hours()).ok()?;
    let (address, token) = (desk.asked.from.to_owned(), BoardDoor::digest(&door.token));
    let place = if of.is_some() { "me" } else { "board" };
    let language = Some(desk.language());
    desk.record(Event::BoardOpened { address, of, token, until, language });
    Some(format!("{}/{place}/{}", door.base, door.token))
}

/// `trend`: the swimmer's card; to the swimmer alone also the address of their own page.
pub fn trend_told(desk: &mut Desk<'_>, statement: &Statement) -> Result<Outcome, Stopped> {
    let mut told = overview::swimmer(desk, statement)?;
    if let Outcome::Swimmer(card) = &mut told {
        card.page = open_own(desk, &card.row.swimmer);
    }
    Ok(told)
}
