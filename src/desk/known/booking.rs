//! What is booked on a night: from when, how long, where, how many lanes.

use jiff::civil::{Date, Time};
use jiff::{Timestamp, ToSpan};

use crate::desk::decision::view::View;
use crate::session::Session;
use crate::units::Course;

/// Minutes booked where nobody said how many (common practice, no source).
pub const MINUTES: u16 = 60;

/// A night is over this long after its start, whatever is booked (ours).
pub const NIGHT_S: u32 = 4 * 3600;

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

impl View<'_> {
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

    /// Seconds since the night began; none before, once it is long over, and where
    /// nobody said when it begins.
    pub fn elapsed_s(&self, booking: &Booking) -> Option<u32> {
        let since = self.now().duration_since(booking.starts?).as_secs();
        u32::try_from(since).ok().filter(|since| *since <= NIGHT_S)
    }

    /// True once a night is over: nothing of it changes by itself any more.
    pub fn is_over(&self, on: Date, booking: &Booking) -> bool {
        let ends = booking
            .starts
            .and_then(|starts| starts.checked_add(i64::from(booking.minutes).minutes()).ok());
        on < self.evening() || ends.is_some_and(|ends| ends <= self.now())
    }

    /// The local time at which `session` ends, where its start is known.
    pub fn ends(&self, booking: &Booking, session: &Session) -> Option<Time> {
        let ends = booking.starts?.checked_add(i64::from(session.duration_s()).seconds()).ok()?;
        Some(ends.to_zoned_datetime(self.squad.zone()).time())
    }
}
