//! The page as a whole, for one reader at one instant.

use std::collections::BTreeSet;

use jiff::Timestamp;
use jiff::civil::{Date, Time};

use super::clock::clock;
use super::focus::focuses;
use super::hurting::hurting;
use super::lanes::lanes;
use super::paced::paced;
use super::register::register;
use super::tested::tested;
use super::weeks::weeks;
use super::{Clock, Focus, Hurting, Lanes, Paced, Register, Tested, Weeks};
use crate::desk::Asked;
use crate::desk::bench::Desk;
use crate::language::Language;
use crate::message::Name;
use crate::profile::{Event, ReadWhat, Right, Squad, Touched};

/// All that the page shows.
#[derive(Debug, Clone, PartialEq)]
pub struct Board {
    /// The squad's name.
    pub squad: String,
    /// The reader's language.
    pub language: Language,
    /// The local time it is as of.
    pub at: Time,
    /// The local day it is as of.
    pub today: Date,
    /// The night it is of: this evening's, else the next.
    pub on: Date,
    /// When alarms were raised that have reached nobody by text.
    pub unheard: Vec<Time>,
    /// Who is stopped or hurting now.
    pub hurting: Vec<Hurting>,
    /// Who is at the pool.
    pub register: Register,
    /// Who swims where.
    pub lanes: Lanes,
    /// The set and the clock.
    pub clock: Clock,
    /// The last paced sets.
    pub paced: Vec<Paced>,
    /// The tests.
    pub tested: Vec<Tested>,
    /// The last four weeks.
    pub weeks: Vec<Weeks>,
    /// Focus and next dates.
    pub focus: Vec<Focus>,
}

/// A look at the page, and what is kept of it.
#[derive(Debug)]
pub struct Look {
    /// What is shown.
    pub board: Board,
    /// Whose health was looked at, where that is not kept yet: to be stored
    /// before anything is shown.
    pub events: Vec<Event>,
    /// The squad with the events folded in.
    pub squad: Squad,
    /// What of it they changed.
    pub touched: Vec<Touched>,
}

/// The page as `asked` sees it who had it opened at `opened`; `None` where that
/// is no longer hers to see. Whose health is on it is kept once for each opening,
/// not each time it is looked at.
pub fn look(squad: &Squad, asked: &Asked<'_>, opened: Timestamp) -> Option<Look> {
    let mut desk = Desk::new(squad, asked);
    if !desk.may(Right::SeeSquad) {
        return None;
    }
    let board = board(&desk);
    let kept: BTreeSet<Name> = desk
        .squad
        .safe
        .reads
        .iter()
        .filter(|read| read.by == asked.from && read.what == ReadWhat::Board && read.at >= opened)
        .flat_map(|read| read.who.iter().cloned())
        .collect();
    let new = board.of_health().into_iter().filter(|who| !kept.contains(who)).collect();
    desk.has_seen(new, ReadWhat::Board);
    Some(Look { board, events: desk.events, squad: desk.squad, touched: desk.touched })
}

impl Board {
    /// Those of whose health it tells.
    fn of_health(&self) -> BTreeSet<Name> {
        let hurting = self.hurting.iter().map(|one| &one.who);
        let ill = self.weeks.iter().filter(|one| one.ill).map(|one| &one.who);
        let placed = self.lanes.lanes.iter().flat_map(|lane| &lane.swimmers);
        let gently = placed.filter(|one| one.gently || one.stopped).map(|one| &one.who);
        hurting.chain(ill).chain(gently).map(|who| who.name.clone()).collect()
    }
}

fn board(desk: &Desk<'_>) -> Board {
    let on = night(desk);
    Board {
        squad: desk.squad.name.clone(),
        language: desk.language(),
        at: desk.now().to_zoned_datetime(desk.squad.zone()).time(),
        today: desk.today,
        on,
        unheard: Vec::new(),
        hurting: hurting(desk),
        register: register(desk, on),
        lanes: lanes(desk, on),
        clock: clock(desk, on),
        paced: paced(desk),
        tested: tested(desk),
        weeks: weeks(desk),
        focus: focuses(desk),
    }
}

/// This evening's where the squad swims or anything is set, drawn or marked for
/// it; else the next there is.
fn night(desk: &Desk<'_>) -> Date {
    let (now, evening) = (desk.now(), desk.evening());
    let squad = &desk.squad;
    let tonight = squad.night(evening, now).is_some()
        || squad.set_in_force(evening, now).is_some()
        || squad.lanes_drawn(evening, now).is_some()
        || squad.here_on(evening, now).next().is_some();
    let next = || squad.next_night(evening, now).map(|night| night.on);
    if tonight { evening } else { next().unwrap_or(evening) }
}
