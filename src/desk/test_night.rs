//! A test night: called, its heats, and who is owed a test after it.

use std::collections::BTreeSet;

use jiff::civil::Date;

use super::bench::{Desk, Stopped, refused};
use super::evening::{Part, Tonight};
use super::resolve;
use crate::coaching;
use crate::coaching::evening::{is_only_new, swims_gently};
use crate::coaching::test_night::{Entrant, Heat, Place, TO_A_LANE, as_made_up, counter, heats};
use crate::message::{self, Name};
use crate::profile::{Event, Right};
use crate::reply::{HeatOfReply, OkReply, Outcome, RefusedWhy, TestNightReply};
use crate::swim::prediction::predict;
use crate::units::{Course, Distance, Lane, Stroke};

/// Lanes where it is not known how many there are (ours).
const LANES: u8 = 4;

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

/// The distance that `on` is a test night over, where it is one.
pub fn called_for(desk: &Desk<'_>, on: Date) -> Option<Distance> {
    let called = desk.squad.test_night_called(desk.now())?;
    (called.on == on).then_some(called.what)
}

/// Those still owed a test of the night that was called: while it is on, those in
/// its heats; once it is over, whoever may swim one and has not; and whether it is
/// over. Nobody where none was called.
pub fn owed(desk: &Desk<'_>) -> (BTreeSet<Name>, bool) {
    let Some(called) = desk.squad.test_night_called(desk.now()) else { return Default::default() };
    let (on, since) = (called.on, desk.squad.local_day(called.at));
    let over = desk.is_over(on, &desk.booking(on));
    let swam = |name: &Name| {
        let mut tests =
            desk.swimmer(name).into_iter().flat_map(|one| one.tests.since(since, desk.now()));
        tests.any(|kept| kept.what.trial.distance == called.what)
    };
    let all: Vec<Name> = match over {
        true => desk.squad.swimmers.keys().cloned().collect(),
        false => desk.tonight(on).kept.heats.into_iter().flatten().map(|(name, _)| name).collect(),
    };
    let fit = |name: &Name| !over || fit(desk, name, on) == Fit::ToTest;
    (all.into_iter().filter(|name| !swam(name) && fit(name)).collect(), over)
}

/// The night as it is told: its heats while it is ahead or on, and who is owed a
/// test where some have swum it or it is over.
pub fn told(desk: &Desk<'_>, on: Date, distance: Distance) -> TestNightReply {
    let (owed, over) = owed(desk);
    let heats = if over { Vec::new() } else { heats_of(desk, on, distance) };
    let entered: usize = heats.iter().map(|heat| heat.places.len()).sum();
    let owed: Vec<Name> =
        if over || owed.len() < entered { owed.into_iter().collect() } else { vec![] };
    let from = on.max(desk.evening()).saturating_add(jiff::Span::new().days(1));
    let catch_up = desk.squad.next_night(from, desk.now()).map(|night| night.on);
    let catch_up = catch_up.filter(|_| !owed.is_empty());
    let there = if over { There::default() } else { parted(desk, on) };
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
/// night, or she is in no heat.
pub fn place_of(desk: &Desk<'_>, on: Date, who: &Name) -> Option<HeatOfReply> {
    let distance = called_for(desk, on)?;
    let heats = heats_of(desk, on, distance);
    let is_hers = |place: &Place| place.name == who.as_str();
    let (at, place) = heats
        .iter()
        .enumerate()
        .find_map(|(at, heat)| Some((at, heat.places.iter().position(is_hers)?)))?;
    let own = heats[at].places[place].clone();
    let counts = (0..heats.len()).find_map(|other| {
        let places = 0..heats[other].places.len();
        let hers =
            places.into_iter().find(|place| counter(&heats, other, *place).is_some_and(is_hers))?;
        Some((other + 1, heats[other].places[hers].name.clone()))
    });
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
fn heats_of(desk: &Desk<'_>, on: Date, distance: Distance) -> Vec<Heat> {
    let course = desk.booking(on).course;
    let heats = desk.tonight(on).kept.heats;
    let place = |(name, lane): (Name, Lane)| Place {
        expected: entrant(desk, &name, course, distance, on).expected,
        name: name.to_string(),
        lane,
    };
    let heats = heats.into_iter().map(|heat| heat.into_iter().map(place).collect());
    as_made_up(heats.collect(), distance)
}

impl Tonight {
    /// The heats of a test night, with those who came and went since taken in: anew
    /// before it begins, then nobody moves who is in one.
    pub fn take_in_heats(&mut self, desk: &Desk<'_>) {
        let Some(distance) = called_for(desk, self.on) else {
            self.kept.heats.clear();
            return;
        };
        let there = parted(desk, self.on);
        let lanes = desk.lanes_known(self).or_else(|| Lane::new(LANES).ok());
        let lanes = lanes.unwrap_or(Lane::LAST);
        if self.elapsed_s.is_none() || self.kept.heats.is_empty() {
            let course = self.booking.course;
            let entrants = there.to_test.iter();
            let entrants =
                entrants.map(|name| entrant(desk, name, course, distance, self.on)).collect();
            let place = |place: Place| Some((Name::new(&place.name).ok()?, place.lane));
            let heats = heats(entrants, lanes, distance).into_iter();
            self.kept.heats =
                heats.map(|heat| heat.places.into_iter().filter_map(place).collect()).collect();
            return;
        }
        let swam = |name: &Name| {
            let tests = desk.swimmer(name).map(|one| one.tests.since(self.on, desk.now()));
            tests.into_iter().flatten().any(|kept| kept.what.trial.distance == distance)
        };
        for heat in &mut self.kept.heats {
            heat.retain(|(name, lane)| {
                *lane <= lanes && there.to_test.contains(name) || swam(name)
            });
        }
        for name in &there.to_test {
            if self.kept.heats.iter().flatten().any(|(one, _)| one == name) {
                continue;
            }
            let room = |heat: &[(Name, Lane)]| {
                let count = |lane: &Lane| heat.iter().filter(|(_, other)| other == lane).count();
                let lane = lanes.up_to().min_by_key(count)?;
                (count(&lane) < TO_A_LANE).then_some(lane)
            };
            let last = self.kept.heats.iter_mut().rev().find_map(|heat| Some((room(heat)?, heat)));
            match last {
                Some((lane, heat)) => heat.push((name.clone(), lane)),
                None => self.kept.heats.push(vec![(name.clone(), Lane::FIRST)]),
            }
        }
        self.kept.heats.retain(|heat| !heat.is_empty());
    }
}

/// Those who are there on a test night, by what they may swim.
#[derive(Default)]
struct There {
    stopped: Vec<Name>,
    to_test: Vec<Name>,
    soon: Vec<(usize, Name)>,
    easy: Vec<Name>,
}

fn parted(desk: &Desk<'_>, on: Date) -> There {
    let booking = desk.booking(on);
    let stopped = desk.with_part(on, &booking, Part::Stopped);
    let away = |name: &Name| {
        let absent = desk.squad.absent_on(on, desk.now()).any(|one| one.name == *name);
        absent || desk.swimmer(name).is_some_and(|one| one.is_away(on, desk.now()))
    };
    let mut there = There {
        stopped: stopped.into_iter().filter(|name| !away(name)).collect(),
        ..There::default()
    };
    for name in desk.swimming(on, &booking) {
        match fit(desk, &name, on) {
            Fit::ToTest => there.to_test.push(name),
            Fit::Soon { swims } => there.soon.push((swims, name)),
            Fit::Easy => there.easy.push(name),
        }
    }
    there.soon.sort_unstable();
    there
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

/// By her tests of before that night in the pool that is swum in, else in the other.
fn entrant(desk: &Desk<'_>, name: &Name, course: Course, distance: Distance, on: Date) -> Entrant {
    let facts = desk.facts(name);
    let expected = facts.and_then(|mut facts| {
        facts.tests.retain(|test| test.on < on);
        let by = |course| predict(&facts.tests, facts.today, Stroke::Free, course, distance);
        by(course).or_else(|| by(facts.course)).or_else(|| by(facts.tests.last()?.course))
    });
    Entrant { name: name.to_string(), expected: expected.map(|found| found.time) }
}
