//! Whom a question is about, and of which days it asks.

use jiff::ToSpan;
use jiff::civil::Date;

use crate::desk::decision::desk::Desk;
use crate::desk::decision::refusing::Stopped;
use crate::desk::decision::resolve::{self, Toward};
use crate::desk::decision::view::View;
use crate::desk::questions::swimmer::asked_about;
use crate::history::{Right, Swimmer};
use crate::message::{Day, Name, Of, Question, Statement};

/// Those whom a question is about, if the sender may ask about them.
pub fn names(view: &View<'_>, asked: &Question) -> Result<Vec<Name>, Stopped> {
    match &asked.of {
        Of::Sender => Ok(vec![view.subject(&statement(None))?]),
        Of::Named(names) => {
            names.iter().map(|name| view.subject(&statement(Some(name.clone())))).collect()
        }
        Of::Lanes(lanes) => {
            view.demand(Right::SeeSquad)?;
            let kept = view.tonight(view.night_shown()).kept;
            let of = |lane: &u8| kept.lane(*lane).map(|lane| lane.swimmers.clone());
            Ok(lanes.iter().filter_map(of).flatten().collect())
        }
        Of::All => {
            view.demand(Right::SeeSquad)?;
            Ok(view.squad.swimmers.keys().cloned().collect())
        }
    }
}

/// The one whom a question is about; nobody where it is about several.
pub fn one<'v>(
    view: &'v View<'_>,
    asked: &Question,
) -> Result<Option<(Name, &'v Swimmer)>, Stopped> {
    let who = match &asked.of {
        Of::Sender => None,
        Of::Named(names) if names.len() == 1 => names.first().cloned(),
        _ => return Ok(None),
    };
    asked_about(view, &statement(who)).map(Some)
}

/// The statement with whom the question is about, as commands take it.
pub fn of(said: &Statement, asked: &Question) -> Statement {
    let who = match &asked.of {
        Of::Named(names) => names.first().cloned(),
        _ => said.who.clone(),
    };
    Statement { who, kind: said.kind.clone() }
}

/// The first lane that is asked about.
pub fn lane(asked: &Question) -> Option<u8> {
    match &asked.of {
        Of::Lanes(lanes) => lanes.first().copied(),
        _ => None,
    }
}

/// The day that a question asks of, looked for in what was.
pub fn past(desk: &View<'_>, typed: Option<Day>) -> Option<Date> {
    resolve::day(typed?, desk.today, desk.squad.course.unit(), Toward::Past)
}

/// The first and the last day that a question asks of; none where it asks of no day.
pub fn days(view: &View<'_>, asked: &Question) -> Option<(Date, Date)> {
    if let Some((since, until)) = asked.within {
        let to = past(view, until).map_or(view.today, |behind| behind.saturating_sub(1.day()));
        return Some((past(view, since)?, to.min(view.today)));
    }
    past(view, asked.on).map(|on| (on, on))
}

fn statement(who: Option<Name>) -> Statement {
    Statement { who, kind: crate::message::Kind::Log }
}

impl Desk<'_> {
    /// Whole days from then to today.
    pub(super) fn days_since(&self, on: Date) -> u32 {
        u32::try_from((self.today - on).get_days()).unwrap_or_default()
    }
}
