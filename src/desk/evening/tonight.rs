//! One evening as one value: what is booked, who swims where, what each lane swims.
//!
//! It is what was last kept; [`up_to_date`](super::up_to_date) takes in who came and went.

use std::collections::BTreeMap;

use jiff::civil::Date;

use crate::coaching::Facts;
use crate::coaching::evening::Swims;
use crate::coaching::lanes::Evening;
use crate::desk::decision::view::View;
use crate::desk::known::booking::Booking;
use crate::history::{EveningKept, LaneKept};
use crate::message::Name;
use crate::session::Session;
use crate::units::Lane;

/// The evening of one night, at one instant.
#[derive(Debug, Clone, PartialEq)]
pub struct Tonight {
    /// The night.
    pub on: Date,
    /// What is booked.
    pub booking: Booking,
    /// Seconds since it, or the set sent later, began; none before and long after.
    pub elapsed_s: Option<u32>,
    /// Who swims where, and what.
    pub kept: EveningKept,
}

impl View<'_> {
    /// The night that is meant where none is named: this evening, even once it is over,
    /// if anything is set, drawn or called for it; else the next.
    pub fn night_shown(&self) -> Date {
        let (evening, now) = (self.evening(), self.now());
        let called = self.squad.test_night_called(now).is_some_and(|called| called.on == evening);
        match called || self.squad.evening_kept(evening, now).is_some() {
            true => evening,
            false => self.night_meant(None).unwrap_or(evening),
        }
    }

    /// The evening of `on` as it was last kept.
    pub fn as_kept(&self, on: Date) -> Tonight {
        let booking = self.booking(on);
        let kept = self.squad.evening_kept(on, self.now()).cloned();
        Tonight {
            on,
            booking,
            elapsed_s: self.elapsed_s(&booking),
            kept: kept.unwrap_or_else(|| EveningKept::new(on)),
        }
    }

    /// What is known of those in a lane, or of nobody.
    pub fn facts_of(&self, swimmers: &[Name], booking: &Booking) -> Vec<Facts> {
        let known: Vec<Facts> = swimmers.iter().filter_map(|name| self.facts(name)).collect();
        match known.is_empty() {
            true => vec![Facts::of_nobody(self.today, booking.course, booking.minutes)],
            false => known,
        }
    }
}

impl Tonight {
    /// One lane with nobody in it, so that a set can be written before anyone joins.
    pub fn with_nobody(&mut self) {
        let empty = LaneKept {
            lane: Lane::FIRST,
            swimmers: Vec::new(),
            session: None,
            own: BTreeMap::new(),
        };
        self.kept.lanes.push(empty);
    }

    /// Seconds that count as swum: none before it began.
    pub fn swum_s(&self) -> u32 {
        self.elapsed_s.unwrap_or(0)
    }

    /// Those who swim in a lane, handed to `ask` as coaching needs them.
    pub fn with_swims<T>(
        &self,
        view: &View<'_>,
        swimmers: &[Name],
        ask: impl FnOnce(&Swims<'_>) -> T,
    ) -> T {
        let facts = view.facts_of(swimmers, &self.booking);
        let known: Vec<&Facts> = facts.iter().collect();
        ask(&Swims { swimmers: &known, course: self.booking.course, gap: self.kept.gap })
    }

    /// Puts someone into a lane, ahead of the first who is slower.
    pub fn put(&mut self, evening: &Evening, name: &Name, to: Lane) {
        self.kept.take_out(name);
        let pace = |name: &Name| {
            let one = evening.swimmers.iter().find(|one| one.name == name.as_str());
            let pace = one.and_then(|one| one.known_pace.pace());
            pace.map_or(f64::INFINITY, |pace| pace.in_unit_of(evening.course).per_100_s())
        };
        let own = pace(name);
        if let Some(lane) = self.kept.lanes.iter_mut().find(|lane| lane.lane == to) {
            let at = lane.swimmers.iter().position(|other| pace(other) > own);
            lane.swimmers.insert(at.unwrap_or(lane.swimmers.len()), name.clone());
        }
    }

    /// Puts what each lane swims, by the number of the lane; those whom nothing was
    /// written for swim nothing.
    pub fn swim(&mut self, mut sessions: BTreeMap<u8, Session>) {
        for lane in &mut self.kept.lanes {
            lane.session = sessions.remove(&lane.lane.number());
            lane.own.clear();
        }
    }
}
