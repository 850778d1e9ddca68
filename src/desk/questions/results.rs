//! What was swum by the clock on a night, with what was gained.

use jiff::civil::Date;

use super::about::{is_of_one, known};
use super::swimmer::other;
use crate::desk::decision::desk::Desk;
use crate::desk::decision::refusing::{Stopped, refused};
use crate::desk::decision::resolve::{self, Toward};
use crate::desk::decision::view::View;
use crate::desk::known::trials::trials;
use crate::history::{Right, Swimmer};
use crate::message::{Day, Name, Statement};
use crate::reply::{Known, Outcome, RefusedWhy, ResultLine, Swam, Unknown};
use crate::swim::Trial;
use crate::swim::real_change::Change;
use crate::units::Centis;

/// `who got faster last night`, `what were the times`: the tests of a night, the greatest
/// gain first, then the sets. A swimmer hears of themselves alone.
pub fn results(
    desk: &mut Desk<'_>,
    statement: &Statement,
    on: Option<Day>,
) -> Result<Outcome, Stopped> {
    let names: Vec<Name> = match is_of_one(desk, statement)
        && !(statement.who.is_none() && desk.may(Right::SeeSquad))
    {
        true => vec![desk.subject(statement)?],
        false => {
            desk.demand(Right::SeeSquad)?;
            desk.squad.swimmers.keys().cloned().collect()
        }
    };
    of_these(desk, &names, on)
}

/// The results of these on a night, or on the last on which one of them swam by the clock.
pub fn of_these(desk: &mut Desk<'_>, names: &[Name], on: Option<Day>) -> Result<Outcome, Stopped> {
    let unit = desk.squad.course.unit();
    let day = match on {
        Some(typed) => Some(
            resolve::day(typed, desk.today, unit, Toward::Past)
                .ok_or_else(|| refused("day", RefusedWhy::Nothing))?,
        ),
        None => None,
    };
    let swimmers: Vec<&Swimmer> = names.iter().filter_map(|name| desk.swimmer(name)).collect();
    let latest = || swimmers.iter().filter_map(|swimmer| last_timed(desk, swimmer)).max();
    let Some(night) = day.or_else(latest) else {
        return Ok(known(Known::Not(Unknown::Results { on: None })));
    };
    let mut lines: Vec<(f64, ResultLine)> =
        swimmers.iter().flat_map(|swimmer| of_night(desk, swimmer, night)).collect();
    if lines.is_empty() {
        return Ok(known(Known::Not(Unknown::Results { on: Some(night) })));
    }
    lines.sort_by(|one, next| next.0.total_cmp(&one.0));
    let lines = lines.into_iter().map(|(_, line)| line).collect();
    Ok(known(Known::Results { on: night, lines }))
}

/// The last day on which they swam by the clock.
fn last_timed(view: &View<'_>, swimmer: &Swimmer) -> Option<Date> {
    let now = view.now();
    let test = swimmer.tests.as_of(now).next_back().map(|kept| kept.on);
    let set = swimmer.sets.as_of(now).next_back().map(|kept| kept.on);
    test.max(set).filter(|on| *on <= view.evening())
}

/// What they swam by the clock that night, with a figure to sort by: for a test its
/// gain in percent, below every gain a first test, below that a set.
fn of_night(view: &View<'_>, swimmer: &Swimmer, night: Date) -> Vec<(f64, ResultLine)> {
    const FIRST: f64 = -1e6;
    const SET: f64 = -2e6;
    let who = other(view, swimmer.name.clone());
    let all: Vec<Trial> = trials(swimmer, view).collect();
    let of_night = all.iter().enumerate().filter(|(_, trial)| trial.on == night);
    let tests = of_night.map(|(at, trial)| {
        let before = like_before(all.get(..at).unwrap_or_default(), trial);
        let percent = before.as_ref().map_or(FIRST, |(_, percent)| *percent);
        let what = Swam::Test(*trial, before.map(|(time, _)| time));
        (percent, ResultLine { who: who.clone(), what })
    });
    let sets = swimmer.sets.since(night, view.now()).filter(|kept| kept.on == night).map(|kept| {
        let set = &kept.what;
        let timed = set.set.target.is_some() && !set.times.is_empty();
        let what = Swam::Set {
            count: set.set.count,
            distance: set.set.distance,
            held: timed.then_some(set.held),
            times: set.times.clone(),
        };
        (SET, ResultLine { who: who.clone(), what })
    });
    tests.chain(sets).collect()
}

/// The time of the last test like this one before it, and the gain on it in percent; a
/// gain at a meet is none in training.
fn like_before(before: &[Trial], trial: &Trial) -> Option<(Centis, f64)> {
    let alike = before.iter().rev().filter(|old| old.meet == trial.meet);
    alike.filter_map(|old| Some((old.time, Change::between(old, trial)?.percent))).next()
}
