//! The hours of a squad's day in which something may be said unasked, and for
//! how long after its time. Danger and pain are no such thing, and keep no hours.

use jiff::civil::{Date, DateTime, Time, time};
use jiff::tz::TimeZone;
use jiff::{Timestamp, ToSpan};

/// Nothing is said unasked from here on … (ours, as for minors.)
pub const QUIET: Time = time(20, 0, 0, 0);

/// … until here, the next morning.
pub const MORNING: Time = time(8, 0, 0, 0);

/// True while nothing is said unasked.
pub fn is_quiet(local: Time) -> bool {
    local < MORNING || local >= QUIET
}

/// The day on which something fell due that may still be said at `local`. It falls due
/// at the time `due` on days that `falls` picks, and may be said for `days` days.
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

/// The first instant after `now` at which one of these times of the day comes
/// round; no later than a day on.
pub fn next_of(times: impl IntoIterator<Item = Time>, now: Timestamp, zone: TimeZone) -> Timestamp {
    let today = now.to_zoned_datetime(zone.clone()).date();
    let days = [Some(today), today.tomorrow().ok()];
    let of_day = |day: Date, at: Time| {
        day.to_datetime(at).to_zoned_datetime(zone.clone()).map(|at| at.timestamp()).ok()
    };
    let all = times.into_iter().flat_map(|at| days.map(|day| of_day(day?, at)));
    let later = all.flatten().filter(|at| *at > now).min();
    later.unwrap_or_else(|| now.checked_add(24.hours()).unwrap_or(now))
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
