//! The hours of a squad's day in which something may be said unasked, and for
//! how long after its time. Danger and pain are no such thing, and keep no hours.

use jiff::civil::{Date, DateTime, Time, time};

/// Nothing is said unasked from here on … (ours, as for minors.)
pub const QUIET: Time = time(20, 0, 0, 0);
/// … until here, the next morning.
pub const MORNING: Time = time(8, 0, 0, 0);

/// True while nothing is said unasked.
pub fn is_quiet(local: Time) -> bool {
    local < MORNING || local >= QUIET
}

/// The day on which something fell due that may still be said at `local`: due at
/// `due` on a day that `falls` picks, and at most `days` days ago.
pub fn due_day(local: DateTime, due: Time, days: u8, falls: impl Fn(Date) -> bool) -> Option<Date> {
    let mut day = local.date();
    for _ in 0..=days {
        if falls(day) && day.to_datetime(due) <= local {
            return Some(day);
        }
        day = day.yesterday().ok()?;
    }
    None
}

#[cfg(test)]
mod tests {
    use jiff::civil::{Weekday, date};

    use super::*;

    #[test]
    fn a_sunday_s_text_waits_for_monday_and_not_for_wednesday() {
        let sunday = |day: Date| day.weekday() == Weekday::Sunday;
        let due = |day: i8, hour: i8| {
            due_day(date(2026, 3, day).at(hour, 0, 0, 0), time(18, 0, 0, 0), 1, sunday)
        };
        let on = Some(date(2026, 3, 8));
        assert_eq!(
            [due(8, 17), due(8, 18), due(9, 9), due(10, 0), due(11, 9)],
            [None, on, on, None, None]
        );
    }
}
