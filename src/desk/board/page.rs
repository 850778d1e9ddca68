//! The page as a whole, for one reader at one instant.

use std::collections::BTreeSet;

use jiff::Timestamp;
use jiff::civil::{Date, Time};

use super::focus::{Focus, focuses};
use super::hurting::{Hurting, hurting};
use super::lanes::{Lanes, lanes};
use super::last_sets::{Paced, paced};
use super::last_tests::{Tested, tested};
use super::register::{Register, register};
use super::set_by_clock::{Clock, clock};
use super::swimmer_page::{One, one};
use super::todo::{ToDo, todo};
use super::weeks::{Weeks, weeks};
use crate::desk::decision::asked::Asked;
use crate::desk::decision::desk::Desk;
use crate::desk::decision::view::View;
use crate::export::Whose;
use crate::history::{BoardOpen, Event, ReadWhat, Right, Squad, Touched};
use crate::language::Language;
use crate::message::Name;

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
    /// The night that it shows: this evening's, else the next.
    pub on: Date,
    /// The page goes by the wall clock, so its minutes run on while it is looked at. Where
    /// messages bring the clock, it stands still between them.
    pub ticks: bool,
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
    /// What waits for the reader.
    pub todo: ToDo,
    /// The last paced sets.
    pub paced: Vec<Paced>,
    /// The tests.
    pub tested: Vec<Tested>,
    /// The last four weeks.
    pub weeks: Vec<Weeks>,
    /// Focus and next dates.
    pub focus: Vec<Focus>,
}

/// A look at a page, and what is kept of it.
#[derive(Debug)]
pub struct Look<T> {
    /// What is shown.
    pub shown: T,
    /// Whose health was looked at, where that is not kept yet: to be stored
    /// before anything is shown.
    pub events: Vec<Event>,
    /// The squad with the events folded in.
    pub squad: Squad,
    /// What of it they changed.
    pub touched: Vec<Touched>,
}

/// The squad's page as its owner sees it now; `None` where they may no longer see it.
/// Whose health is on it is kept once for each opening, not each time it is looked at.
pub fn look(squad: &Squad, asked: &Asked<'_>, open: &BoardOpen) -> Option<Look<Board>> {
    let desk = Desk::new(squad, asked);
    if whose_of(&desk, open)? != Whose::Squad {
        return None;
    }
    let board = board(&desk, reads_in(&desk, open));
    let of_health = board.of_health();
    Some(looked_at(desk, open.opened, board, of_health))
}

/// The page of one swimmer, in the same way: of `name` for whoever has the squad's
/// page, a swimmer's own for that swimmer. `None` too where there is no such swimmer.
pub fn look_at_one(
    squad: &Squad,
    asked: &Asked<'_>,
    open: &BoardOpen,
    name: Option<&Name>,
) -> Option<Look<One>> {
    let desk = Desk::new(squad, asked);
    let name = match (whose_of(&desk, open)?, name) {
        (Whose::Squad, Some(name)) => name.clone(),
        (Whose::One(own), None) => own,
        _ => return None,
    };
    let one = one(&desk, &name, reads_in(&desk, open))?;
    let of_health = one.is_of_health().then_some(name).into_iter().collect();
    Some(looked_at(desk, open.opened, one, of_health))
}

/// Whose history an open page shows; `None` where its owner may no longer see it.
pub fn whose(squad: &Squad, asked: &Asked<'_>, open: &BoardOpen) -> Option<Whose> {
    whose_of(&View::new(squad, asked), open)
}

pub fn whose_of(view: &View<'_>, open: &BoardOpen) -> Option<Whose> {
    theirs(view, open.of.as_ref())
}

/// The squad's for whoever may see it, a swimmer's own for themselves.
pub fn theirs(view: &View<'_>, of: Option<&Name>) -> Option<Whose> {
    match of {
        None => view.may(Right::SeeSquad).then_some(Whose::Squad),
        Some(own) => view.is_mine(own).then(|| Whose::One(own.clone())),
    }
}

fn looked_at<T>(
    mut desk: Desk<'_>,
    opened: Timestamp,
    shown: T,
    of_health: BTreeSet<Name>,
) -> Look<T> {
    let from = desk.asked.from;
    let kept: BTreeSet<Name> = desk
        .squad
        .safe
        .reads
        .iter()
        .filter(|read| read.by == from && read.what == ReadWhat::Board && read.at >= opened)
        .flat_map(|read| read.who.iter().cloned())
        .collect();
    let new = of_health.into_iter().filter(|who| !kept.contains(who)).collect();
    desk.has_seen(new, ReadWhat::Board);
    Look { shown, events: desk.events, squad: desk.view.squad, touched: desk.touched }
}

impl Board {
    /// Those whose health it shows.
    fn of_health(&self) -> BTreeSet<Name> {
        let hurting = self.hurting.iter().map(|one| &one.who);
        let ill = self.weeks.iter().filter(|one| one.ill).map(|one| &one.who);
        let placed = self.lanes.lanes.iter().flat_map(|lane| &lane.swimmers);
        let gently = placed.filter(|one| one.gently).map(|one| &one.who);
        hurting.chain(ill).chain(gently).map(|who| who.name.clone()).collect()
    }
}

/// The language of whoever has a page: as chosen, else as it was asked for.
pub fn reads_in(view: &View<'_>, open: &BoardOpen) -> Language {
    view.chosen_language().or(open.language).unwrap_or_default()
}

fn board(view: &View<'_>, language: Language) -> Board {
    let on = night(view);
    let (tested, weeks, tonight) = (tested(view), weeks(view), view.tonight(on));
    Board {
        squad: view.squad.name.clone(),
        language,
        at: view.now().to_zoned_datetime(view.squad.zone()).time(),
        today: view.today,
        on,
        ticks: false,
        unheard: Vec::new(),
        hurting: hurting(view, on),
        register: register(view, on),
        lanes: lanes(view, &tonight),
        clock: clock(view, &tonight),
        todo: todo(view, &tested, &weeks),
        paced: paced(view),
        tested,
        weeks,
        focus: focuses(view),
    }
}

/// The night to show: this evening's where the squad swims or anything is set, drawn or marked
/// for it; else the next.
fn night(view: &View<'_>) -> Date {
    let (now, evening) = (view.now(), view.evening());
    let squad = &view.squad;
    let tonight = squad.night(evening, now).is_some()
        || squad.evening_kept(evening, now).is_some()
        || squad.here_on(evening, now).next().is_some();
    let next = || squad.next_night(evening, now).map(|night| night.on);
    if tonight { evening } else { next().unwrap_or(evening) }
}
