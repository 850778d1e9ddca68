//! The squad's evenings: those of every week, and what is different on one day.
//!
//! Knows when, how long and where; not what is swum.

use jiff::civil::{Date, Time, Weekday};
use jiff::{Timestamp, ToSpan};
use serde::{Deserialize, Serialize};

use super::{Kept, Ledger, Squad, Swimmer};
use crate::units::{Course, Weekdays};

/// Minutes of a booking where none were said (common practice, no source).
const MINUTES: u16 = 60;
/// How far ahead a night is looked for.
const DAYS_AHEAD: i64 = 28;
/// How many changes of the timetable are kept.
const MOST: usize = 260;

/// What was said of an evening; what was not said stays.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct SlotSaid {
    /// When it starts.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub starts: Option<Time>,
    /// How long it is.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub minutes: Option<u16>,
    /// How many lanes there are.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lanes: Option<u8>,
    /// The pool, where it is not the squad's own.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub course: Option<Course>,
}

/// A change of the timetable.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", tag = "change")]
pub enum TimetableChange {
    /// Every week on these days.
    Weekly {
        /// The days.
        days: Weekdays,
        /// The evening.
        slot: SlotSaid,
    },
    /// On one day.
    Once {
        /// The evening.
        slot: SlotSaid,
    },
    /// Not on that day.
    Shut,
    /// On that day after all, as it was before it was shut.
    Reopened,
}

/// A squad night.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Night {
    /// The day.
    pub on: Date,
    /// When it starts, where it is known.
    pub starts: Option<Time>,
    /// Minutes booked.
    pub minutes: u16,
    /// How many lanes, where it is known.
    pub lanes: Option<u8>,
    /// The pool.
    pub course: Course,
}

/// Changes by the day they are for; of those for every week, the day from which
/// they hold.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Timetable(Ledger<TimetableChange>);

impl Timetable {
    pub(super) fn keep(&mut self, change: Kept<TimetableChange>) {
        self.0.keep(change);
        self.0.keep_latest(MOST);
    }

    pub(super) fn withdraw(&mut self, cause: u64) {
        self.0.withdraw(cause);
    }

    /// What message `cause` changed.
    pub fn of_cause(&self, cause: u64) -> impl Iterator<Item = &Kept<TimetableChange>> {
        self.0.of_cause(cause)
    }

    /// True if message `cause` changed it.
    pub fn is_of(&self, cause: u64) -> bool {
        self.0.of_cause(cause).next().is_some()
    }

    fn weekly(&self, day: Date, now: Timestamp) -> Option<SlotSaid> {
        self.0.as_of(now).filter(|kept| kept.on <= day).rev().find_map(|kept| match &kept.what {
            TimetableChange::Weekly { days, slot } => {
                days.iter().any(|one| one == day.weekday()).then_some(*slot)
            }
            _ => None,
        })
    }

    /// The evening of `day`, as known at `now`.
    fn on(&self, day: Date, now: Timestamp) -> Option<SlotSaid> {
        let of_day = self.0.since(day, now).take_while(|kept| kept.on == day);
        let mut before_shut = None;
        of_day.fold(self.weekly(day, now), |slot, kept| match &kept.what {
            TimetableChange::Weekly { .. } => slot,
            TimetableChange::Once { slot: said } => Some(said.over(slot.unwrap_or_default())),
            TimetableChange::Shut => {
                before_shut = slot.or(before_shut);
                None
            }
            TimetableChange::Reopened => slot.or(before_shut),
        })
    }

    /// True if `day` would be a night, were it not shut.
    fn is_shut(&self, day: Date, now: Timestamp) -> bool {
        let shut = self
            .0
            .since(day, now)
            .take_while(|kept| kept.on == day)
            .any(|kept| kept.what == TimetableChange::Shut);
        shut && self.on(day, now).is_none()
    }
}

impl SlotSaid {
    /// True if nothing was said.
    pub fn is_empty(&self) -> bool {
        *self == SlotSaid::default()
    }

    /// This, and of `before` what it leaves open.
    fn over(self, before: SlotSaid) -> SlotSaid {
        SlotSaid {
            starts: self.starts.or(before.starts),
            minutes: self.minutes.or(before.minutes),
            lanes: self.lanes.or(before.lanes),
            course: self.course.or(before.course),
        }
    }
}

impl Night {
    /// When it ends, where its start is known.
    pub fn ends(&self) -> Option<Time> {
        self.starts.map(|starts| starts.wrapping_add(i64::from(self.minutes).minutes()))
    }
}

impl Squad {
    /// The squad night of `day`, as known at `now`; `None` where the squad does
    /// not swim.
    pub fn night(&self, day: Date, now: Timestamp) -> Option<Night> {
        self.timetable.on(day, now).map(|slot| self.night_of(day, slot))
    }

    fn night_of(&self, on: Date, slot: SlotSaid) -> Night {
        let SlotSaid { starts, minutes, lanes, course } = slot;
        let (minutes, course) = (minutes.unwrap_or(MINUTES), course.unwrap_or(self.course));
        Night { on, starts, minutes, lanes, course }
    }

    /// The night of every week on `weekday`, whatever is different on one day.
    pub fn weekly_night(&self, weekday: Weekday, today: Date, now: Timestamp) -> Option<Night> {
        let ahead = weekday.since(today.weekday());
        let on = today.saturating_add(i64::from(ahead).days());
        let slot = self.timetable.weekly(on, now)?;
        Some(self.night_of(on, slot))
    }

    /// The first night on `from` or later.
    pub fn next_night(&self, from: Date, now: Timestamp) -> Option<Night> {
        if self.timetable.0.is_empty() {
            return None;
        }
        (0..=DAYS_AHEAD).find_map(|ahead| self.night(from.saturating_add(ahead.days()), now))
    }

    /// The night that is on or ahead at `now`.
    pub fn coming_night(&self, now: Timestamp) -> Option<Night> {
        let local = now.to_zoned_datetime(self.zone());
        let over = |night: &Night| {
            night.on == local.date() && night.ends().is_some_and(|ends| ends <= local.time())
        };
        match self.next_night(local.date(), now)? {
            night if over(&night) => self.next_night(night.on.tomorrow().ok()?, now),
            night => Some(night),
        }
    }

    /// The days of every week on which the squad swims, as known at `now`.
    pub fn weekly_days(&self, today: Date, now: Timestamp) -> Vec<Weekday> {
        if self.timetable.0.is_empty() {
            return Vec::new();
        }
        let week = (0..7i64).map(|ahead| today.saturating_add(ahead.days()));
        let days: Weekdays = week
            .filter(|day| self.timetable.weekly(*day, now).is_some())
            .map(|day| day.weekday())
            .collect();
        days.iter().collect()
    }

    /// The days from `from` on, as far as nights are looked for, on which the
    /// pool is shut.
    pub fn shut_days(&self, from: Date, now: Timestamp) -> Vec<Date> {
        let is_shut = |change: &Kept<TimetableChange>| change.what == TimetableChange::Shut;
        if !self.timetable.0.since(from, now).any(is_shut) {
            return Vec::new();
        }
        (0..=DAYS_AHEAD)
            .map(|ahead| from.saturating_add(ahead.days()))
            .filter(|day| self.timetable.is_shut(*day, now))
            .collect()
    }

    /// How often the timetable was changed by `now`.
    pub fn timetable_changes(&self, now: Timestamp) -> usize {
        self.timetable.0.as_of(now).count()
    }

    /// True if `day` would be a night, and the pool is shut.
    pub fn is_shut(&self, day: Date, now: Timestamp) -> bool {
        self.timetable.is_shut(day, now)
    }

    /// True if they swim the squad's nights on `day`: one they said they leave out,
    /// or are away on, is none of theirs.
    pub fn is_night_of(&self, swimmer: &Swimmer, day: Date, now: Timestamp) -> bool {
        let said = swimmer.says_of(day, now);
        self.night(day, now).is_some()
            && !swimmer.is_away(day, now)
            && said.is_none_or(|said| said.coming)
    }
}
