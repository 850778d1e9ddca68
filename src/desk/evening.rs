//! The night as the squad's set needs it: who swims in which lane, how long,
//! from when.

use jiff::civil::{Date, Time};
use jiff::{Timestamp, ToSpan};

use super::bench::Desk;
use crate::coaching::{Facts, evening};
use crate::message::Name;
use crate::session::Session;
use crate::units::Course;

/// Minutes booked where nobody said how many (common practice, no source).
const MINUTES: u16 = 60;

/// What is booked on a night.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Booking {
    /// When it starts, where that is known.
    pub starts: Option<Timestamp>,
    /// How long it is.
    pub minutes: u16,
    /// The pool.
    pub course: Course,
    /// How many lanes, where that is known.
    pub lanes: Option<u8>,
}

impl Booking {
    /// The minutes left of it, after its beginning and before its end.
    pub fn minutes_left(&self, now: Timestamp) -> Option<u16> {
        let starts = self.starts.filter(|starts| now > *starts)?;
        let since = u16::try_from(now.duration_since(starts).as_mins()).ok()?;
        self.minutes.checked_sub(since).filter(|left| *left > 0)
    }
}

/// A lane with those who swim in it.
pub struct Drawn {
    /// The lane, counted from 1.
    pub lane: u8,
    /// What is known of each; of nobody where the lane is empty.
    pub swimmers: Vec<(Name, Facts)>,
}

impl Desk<'_> {
    /// What is booked on `on`, or what was left of it when its set was sent.
    pub fn booking(&self, on: Date) -> Booking {
        let booked = self.booked(on);
        let begun = self.squad.set_in_force(on, self.now()).and_then(|set| set.begun);
        match begun.zip(booked.starts) {
            Some((begun, starts)) => {
                let gone =
                    u16::try_from(begun.duration_since(starts).as_mins()).unwrap_or_default();
                let minutes = booked.minutes.saturating_sub(gone);
                Booking { starts: Some(begun), minutes, ..booked }
            }
            None => booked,
        }
    }

    fn booked(&self, on: Date) -> Booking {
        let Some(night) = self.squad.night(on, self.now()) else {
            let course = self.squad.course;
            return Booking { starts: None, minutes: MINUTES, course, lanes: None };
        };
        let starts =
            night.starts.and_then(|time| self.squad.zone().to_timestamp(on.to_datetime(time)).ok());
        Booking { starts, minutes: night.minutes, course: night.course, lanes: night.lanes }
    }

    /// The lanes drawn for `on` that someone swims in; where none were, those expected by lane, the
    /// fastest first; one empty lane where nobody is.
    pub fn drawn(&self, on: Date) -> Vec<Drawn> {
        let booking = self.booking(on);
        let now = self.now();
        if let Some(drawn) = self.squad.lanes_drawn(on, now) {
            let known = |name: &Name| Some((name.clone(), self.facts(name)?));
            let lanes = drawn.lanes.iter().map(|order| Drawn {
                lane: order.lane.number(),
                swimmers: order.swimmers.iter().filter_map(known).collect(),
            });
            let lanes: Vec<Drawn> = lanes.filter(|lane| !lane.swimmers.is_empty()).collect();
            if !lanes.is_empty() {
                return lanes;
            }
        }
        let names: Vec<Name> =
            self.squad.expected_on(on, now).map(|swimmer| swimmer.name.clone()).collect();
        let (names, facts): (Vec<Name>, Vec<Facts>) = names
            .into_iter()
            .filter_map(|name| self.facts(&name).map(|facts| (name, facts)))
            .unzip();
        let lanes = evening::drafted(&facts, booking.course, booking.lanes);
        if lanes.is_empty() {
            return vec![Drawn { lane: 1, swimmers: Vec::new() }];
        }
        (1..)
            .zip(lanes)
            .map(|(lane, places)| Drawn {
                lane,
                swimmers: places
                    .iter()
                    .map(|at| (names[*at].clone(), facts[*at].clone()))
                    .collect(),
            })
            .collect()
    }

    /// What is known of a lane's swimmers, or of nobody.
    pub fn facts_of(&self, drawn: &Drawn, course: Course) -> Vec<Facts> {
        if drawn.swimmers.is_empty() {
            return vec![Facts::of_nobody(self.today, course, MINUTES)];
        }
        drawn.swimmers.iter().map(|(_, facts)| facts.clone()).collect()
    }

    /// The local time at which `session` ends, where its start is known.
    pub fn ends(&self, booking: &Booking, session: &Session) -> Option<Time> {
        let ends = booking.starts?.checked_add(i64::from(session.duration_s()).seconds()).ok()?;
        Some(ends.to_zoned_datetime(self.squad.zone()).time())
    }
}
