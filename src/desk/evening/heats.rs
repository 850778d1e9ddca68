//! The heats of a test night: who may be tested, and in which heat and lane.

use std::collections::BTreeSet;

use jiff::civil::Date;

use super::tonight::Tonight;
use super::who_swims::Part;
use crate::coaching;
use crate::coaching::evening::{is_only_new, swims_gently};
use crate::coaching::test_night::{Entrant, Place, TO_A_LANE, heats};
use crate::desk::decision::view::View;
use crate::message::Name;
use crate::swim::prediction::predict;
use crate::units::{Course, Distance, Lane, Stroke};

/// Lanes where it is not known how many there are (ours).
const LANES: u8 = 4;

/// The distance that `on` is a test night over, where it is one.
pub fn called_for(view: &View<'_>, on: Date) -> Option<Distance> {
    let called = view.squad.test_night_called(view.now())?;
    (called.on == on).then_some(called.what)
}

impl Tonight {
    /// The heats of a test night, with those who came and went since taken in: anew
    /// before it begins, then nobody moves who is in one.
    pub fn take_in_heats(&mut self, view: &View<'_>) {
        let Some(distance) = called_for(view, self.on) else {
            self.kept.heats.clear();
            return;
        };
        let there = parted(view, self.on);
        let lanes = view.lanes_known(self).or_else(|| Lane::new(LANES).ok());
        let lanes = lanes.unwrap_or(Lane::LAST);
        if self.elapsed_s.is_none() || self.kept.heats.is_empty() {
            let course = self.booking.course;
            let entrants = there.to_test.iter();
            let entrants =
                entrants.map(|name| entrant(view, name, course, distance, self.on)).collect();
            let place = |place: Place| Some((Name::new(&place.name).ok()?, place.lane));
            let heats = heats(entrants, lanes, distance).into_iter();
            self.kept.heats =
                heats.map(|heat| heat.places.into_iter().filter_map(place).collect()).collect();
            return;
        }
        let swam = |name: &Name| {
            let tests = view.swimmer(name).map(|one| one.tests.since(self.on, view.now()));
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
pub struct There {
    /// Must not swim.
    pub stopped: Vec<Name>,
    /// Swim the test.
    pub to_test: Vec<Name>,
    /// Swim one after so many more swims.
    pub soon: Vec<(usize, Name)>,
    /// Swim easily.
    pub easy: Vec<Name>,
}

/// Those who are there on a test night, parted by what they may swim.
pub fn parted(view: &View<'_>, on: Date) -> There {
    let booking = view.booking(on);
    let stopped = view.with_part(on, &booking, Part::Stopped);
    let away = |name: &Name| {
        let absent = view.squad.absent_on(on, view.now()).any(|one| one.name == *name);
        absent || view.swimmer(name).is_some_and(|one| one.is_away(on, view.now()))
    };
    let mut there = There {
        stopped: stopped.into_iter().filter(|name| !away(name)).collect(),
        ..There::default()
    };
    for name in view.swimming(on, &booking) {
        match fit(view, &name, on) {
            Fit::ToTest => there.to_test.push(name),
            Fit::Soon { swims } => there.soon.push((swims, name)),
            Fit::Easy => there.easy.push(name),
        }
    }
    there.soon.sort_unstable();
    there
}

/// What may be asked of them on a test night.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fit {
    /// Flat out.
    ToTest,
    /// A comfortable, even 200, and flat out after so many more swims.
    Soon { swims: usize },
    /// An easy swim, for a reason that is not told.
    Easy,
}

/// Flat out if nothing is open, they have been asked about their health, and have swum
/// on enough days before the night since they joined or were last away.
pub fn fit(view: &View<'_>, name: &Name, night: Date) -> Fit {
    let Some((facts, swimmer)) = view.facts(name).zip(view.swimmer(name)) else {
        return Fit::Easy;
    };
    let book = view.asked.book;
    let back = swimmer.away.as_of(view.now()).map(|kept| kept.what).filter(|on| *on <= view.today);
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

/// By their tests of before that night in the pool that is swum in, else in the other.
pub fn entrant(
    view: &View<'_>,
    name: &Name,
    course: Course,
    distance: Distance,
    on: Date,
) -> Entrant {
    let facts = view.facts(name);
    let expected = facts.and_then(|mut facts| {
        facts.tests.retain(|test| test.on < on);
        let by = |course| predict(&facts.tests, facts.today, Stroke::Free, course, distance);
        by(course).or_else(|| by(facts.course)).or_else(|| by(facts.tests.last()?.course))
    });
    Entrant { name: name.to_string(), expected: expected.map(|found| found.time) }
}
