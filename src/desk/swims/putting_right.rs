//! Putting right a result that was stored: its time, its start, whose it is. Events
//! are appended; nothing is rewritten.

use super::set_put_right;
use crate::desk::decision::desk::Desk;
use crate::desk::decision::questions_back::ask_yes;
use crate::desk::decision::refusing::{Stopped, refused};
use crate::desk::decision::resolve::{self, Settled};
use crate::desk::decision::view::View;
use crate::desk::known::trials::{from_a_push, is_unlike_them};
use crate::history::{Event, Right, SwappedTest};
use crate::message::{self, Message, Name, Statement};
use crate::reply::{Asks, BegunReply, OkReply, Outcome, RefusedWhy};
use crate::swim::{Trial, even_pace};

/// `fix 3:14`, `that was teal`
pub fn fix(
    desk: &mut Desk<'_>,
    statement: &Statement,
    fix: &message::Fix,
) -> Result<Outcome, Stopped> {
    if fix.start.is_some() || fix.meet {
        return begun(desk, statement, fix);
    }
    match (&fix.was, &fix.time) {
        (Some(to), None) => moved(desk, to),
        // `fix heron tue 200 4:21`: whose result it is, not whose it should be.
        (Some(who), Some(time)) => {
            let named = Statement { who: Some(who.clone()), ..statement.clone() };
            let who = desk.subject(&named)?;
            put_right(desk, who, fix, time, statement)
        }
        (None, Some(time)) => {
            let who = desk.subject(statement)?;
            put_right(desk, who, fix, time, statement)
        }
        (None, None) => Err(refused("nothing", RefusedWhy::Nothing)),
    }
}

fn put_right(
    desk: &mut Desk<'_>,
    who: Name,
    fix: &message::Fix,
    time: &message::TypedTime,
    statement: &Statement,
) -> Result<Outcome, Stopped> {
    let nothing = || refused("nothing", RefusedWhy::Nothing);
    let today = desk.today;
    let swimmer = desk.swimmer(&who).ok_or_else(nothing)?;
    let unit = desk.course_of(&who).unit();
    let on = fix.on.and_then(|day| resolve::day(day, today, unit, resolve::Toward::Past));
    // The order of arrival decides which result is the last, not its day.
    let kept = swimmer
        .tests
        .as_of(desk.now().max(desk.asked.wall))
        .filter(|kept| on.is_none_or(|on| kept.on == on))
        .filter(|kept| {
            fix.distance.is_none_or(|length| kept.what.trial.distance.amount() == length.amount)
        })
        .filter(|kept| {
            let is_it = |wrong: &message::TypedTime| wrong.readings.contains(&kept.what.trial.time);
            fix.instead.as_ref().is_none_or(is_it)
        })
        .max_by_key(|kept| kept.cause);
    let Some(kept) = kept else {
        return set_put_right::fixed(desk, &who, fix, time, statement)
            .unwrap_or_else(|| Err(nothing()));
    };
    let (cause, trial) = (kept.cause, kept.what.trial);
    let time = match resolve::time(time, trial.distance, trial.stroke).ok_or_else(nothing)? {
        Settled::Sure(time) | Settled::Two(time, _) => time,
        Settled::Unlikely(time) | Settled::Impossible(time) => {
            return Err(refused("time", RefusedWhy::Unlikely { distance: trial.distance, time }));
        }
    };
    // As a new result would be; what it replaces may have been wildly wrong.
    let mut right = kept.what.clone();
    right.trial.time = time;
    if !desk.confirmed && is_unlike_them(desk, &who, &from_a_push(&right), Some(&kept.what)) {
        let asks = Asks::Implausible { distance: trial.distance, time };
        return Err(ask_yes(desk, asks, &Message { statements: vec![statement.clone()] }));
    }
    let whose = desk.not_me(&who);
    desk.record(Event::TestFixed { who, cause, time, distance: Some(trial.distance) });
    let before = trial.time;
    Ok(Outcome::Ok(OkReply::Fixed { who: whose, trial: Trial { time, ..trial }, before }))
}

/// `dive`: how the tests of the last text began; with a name, their last one.
fn begun(
    desk: &mut Desk<'_>,
    statement: &Statement,
    fix: &message::Fix,
) -> Result<Outcome, Stopped> {
    let nothing = || refused("nothing", RefusedWhy::Nothing);
    let latest = |desk: &Desk<'_>, name: &Name| {
        let tests = &desk.swimmer(name)?.tests;
        tests.as_of(desk.now().max(desk.asked.wall)).map(|kept| kept.cause).max()
    };
    let told = match &statement.who {
        Some(_) => {
            let who = desk.subject(statement)?;
            latest(desk, &who).map(|cause| (cause, vec![who]))
        }
        None => {
            let of_text = last_result(desk).map(|cause| (cause, swam(desk, cause)));
            let own = || desk.me().and_then(|me| Some((latest(desk, me)?, vec![me.clone()])));
            of_text.filter(|(_, names)| !names.is_empty()).or_else(own)
        }
    };
    let (cause, names) = told.ok_or_else(nothing)?;
    for who in &names {
        let who = who.clone();
        desk.record(Event::TestBegun { who, cause, start: fix.start, meet: fix.meet });
    }
    let mut tests = Vec::new();
    for who in &names {
        let whose = desk.not_me(who);
        let of_cause = desk.swimmer(who).into_iter().flat_map(|one| one.tests.of_cause(cause));
        tests.extend(of_cause.map(|kept| (whose.clone(), kept.what.trial, kept.what.began())));
    }
    let (_, trial, start) = tests.first().cloned().ok_or_else(nothing)?;
    let targets = match tests.len() {
        1 => even_pace::targets(trial.distance, trial.time, trial.course, start),
        _ => Vec::new(),
    };
    let tests = tests.into_iter().map(|(whose, trial, _)| (whose, trial)).collect();
    Ok(Outcome::Ok(OkReply::Begun(BegunReply { tests, start, targets })))
}

/// Those of whom message `cause` stored a test.
fn swam(view: &View<'_>, cause: u64) -> Vec<Name> {
    let all = view.squad.swimmers.values();
    let swam = all.filter(|swimmer| swimmer.tests.of_cause(cause).next().is_some());
    swam.map(|swimmer| swimmer.name.clone()).collect()
}

/// `swap heron teal tue 200`: the tests of two change places.
pub fn swap(
    desk: &mut Desk<'_>,
    [one, other]: &[Name; 2],
    on: Option<message::Day>,
    distance: Option<message::Length>,
) -> Result<Outcome, Stopped> {
    desk.demand(Right::SpeakForOthers)?;
    let nothing = || refused("nothing", RefusedWhy::Nothing);
    if one == other {
        return Err(nothing());
    }
    let latest = |name: &Name| {
        let swimmer = desk.swimmer(name).ok_or_else(|| desk.who_is(name))?;
        let unit = desk.course_of(name).unit();
        let on = on.map(|day| resolve::day(day, desk.today, unit, resolve::Toward::Past));
        let tests = swimmer.tests.as_of(desk.now());
        tests
            .filter(|kept| on.is_none_or(|on| on == Some(kept.on)))
            .filter(|kept| {
                distance.is_none_or(|length| kept.what.trial.distance.amount() == length.amount)
            })
            .max_by_key(|kept| kept.cause)
            .map(|kept| (kept.cause, kept.what.trial))
            .ok_or_else(nothing)
    };
    let ((one_cause, own), (other_cause, others)) = (latest(one)?, latest(other)?);
    let which = |cause, trial: Trial| SwappedTest { cause, distance: trial.distance };
    desk.record(Event::ResultsSwapped {
        one: (one.clone(), which(one_cause, own)),
        other: (other.clone(), which(other_cause, others)),
    });
    let now = [(one.clone(), others), (other.clone(), own)];
    Ok(Outcome::Ok(OkReply::ResultsSwapped { now }))
}

fn moved(desk: &mut Desk<'_>, to: &Name) -> Result<Outcome, Stopped> {
    if !desk.is_mine(to) {
        desk.demand(Right::SpeakForOthers)?;
    }
    if !desk.squad.swimmers.contains_key(to) {
        return Err(refused("nothing", RefusedWhy::Nothing));
    }
    let nothing = || refused("nothing", RefusedWhy::Nothing);
    let cause = last_result(desk).ok_or_else(nothing)?;
    let from = desk
        .squad
        .swimmers
        .values()
        .find(|swimmer| {
            swimmer.tests.of_cause(cause).next().is_some()
                || swimmer.sets.of_cause(cause).next().is_some()
                || swimmer.swims.of_cause(cause).next().is_some()
        })
        .map(|swimmer| swimmer.name.clone())
        .ok_or_else(nothing)?;
    if !desk.is_mine(&from) {
        desk.demand(Right::SpeakForOthers)?;
    }
    desk.record(Event::ResultMoved { from, to: to.clone(), cause });
    Ok(Outcome::Ok(OkReply::Moved { to: to.clone() }))
}

/// The sender's last storing message but for those that gave its results to
/// another.
fn last_result(view: &View<'_>) -> Option<u64> {
    let moved = |cause: &&u64| view.squad.moves.of_cause(**cause).next().is_some();
    view.member()?.undoable.iter().rev().find(|cause| !moved(cause)).copied()
}
