//! Meets to come: who is entered for what, and by which time.

use jiff::civil::Date;

use crate::desk::decision::desk::Desk;
use crate::desk::decision::questions_back::ask_yes;
use crate::desk::decision::refusing::{Stopped, refused};
use crate::desk::decision::resolve::{self, Settled, Toward};
use crate::desk::decision::view::View;
use crate::desk::known::trials::{sprints_from, trials, trials_from_a_push};
use crate::history::{Event, RaceEntry, Right};
use crate::message::{self, Day, Message, Name, Statement};
use crate::reply::{
    Asks, EntryLine, EntryReply, EntryTime, MeetReply, OkReply, Outcome, RefusedWhy,
};
use crate::swim::Trial;
use crate::swim::conversion::{Method, convert};
use crate::swim::prediction::{Reach, predict};
use crate::units::{Course, Distance, Stroke};

/// `entry heron 100 free 20 dec`, `scratch heron 100 free`
pub fn entry(
    desk: &mut Desk<'_>,
    statement: &Statement,
    entry: &message::Entry,
) -> Result<Outcome, Stopped> {
    let who = desk.subject(statement)?;
    let said = entry.on.map(|day| meet_day(desk, day)).transpose()?;
    let on = said.or_else(|| desk.squad.next_meet(desk.today, desk.now()));
    let course = resolve::course(None, entry.distance, desk.squad.course_of_meet(on, desk.now()));
    let distance = resolve::distance(entry.distance, course)
        .filter(|distance| distance.fits(course))
        .ok_or_else(|| refused("distance", RefusedWhy::Distance))?;
    let stroke = entry.stroke.unwrap_or(Stroke::Free);
    let entry = match entry.scratched {
        true => RaceEntry { scratched: true, ..standing(desk, &who, distance, stroke, said)? },
        false => {
            let time = match entry.time.as_ref() {
                None => None,
                Some(typed) => Some(given(desk, typed, distance, stroke, statement)?),
            };
            RaceEntry { on, distance, stroke, time, scratched: false }
        }
    };
    desk.record(Event::EntrySet { who: who.clone(), entry });
    let course = desk.squad.course_of_meet(entry.on, desk.now());
    Ok(Outcome::Ok(OkReply::Entered(EntryReply {
        on: entry.on,
        course,
        line: line(desk, &who, &entry),
        scratched: entry.scratched,
    })))
}

/// `meet 20 dec 25m`: those entered without a day are entered for it.
pub fn meet(desk: &mut Desk<'_>, day: Day, course: Option<Course>) -> Result<Outcome, Stopped> {
    desk.demand(Right::RunEvening)?;
    let on = meet_day(desk, day)?;
    desk.record(Event::MeetSet { on, course });
    let undated: Vec<(Name, RaceEntry)> =
        entered(desk, |_| true).into_iter().filter(|(_, entry)| entry.on.is_none()).collect();
    for (who, entry) in undated {
        let dated = RaceEntry { on: Some(on), ..entry };
        desk.record(Event::EntrySet { who: who.clone(), entry: dated });
        desk.record(Event::EntrySet { who, entry: RaceEntry { scratched: true, ..entry } });
    }
    let all = entered(desk, |_| true);
    Ok(Outcome::Ok(OkReply::Meet(of_day(desk, Some(on), &all))))
}

/// `entries`: all of them for those on deck, else the sender's own.
pub fn entries(desk: &mut Desk<'_>, statement: &Statement) -> Result<Outcome, Stopped> {
    let all = match (&statement.who, desk.may(Right::SeeSquad)) {
        (None, true) => entered(desk, |_| true),
        _ => {
            let who = desk.subject(statement)?;
            entered(desk, |name| *name == who)
        }
    };
    let mut days: Vec<Option<Date>> = all.iter().map(|(_, entry)| entry.on).collect();
    if statement.who.is_none() && desk.may(Right::SeeSquad) {
        days.extend(desk.squad.meets.since(desk.today, desk.now()).map(|kept| Some(kept.on)));
    }
    days.sort_by_key(|on| (on.is_none(), *on));
    days.dedup();
    let meets = days.into_iter().map(|on| of_day(desk, on, &all)).collect();
    Ok(Outcome::Ok(OkReply::Entries(meets)))
}

fn meet_day(view: &View<'_>, day: Day) -> Result<Date, Stopped> {
    resolve::day(day, view.today, view.squad.course.unit(), Toward::Future)
        .filter(|on| *on >= view.today)
        .ok_or_else(|| refused("day", RefusedWhy::Nothing))
}

/// The entry that is to be taken out.
fn standing(
    view: &View<'_>,
    who: &Name,
    distance: Distance,
    stroke: Stroke,
    on: Option<Date>,
) -> Result<RaceEntry, Stopped> {
    let is_it = |entry: &RaceEntry| {
        entry.distance.amount() == distance.amount()
            && entry.stroke == stroke
            && (on.is_none() || entry.on == on)
    };
    let swimmer = view.swimmer(who);
    let entered = swimmer.into_iter().flat_map(|one| one.entered(view.today, view.now()));
    entered.into_iter().find(is_it).ok_or_else(|| refused("nothing", RefusedWhy::Nothing))
}

/// The entry time as typed, or a question where nobody would swim it.
fn given(
    desk: &mut Desk<'_>,
    typed: &message::TypedTime,
    distance: Distance,
    stroke: Stroke,
    statement: &Statement,
) -> Result<crate::units::Centis, Stopped> {
    match resolve::time(typed, distance, stroke) {
        Some(Settled::Sure(time) | Settled::Two(time, _)) => Ok(time),
        Some(Settled::Unlikely(time)) if desk.confirmed => Ok(time),
        Some(Settled::Unlikely(time)) => {
            let message = Message { statements: vec![statement.clone()] };
            Err(ask_yes(desk, Asks::Implausible { distance, time }, &message))
        }
        Some(Settled::Impossible(time)) => {
            Err(refused("time", RefusedWhy::Unlikely { distance, time }))
        }
        None => Err(refused("time", RefusedWhy::Nothing)),
    }
}

/// Who is entered for what, by name.
fn entered(view: &View<'_>, of: impl Fn(&Name) -> bool) -> Vec<(Name, RaceEntry)> {
    let swimmers = view.squad.swimmers.values().filter(|swimmer| of(&swimmer.name));
    let all = swimmers.flat_map(|swimmer| {
        let entered = swimmer.entered(view.today, view.now());
        entered.into_iter().map(|entry| (swimmer.name.clone(), entry))
    });
    all.collect()
}

fn of_day(view: &View<'_>, on: Option<Date>, all: &[(Name, RaceEntry)]) -> MeetReply {
    let there = all.iter().filter(|(_, entry)| entry.on == on);
    let lines = there.map(|(who, entry)| line(view, who, entry)).collect();
    MeetReply { on, course: view.squad.course_of_meet(on, view.now()), lines }
}

fn line(view: &View<'_>, who: &Name, entry: &RaceEntry) -> EntryLine {
    let course = view.squad.course_of_meet(entry.on, view.now());
    let RaceEntry { distance, stroke, .. } = *entry;
    let time =
        entry.time.map_or_else(|| time_for(view, who, distance, stroke, course), EntryTime::Given);
    let who = view.not_me(who);
    EntryLine { who, distance, stroke, time }
}

/// By which time they are entered: their best in such a pool; else their best in
/// another, converted; else what their other distances promise.
fn time_for(
    view: &View<'_>,
    who: &Name,
    distance: Distance,
    stroke: Stroke,
    course: Course,
) -> EntryTime {
    let Some(swimmer) = view.swimmer(who) else { return EntryTime::None };
    let all: Vec<Trial> = trials(swimmer, view).collect();
    let alike =
        |trial: &&Trial| trial.stroke == stroke && trial.distance.amount() == distance.amount();
    let there = all.iter().filter(alike).filter(|trial| trial.course == course);
    if let Some(best) = there.min_by_key(|trial| trial.time) {
        return EntryTime::Swum(*best);
    }
    let converted = all.iter().filter(alike).filter_map(|from| {
        let by = Method::TurnRule;
        let there = convert(from.distance, from.time, stroke, from.course, course, by)?;
        Some((there.time, *from))
    });
    if let Some((time, from)) = converted.min_by_key(|(time, _)| *time) {
        return EntryTime::Converted { time, from };
    }
    // What their other distances and pools promise, from the start of a race.
    let known = trials_from_a_push(swimmer, view);
    predict(&known, view.today, stroke, course, distance)
        .filter(|found| found.reach == Reach::Within)
        .map(|found| found.begun(sprints_from(swimmer, view.now())))
        .map_or(EntryTime::None, |found| EntryTime::Predicted(found.time))
}
