//! Races and sessions that lay ahead of a swimmer and are not what they were: moved,
//! given up for another, or taken back. A calendar that once showed them must say so.
//!
//! Knows what was said; not how a calendar is written.

use jiff::civil::{Date, Time};
use jiff::tz::TimeZone;
use jiff::{Timestamp, ToSpan};
use serde::{Deserialize, Serialize};

use super::{Kept, Swimmer};
use crate::coaching::Race;
use crate::units::{Distance, Stroke, Unit};

/// What lies ahead.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Ahead {
    /// A race.
    Race {
        /// How far.
        distance: Distance,
        /// Which stroke.
        stroke: Stroke,
    },
    /// A session of one's own.
    Session {
        /// How far, in the unit.
        amount: u32,
        /// Of what.
        unit: Unit,
    },
}

/// What was taken back by `undo`; kept as of the day it would have been.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct TakenBack {
    /// What.
    pub what: Ahead,
    /// The day it was first told for, by which it is known.
    pub first: Date,
}

/// A race that was named, through all of its days.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RaceNamed<'a> {
    /// The day it was first named for, by which it is known.
    pub first: Date,
    /// As it was named last.
    pub race: &'a Race,
    /// The messages that named it.
    pub causes: Vec<u64>,
    /// The message that named another in its place.
    pub given_up: Option<u64>,
}

impl RaceNamed<'_> {
    /// The message that changed it last.
    pub fn changed_by(&self) -> u64 {
        self.causes.iter().copied().chain(self.given_up).max().unwrap_or_default()
    }

    fn is_like(&self, race: &Race) -> bool {
        (self.race.distance, self.race.stroke) == (race.distance, race.stroke)
    }
}

impl Swimmer {
    /// The races they named, by what was known at `now`. The same distance and stroke
    /// on another day is the same race, moved, unless its day was over; another race
    /// takes the place of one that was still ahead.
    pub fn races_named(&self, zone: &TimeZone, now: Timestamp) -> Vec<RaceNamed<'_>> {
        let mut all: Vec<RaceNamed<'_>> = Vec::new();
        for (cause, at, race) in self.race.as_of(now) {
            let day = at.to_zoned_datetime(zone.clone()).date();
            let mut known = None;
            for (place, one) in all.iter_mut().enumerate().filter(|(_, one)| one.race.on >= day) {
                match one.is_like(race) {
                    true => known = Some(place),
                    false => one.given_up = one.given_up.or(Some(cause)),
                }
            }
            match known.and_then(|place| all.get_mut(place)) {
                Some(one) => {
                    one.race = race;
                    one.causes.push(cause);
                    one.given_up = None;
                }
                None => all.push(RaceNamed {
                    first: race.on,
                    race,
                    causes: vec![cause],
                    given_up: None,
                }),
            }
        }
        all
    }

    /// Keeps what message `undone` told of days to come, before `cause` takes it back.
    pub(super) fn keep_taken_back(
        &mut self,
        undone: u64,
        cause: u64,
        at: Timestamp,
        zone: &TimeZone,
    ) {
        let race = |distance, stroke| Ahead::Race { distance, stroke };
        let named = self.races_named(zone, at).into_iter();
        let named = named
            .filter(|one| one.causes.contains(&undone))
            .map(|one| (one.race.on, one.first, race(one.race.distance, one.race.stroke)));
        let entered = self.entries.of_cause(undone).filter_map(|kept| {
            let on = kept.what.on?;
            Some((on, on, race(kept.what.distance, kept.what.stroke)))
        });
        let told = self.planned.of_cause(undone).chain(self.suggested.of_cause(undone));
        let told = told.map(|kept| {
            let (amount, unit) = (kept.what.amount(), kept.what.unit);
            (kept.on, kept.on, Ahead::Session { amount, unit })
        });
        let today = at.to_zoned_datetime(zone.clone()).date();
        let gone: Vec<(Date, Date, Ahead)> =
            named.chain(entered).chain(told).filter(|(on, ..)| *on >= today).collect();
        for (on, first, what) in gone {
            self.taken_back.keep(Kept { cause, at, on, what: TakenBack { what, first } });
        }
    }

    /// The session last told for each day since `since`, and whether it stands: it was
    /// swum, or nothing told since, before the day was over, took its place.
    pub fn told_for(&self, since: Date, zone: &TimeZone, now: Timestamp) -> Vec<ToldFor<'_>> {
        let mut all: Vec<ToldFor<'_>> = Vec::new();
        let planned = self.planned.since(since, now);
        for kept in planned.chain(self.suggested.since(since, now)) {
            match all.iter_mut().find(|one| one.told.on == kept.on) {
                Some(one) if one.told.cause > kept.cause => {}
                Some(one) => one.told = kept,
                None => all.push(ToldFor { told: kept, stands: false, changed_by: 0 }),
            }
        }
        for one in &mut all {
            let on = one.told.on;
            let over = on.checked_add(1.day()).ok();
            let over = over.and_then(|on| zone.to_timestamp(on.to_datetime(Time::midnight())).ok());
            let until = over.map_or(now, |over| over.min(now));
            let swum = self.swims.latest_on(on, now).is_some()
                || self.sets.latest_on(on, now).is_some()
                || self.tests.latest_on(on, now).is_some();
            one.stands = swum
                || self
                    .told(until)
                    .iter()
                    .any(|told| told.cause == one.told.cause && told.on == on);
            let later = self.suggested.as_of(until).map(|kept| kept.cause);
            let later = later.chain(self.weeks.as_of(until).map(|kept| kept.cause));
            one.changed_by = match one.stands {
                true => one.told.cause,
                false => later.max().unwrap_or_default().max(one.told.cause),
            };
        }
        all.sort_by_key(|one| one.told.on);
        all
    }
}

/// A session that was told for a day.
#[derive(Debug, Clone, PartialEq)]
pub struct ToldFor<'a> {
    /// As it was told last.
    pub told: &'a Kept<crate::session::Session>,
    /// It was swum, or is still to be.
    pub stands: bool,
    /// The message that changed it last.
    pub changed_by: u64,
}
