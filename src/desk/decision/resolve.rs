//! Settles what was typed against the swimmer and the clock: days, lengths,
//! times, courses.

use jiff::ToSpan;
use jiff::civil::{Date, Weekday};

use super::refusing::{Stopped, refused};
use crate::message::{Day, Length, TypedTime};
use crate::reply::RefusedWhy;
use crate::swim::plausible::{self, Verdict};
use crate::units::{Centis, Course, Distance, Stroke, Unit};

/// Which way a day without a year or a date is looked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Toward {
    /// For what was swum: today or before.
    Past,
    /// For what is planned: today or later.
    Future,
}

/// The date a typed day means; `None` if there is no such date.
pub fn day(typed: Day, today: Date, unit: Unit, toward: Toward) -> Option<Date> {
    match typed {
        Day::Today => Some(today),
        Day::Yesterday => today.checked_sub(1.day()).ok(),
        Day::Tomorrow => today.checked_add(1.day()).ok(),
        Day::On(weekday) => nearest(weekday, today, toward),
        Day::Last(weekday) => nearest(weekday, today.checked_sub(1.day()).ok()?, Toward::Past),
        Day::Full(date) => Some(date),
        Day::DayMonth(day, month) => of_year(day, month, today, toward),
        Day::Slashed(first, second) => {
            let (day, month) = day_and_month(first, second, unit);
            of_year(day, month, today, toward)
        }
        Day::SlashedYear(first, second, year) => {
            let (day, month) = day_and_month(first, second, unit);
            Date::new(year, i8::try_from(month).ok()?, i8::try_from(day).ok()?).ok()
        }
    }
}

/// Where yards are swum the month comes first; a number over 12 settles it
/// anyway.
fn day_and_month(first: u8, second: u8, unit: Unit) -> (u8, u8) {
    let month_first = (unit == Unit::Yard && first <= 12) || second > 12;
    if month_first { (second, first) } else { (first, second) }
}

fn nearest(weekday: Weekday, from: Date, toward: Toward) -> Option<Date> {
    let away = match toward {
        Toward::Past => -i64::from(from.weekday().since(weekday)),
        Toward::Future => i64::from(weekday.since(from.weekday())),
    };
    from.checked_add(away.days()).ok()
}

fn of_year(day: u8, month: u8, today: Date, toward: Toward) -> Option<Date> {
    let (day, month) = (i8::try_from(day).ok()?, i8::try_from(month).ok()?);
    let fits = |date: &Date| match toward {
        Toward::Past => *date <= today,
        Toward::Future => *date >= today,
    };
    // 29 February is up to eight years away.
    let years: Vec<i16> = match toward {
        Toward::Past => (0..=8).map(|back| today.year() - back).collect(),
        Toward::Future => (0..=8).map(|on| today.year() + on).collect(),
    };
    years.into_iter().filter_map(|year| Date::new(year, month, day).ok()).find(fits)
}

/// The distance a typed length means in `course`; `None` past 100,000.
pub fn distance(length: Length, course: Course) -> Option<Distance> {
    Distance::new(length.amount, length.unit.unwrap_or(course.unit())).ok()
}

/// So many lengths of a pool; `None` where the water has no walls.
pub fn lengths(count: u16, course: Course) -> Option<Length> {
    let amount = u32::from(count).checked_mul(course.length()?)?;
    Some(Length { amount, unit: Some(course.unit()) })
}

/// The course of a swim: as said, else as its unit says, else their own.
pub fn course(said: Option<Course>, length: Length, own: Course) -> Course {
    match (said, length.unit) {
        (Some(course), _) => course,
        (None, Some(Unit::Yard)) => Course::Short25yd,
        (None, Some(Unit::Metre)) if own.unit() == Unit::Yard => Course::Short25m,
        (None, _) => own,
    }
}

/// What a typed time comes to for a distance.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Settled {
    /// One reading is a swim that people swim.
    Sure(Centis),
    /// Two readings are.
    Two(Centis, Centis),
    /// No reading is; this is the likelier one.
    Unlikely(Centis),
    /// No reading is, by far: this one is faster or slower than anybody swims.
    Impossible(Centis),
}

impl Settled {
    /// The likelier time.
    pub fn likelier(self) -> Centis {
        match self {
            Settled::Sure(time)
            | Settled::Two(time, _)
            | Settled::Unlikely(time)
            | Settled::Impossible(time) => time,
        }
    }
}

/// Takes the reading that is a possible swim of `distance`.
pub fn time(typed: &TypedTime, distance: Distance, stroke: Stroke) -> Option<Settled> {
    let first = *typed.readings.first()?;
    let likely: Vec<Centis> = typed
        .readings
        .iter()
        .copied()
        .filter(|&time| plausible::check(distance, time, stroke) == Verdict::Plausible)
        .collect();
    Some(match likely.as_slice() {
        [one] => Settled::Sure(*one),
        [one, other, ..] => Settled::Two(*one, *other),
        [] if is_impossible(distance, first) => Settled::Impossible(first),
        [] => Settled::Unlikely(first),
    })
}

/// The times of a set, one a repeat. A time of two possible readings (`100` is
/// 1:00 or 100 s) is read like its neighbours: as the one nearer to the middle
/// of those that have one reading, else to `target`.
pub fn times(
    typed: &[Option<TypedTime>],
    distance: Distance,
    stroke: Stroke,
    target: Option<Centis>,
) -> Vec<Option<Centis>> {
    let settled: Vec<Option<Settled>> =
        typed.iter().map(|one| one.as_ref().and_then(|one| time(one, distance, stroke))).collect();
    let mut sure: Vec<Centis> = settled
        .iter()
        .filter_map(|one| match one {
            Some(Settled::Sure(time)) => Some(*time),
            _ => None,
        })
        .collect();
    sure.sort_unstable();
    let like = sure.get(sure.len() / 2).copied().or(target);
    let away = |time: Centis| like.map(|like| like.hundredths().abs_diff(time.hundredths()));
    settled
        .into_iter()
        .map(|one| match one? {
            Settled::Two(one, other) if away(other) < away(one) => Some(other),
            settled => Some(settled.likelier()),
        })
        .collect()
}

/// Faster than 3 m/s or slower than 0.1 m/s (ours): beyond any swim on record
/// by a quarter, or slower than a drift. Between this and the plausible band
/// we ask.
fn is_impossible(distance: Distance, time: Centis) -> bool {
    let speed = distance.metres().get() / time.seconds();
    !(0.1..=3.0).contains(&speed)
}

/// The distance a typed length means, where it is whole lengths of the pool.
pub fn whole_lengths(length: Length, course: Course) -> Result<Distance, Stopped> {
    distance(length, course)
        .filter(|distance| distance.fits(course))
        .ok_or_else(|| refused("distance", RefusedWhy::Distance))
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::civil::date;

    #[test]
    fn a_doubtful_time_is_read_like_its_neighbours() {
        let both = TypedTime {
            readings: vec![Centis::new(6000).unwrap(), Centis::new(10_000).unwrap()],
            tenths: false,
        };
        let sure = TypedTime::sure(Centis::new(9900).unwrap());
        let hundred = Distance::new(100, Unit::Metre).unwrap();
        let read = |list: &[Option<TypedTime>], target| times(list, hundred, Stroke::Free, target);
        let hundredths = |list: Vec<Option<Centis>>| -> Vec<Option<u32>> {
            list.into_iter().map(|time| time.map(Centis::hundredths)).collect()
        };
        assert_eq!(
            hundredths(read(&[Some(sure), None, Some(both.clone())], None)),
            [Some(9900), None, Some(10_000)]
        );
        let target = Centis::new(9600).ok();
        assert_eq!(hundredths(read(&[Some(both.clone())], target)), [Some(10_000)]);
        assert_eq!(hundredths(read(&[Some(both)], None)), [Some(6000)]);
    }

    #[test]
    fn days_toward_past_and_future() {
        let today = date(2026, 3, 5); // a Thursday
        let past = |typed| day(typed, today, Unit::Metre, Toward::Past);
        let future = |typed| day(typed, today, Unit::Metre, Toward::Future);
        assert_eq!(past(Day::On(Weekday::Tuesday)), Some(date(2026, 3, 3)));
        assert_eq!(past(Day::On(Weekday::Thursday)), Some(today));
        assert_eq!(past(Day::Last(Weekday::Thursday)), Some(date(2026, 2, 26)));
        assert_eq!(future(Day::On(Weekday::Tuesday)), Some(date(2026, 3, 10)));
        assert_eq!(past(Day::Slashed(20, 11)), Some(date(2025, 11, 20)));
        assert_eq!(future(Day::DayMonth(20, 12)), Some(date(2026, 12, 20)));
        assert_eq!(past(Day::DayMonth(29, 2)), Some(date(2024, 2, 29)));
        assert_eq!(past(Day::DayMonth(31, 4)), None);
        let yards = |typed| day(typed, today, Unit::Yard, Toward::Past);
        assert_eq!(yards(Day::Slashed(2, 20)), Some(date(2026, 2, 20)));
        assert_eq!(yards(Day::Slashed(20, 2)), Some(date(2026, 2, 20)));
    }
}
