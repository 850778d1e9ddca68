//! A test night: called, its heats, and who is owed a test after it.

use std::collections::BTreeSet;

use jiff::civil::Date;

use super::bench::{Desk, Stopped, refused};
use super::{lanes, resolve};
use crate::coaching;
use crate::coaching::evening::{is_only_new, swims_gently};
use crate::coaching::test_night::{Entrant, heats};
use crate::message::{self, Name};
use crate::profile::{Event, Right, Swimmer};
use crate::reply::{OkReply, Outcome, RefusedWhy, TestNightReply};
use crate::swim::prediction::predict;
use crate::units::{Course, Distance, Lane, Stroke};

/// Lanes where it is not known how many there are (ours).
const LANES: u8 = 4;

/// `test night 400`, `test night 200 thu`; `test night` alone tells the one that
/// is called, and who is owed a test.
pub fn test_night(
    desk: &mut Desk<'_>,
    distance: Option<message::Length>,
    on: Option<message::Day>,
) -> Result<Outcome, Stopped> {
    desk.demand(Right::RunEvening)?;
    let nothing = || refused("test_night", RefusedWhy::Nothing);
    let Some(distance) = distance else {
        let called = desk.squad.test_night_called(desk.now()).ok_or_else(nothing)?;
        let (on, distance) = (called.on, called.what);
        return Ok(Outcome::Ok(OkReply::TestNight(told(desk, on, distance, true))));
    };
    let on = desk.night_meant(on).ok_or_else(|| refused("day", RefusedWhy::Nothing))?;
    let course = resolve::course(None, distance, desk.booking(on).course);
    let distance = resolve::distance(distance, course)
        .ok_or_else(|| refused("distance", RefusedWhy::Distance))?;
    let reply = told(desk, on, distance, false);
    let swimming = [&reply.easy, &reply.stopped].iter().any(|names| !names.is_empty());
    if reply.heats.is_empty() && reply.soon.is_empty() && !swimming {
        return Err(refused("nobody_there", RefusedWhy::NobodyToTest));
    }
    desk.record(Event::TestNightCalled { on, distance });
    Ok(Outcome::Ok(OkReply::TestNight(reply)))
}

/// Those without a test of the distance since the test night was called; none
/// where none was.
pub fn owed(desk: &Desk<'_>) -> BTreeSet<Name> {
    let Some(called) = desk.squad.test_night_called(desk.now()) else { return BTreeSet::new() };
    let since = desk.squad.local_day(called.at);
    let swam = |swimmer: &Swimmer| {
        let mut tests = swimmer.tests.since(since, desk.now());
        tests.any(|kept| kept.what.trial.distance == called.what)
    };
    let all = desk.squad.swimmers.values().filter(|swimmer| !swam(swimmer));
    all.map(|swimmer| swimmer.name.clone()).collect()
}

fn told(desk: &Desk<'_>, on: Date, distance: Distance, asked_after: bool) -> TestNightReply {
    let (mut owing, mut catch_up) = (Vec::new(), None);
    let over = on < desk.evening();
    if asked_after {
        let all = owed(desk);
        if over || all.len() < desk.squad.swimmers.len() {
            owing = all.into_iter().filter(|name| fit(desk, name, on) == Fit::ToTest).collect();
            let from = on.max(desk.evening()).saturating_add(jiff::Span::new().days(1));
            catch_up = desk.squad.next_night(from, desk.now()).map(|night| night.on);
        }
    }
    let (stopped, there) = if over { Default::default() } else { lanes::there(desk, on) };
    let (mut put_down, mut soon, mut easy) = (Vec::new(), Vec::new(), Vec::new());
    for name in there {
        match fit(desk, &name, on) {
            Fit::ToTest => put_down.push(name),
            Fit::Soon { swims } => soon.push((swims, name)),
            Fit::Easy => easy.push(name),
        }
    }
    soon.sort_unstable();
    let course = desk.booking(on).course;
    let entrants = put_down.iter().map(|name| entrant(desk, name, course, distance)).collect();
    let booked = desk.squad.night(on, desk.now()).and_then(|night| night.lanes);
    let lanes = Lane::new(booked.unwrap_or(LANES)).unwrap_or(Lane::LAST);
    let heats = heats(entrants, lanes, distance);
    TestNightReply { on, distance, heats, stopped, soon, easy, owed: owing, catch_up }
}

/// What may be asked of her on a test night.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Fit {
    /// Flat out.
    ToTest,
    /// A comfortable, even 200, and flat out after so many more swims.
    Soon { swims: usize },
    /// An easy swim, for a reason that is not told.
    Easy,
}

/// Flat out if nothing is open, she has been asked about her health, and has swum
/// on enough days before the night since she joined or was last away.
fn fit(desk: &Desk<'_>, name: &Name, night: Date) -> Fit {
    let Some((facts, swimmer)) = desk.facts(name).zip(desk.swimmer(name)) else {
        return Fit::Easy;
    };
    let book = desk.asked.book;
    let back = swimmer.away.as_of(desk.now()).map(|kept| kept.what).filter(|on| *on <= desk.today);
    let since = back.max().map_or(facts.joined, |back| back.max(facts.joined));
    let swum = facts.swims.iter().map(|one| one.on);
    let swum = swum.chain(facts.sets.iter().map(|one| one.on));
    let swum = swum.chain(facts.tests.iter().map(|one| one.on));
    let days: BTreeSet<Date> = swum.filter(|on| *on >= since && *on < night).collect();
    let swims = coaching::first_swims(book).saturating_sub(days.len());
    match is_only_new(book, &facts) {
        true if swims > 0 => Fit::Soon { swims },
        true if !swims_gently(book, &facts) => Fit::ToTest,
        _ => Fit::Easy,
    }
}

/// By her tests of the pool that is swum in, else of the other.
fn entrant(desk: &Desk<'_>, name: &Name, course: Course, distance: Distance) -> Entrant {
    let facts = desk.facts(name);
    let expected = facts.and_then(|facts| {
        let by = |course| predict(&facts.tests, facts.today, Stroke::Free, course, distance);
        by(course).or_else(|| by(facts.course)).or_else(|| by(facts.tests.last()?.course))
    });
    Entrant { name: name.to_string(), expected: expected.map(|found| found.time) }
}
