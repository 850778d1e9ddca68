//! Days as typed: those that exist in some year.

use jiff::civil::{Date, Weekday};

use super::figures::within;
use super::{Outcome, Trouble};
use crate::message::Day;
use crate::message::syntax::TypedDay;

/// The day, if there can be such a one.
pub fn day(typed: TypedDay) -> Outcome<Day> {
    match typed {
        TypedDay::Named(day) => Ok(day),
        TypedDay::Slashed { first, second } => {
            slashed(first, second).map(|(first, second)| Day::Slashed(first, second))
        }
        TypedDay::SlashedYear { first, second, year } => {
            let (first, second) = slashed(first, second)?;
            Ok(Day::SlashedYear(first, second, within(year, 2000..=2199)?))
        }
        TypedDay::DayMonth { day, month } => {
            // A leap year, so that the 29th of February passes.
            let date = Date::new(
                2024,
                i8::try_from(month).map_err(|_| Trouble::Senseless)?,
                within(day, 1..=31)?,
            );
            date.map(|_| Day::DayMonth(day as u8, month)).map_err(|_| Trouble::Senseless)
        }
        TypedDay::Full { year, month, day } => {
            let date =
                Date::new(within(year, 2000..=2199)?, within(month, 1..=12)?, within(day, 1..=31)?);
            date.map(Day::Full).map_err(|_| Trouble::Senseless)
        }
    }
}

/// A weekday or one day: timetables tell them apart.
pub fn weekday(day: Day) -> Result<Weekday, Day> {
    match day {
        Day::On(weekday) => Ok(weekday),
        other => Err(other),
    }
}

/// Two numbers of which one can be a month.
fn slashed(first: u32, second: u32) -> Outcome<(u8, u8)> {
    let (low, high) = (first.min(second), first.max(second));
    if low > 12 {
        return Err(Trouble::Senseless);
    }
    let (_, _): (u8, u8) = (within(low, 1..=12)?, within(high, 1..=31)?);
    Ok((first as u8, second as u8))
}
