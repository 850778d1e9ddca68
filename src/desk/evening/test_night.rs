//! A test night: called, told, and who is owed a test after it.

use std::collections::BTreeSet;

use jiff::civil::Date;

use super::heats::{Fit, There, called_for, entrant, fit, parted};
use crate::coaching::test_night::{Heat, Place, as_made_up, counter};
use crate::desk::decision::desk::Desk;
use crate::desk::decision::refusing::{Stopped, refused};
use crate::desk::decision::resolve;
use crate::desk::decision::view::View;
use crate::history::{Event, Right};
use crate::message::{self, Name};
use crate::reply::{HeatOfReply, OkReply, Outcome, RefusedWhy, TestNightReply};
use crate::units::{Distance, Lane};

/// `test night 400`, `test night 200 thu`, `test night moved to thu`; `test night` alone tells the one that
/// is called, and who is owed a test.
pub fn test_night(
    desk: &mut Desk<'_>,
    distance: Option<message::Length>,
    on: Option<message::Day>,
) -> Result<Outcome, Stopped> {
    desk.demand(Right::RunEvening)?;
    let nothing = || refused("test_night", RefusedWhy::Nothing);
    let called = desk.squad.test_night_called(desk.now());
    if let (None, None) = (distance, on) {
        let called = called.ok_or_else(nothing)?;
        let (on, distance) = (called.on, called.what);
        if !desk.is_over(on, &desk.booking(on)) {
            desk.settled(on);
        }
        return Ok(Outcome::Ok(OkReply::TestNight(told(desk, on, distance))));
    }
    // `test night moved to wed 25th`: over what was called.
    let called = called.map(|called| called.what);
    let on = desk.night_meant(on).ok_or_else(|| refused("day", RefusedWhy::Nothing))?;
    let distance = match distance {
        None => called.ok_or_else(nothing)?,
        Some(distance) => {
            let course = resolve::course(None, distance, desk.booking(on).course);
            resolve::distance(distance, course)
                .ok_or_else(|| refused("distance", RefusedWhy::Distance))?
        }
    };
    let there = parted(desk, on);
    let swims = [&there.to_test, &there.easy, &there.stopped];
    if swims.iter().all(|names| names.is_empty()) && there.soon.is_empty() {
        return Err(refused("nobody_there", RefusedWhy::NobodyToTest));
    }
    desk.record(Event::TestNightCalled { on, distance });
    desk.settled(on);
    let told = told(desk, on, distance);
    // Nobody is owed what was only just called.
    let (owed, catch_up) = (Vec::new(), None);
    Ok(Outcome::Ok(OkReply::TestNight(TestNightReply { owed, catch_up, ..told })))
}

/// Who still owes a test of the last test night, and whether that night is over. While
/// it is on, those in its heats; afterwards, whoever may swim a test and has not.
/// Nobody where no test night was called.
pub fn owed(view: &View<'_>) -> (BTreeSet<Name>, bool) {
    let Some(called) = view.squad.test_night_called(view.now()) else { return Default::default() };
    let (on, since) = (called.on, view.squad.local_day(called.at));
    let over = view.is_over(on, &view.booking(on));
    let swam = |name: &Name| {
        let mut tests =
            view.swimmer(name).into_iter().flat_map(|one| one.tests.since(since, view.now()));
        tests.any(|kept| kept.what.trial.distance == called.what)
    };
    let all: Vec<Name> = match over {
        true => view.squad.swimmers.keys().cloned().collect(),
        false => view.tonight(on).kept.heats.into_iter().flatten().map(|(name, _)| name).collect(),
    };
    let owes = |name: &Name| !over || fit(view, name, on) == Fit::ToTest;
    (all.into_iter().filter(|name| !swam(name) && owes(name)).collect(), over)
}

/// The night as it is told: its heats while it is ahead or on, and who is owed a
/// test where some have swum it or it is over.
pub fn told(view: &View<'_>, on: Date, distance: Distance) -> TestNightReply {
    let (owed, over) = owed(view);
    let heats = if over { Vec::new() } else { heats_of(view, on, distance) };
    let entered: usize = heats.iter().map(|heat| heat.places.len()).sum();
    let owed: Vec<Name> =
        if over || owed.len() < entered { owed.into_iter().collect() } else { vec![] };
    let from = on.max(view.evening()).saturating_add(jiff::Span::new().days(1));
    let catch_up = view.squad.next_night(from, view.now()).map(|night| night.on);
    let catch_up = catch_up.filter(|_| !owed.is_empty());
    let there = if over { There::default() } else { parted(view, on) };
    TestNightReply {
        on,
        distance,
        heats,
        stopped: there.stopped,
        soon: there.soon,
        easy: there.easy,
        owed,
        catch_up,
    }
}

/// The heat, lane and counter of one swimmer; none where the night is no test
/// night, or they are in no heat.
pub fn place_of(view: &View<'_>, on: Date, who: &Name) -> Option<HeatOfReply> {
    let distance = called_for(view, on)?;
    let heats = heats_of(view, on, distance);
    let is_theirs = |place: &Place| place.name == who.as_str();
    let all = || {
        let heats = heats.iter().enumerate();
        heats.flat_map(|(at, heat)| {
            heat.places.iter().enumerate().map(move |(place, one)| (at, place, one))
        })
    };
    let (at, place, own) = all().find(|(.., one)| is_theirs(one))?;
    let own = own.clone();
    let counts = all()
        .find(|(at, place, _)| counter(&heats, *at, *place).is_some_and(is_theirs))
        .map(|(at, _, one)| (at + 1, one.name.clone()));
    Some(HeatOfReply {
        on,
        distance,
        heat: at + 1,
        of: heats.len(),
        lane: own.lane,
        expected: own.expected,
        counter: counter(&heats, at, place).map(|one| one.name.clone()),
        counts_for: counts,
    })
}

/// The heats as they stand.
fn heats_of(view: &View<'_>, on: Date, distance: Distance) -> Vec<Heat> {
    let course = view.booking(on).course;
    let heats = view.tonight(on).kept.heats;
    let place = |(name, lane): (Name, Lane)| Place {
        expected: entrant(view, &name, course, distance, on).expected,
        name: name.to_string(),
        lane,
    };
    let heats = heats.into_iter().map(|heat| heat.into_iter().map(place).collect());
    as_made_up(heats.collect(), distance)
}
