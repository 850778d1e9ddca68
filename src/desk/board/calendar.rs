//! The calendar that lasts, asked for from an open page: opened, renewed or shut.

use jiff::civil::Date;

use super::page::{Look, reads_in, theirs, whose_of};
use crate::desk::decision::asked::Asked;
use crate::desk::decision::desk::Desk;
use crate::desk::decision::view::View;
use crate::digest;
use crate::export::Whose;
use crate::history::{BoardOpen, CalendarOpen, Event, Squad};
use crate::language::Language;

/// What the reader of a page wants of their calendar.
#[derive(Debug, Clone, Copy)]
pub enum CalendarWish<'a> {
    /// To know whether there is one.
    Look,
    /// A new address of this token; an old one is shut.
    Open(&'a str),
    /// To shut it.
    Shut,
}

/// Whether there is a calendar, and whose.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CalendarSeen {
    /// The reader's language.
    pub language: Language,
    /// Whose it is: the squad's name, or the swimmer's.
    pub of: String,
    /// Since when there is one.
    pub since: Option<Date>,
}

/// What is kept of a calendar's token.
pub fn calendar_digest(token: &str) -> String {
    digest::hex(&digest::of(["calendar", token]))
}

/// Does what the page's owner wishes; `None` where they may no longer see the page.
pub fn calendar(
    squad: &Squad,
    asked: &Asked<'_>,
    page: &BoardOpen,
    wish: CalendarWish<'_>,
) -> Option<Look<CalendarSeen>> {
    let mut desk = Desk::new(squad, asked);
    let whose = whose_of(&desk, page)?;
    let (address, of) = (page.address.clone(), page.of.clone());
    match wish {
        CalendarWish::Look => {}
        CalendarWish::Open(token) => {
            desk.record(Event::CalendarOpened { address, of, token: calendar_digest(token) });
        }
        CalendarWish::Shut => desk.record(Event::CalendarShut { address, of }),
    }
    let open = desk.squad.calendar_of(&page.address, page.of.as_ref());
    let shown = CalendarSeen {
        language: reads_in(&desk, page),
        of: match whose {
            Whose::Squad => desk.squad.name.clone(),
            Whose::One(name) => name.to_string(),
        },
        since: open.map(|open| desk.squad.local_day(open.since)),
    };
    Some(Look { shown, events: desk.events, squad: desk.view.squad, touched: desk.touched })
}

/// Whose days an open calendar shows; `None` where its owner may no longer see them.
pub fn whose_calendar(squad: &Squad, asked: &Asked<'_>, open: &CalendarOpen) -> Option<Whose> {
    theirs(&View::new(squad, asked), open.of.as_ref())
}
