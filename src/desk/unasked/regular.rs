//! The texts that come every week: shown now, wanted or not, and when.

use super::hours::is_quiet;
use super::{squad_week, swimmer_week};
use crate::desk::decision::desk::Desk;
use crate::desk::decision::refusing::{Stopped, refused};
use crate::desk::decision::view::View;
use crate::history::{DigestWish, Event, ReadWhat, Right};
use crate::message::{Day, Regular, Statement};
use crate::reply::{OkReply, Outcome, RefusedWhy, WeeklyRefusal, WeeklyReply};

/// `digest`, `digest on`, `digest sun 18:00`, `weekly`, `weekly off`
pub fn regular(
    desk: &mut Desk<'_>,
    statement: &Statement,
    said: &Regular,
) -> Result<Outcome, Stopped> {
    let reply = match said {
        Regular::Digest => shown(desk)?,
        Regular::DigestWanted { wanted } => {
            wished(desk, DigestWish { wanted: Some(*wanted), ..DigestWish::default() })?
        }
        Regular::DigestAt { day, at } => {
            let day = day.and_then(|day| match day {
                Day::On(weekday) => Some([weekday].into_iter().collect()),
                _ => None,
            });
            wished(desk, DigestWish { wanted: Some(true), day, at: *at })?
        }
        Regular::Note => {
            let who = desk.subject(statement)?;
            mine(desk, &who)?;
            let nobody = || refused("not_a_swimmer", RefusedWhy::NotASwimmer);
            WeeklyReply::Note(Box::new(swimmer_week::note(desk, &who).ok_or_else(nobody)?))
        }
        Regular::NoteWanted { wanted } => {
            let who = desk.subject(statement)?;
            mine(desk, &who)?;
            if *wanted && desk.is_minor(&who) {
                return Err(turned_down(WeeklyRefusal::Minor));
            }
            desk.record(Event::WeeklyNoteWished { who, wanted: *wanted });
            WeeklyReply::NoteWish { wanted: *wanted, day: swimmer_week::DAY, at: swimmer_week::AT }
        }
    };
    Ok(Outcome::Ok(OkReply::Weekly(reply)))
}

fn shown(desk: &mut Desk<'_>) -> Result<WeeklyReply, Stopped> {
    desk.demand(Right::SeeSquad)?;
    let digest = squad_week::digest(desk);
    desk.has_seen(digest.open.iter().map(|(who, _)| who.clone()).collect(), ReadWhat::Squad);
    Ok(WeeklyReply::Digest(Box::new(digest)))
}

fn wished(desk: &mut Desk<'_>, wish: DigestWish) -> Result<WeeklyReply, Stopped> {
    desk.demand(Right::SeeSquad)?;
    if wish.at.is_some_and(is_quiet) {
        return Err(turned_down(WeeklyRefusal::QuietHours));
    }
    desk.record(Event::DigestWished { address: desk.asked.from.to_owned(), wish });
    let member = desk.member().ok_or_else(|| refused("not_a_member", RefusedWhy::NotAMember))?;
    let (day, at) = member.digest.when();
    Ok(WeeklyReply::DigestWish {
        wanted: member.hears_digest(),
        counts: member.hears_counts(),
        day,
        at,
    })
}

/// A week is told to whoever swam it.
fn mine(view: &View<'_>, who: &crate::message::Name) -> Result<(), Stopped> {
    match view.is_mine(who) {
        true => Ok(()),
        false => Err(turned_down(WeeklyRefusal::TheirsToSay)),
    }
}

fn turned_down(why: WeeklyRefusal) -> Stopped {
    refused("weekly", RefusedWhy::Weekly(why))
}
