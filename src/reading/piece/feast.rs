//! Feasts by which people reckon when they are away.

use jiff::civil::Date;

/// A feast that falls on one day of each year.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Feast {
    /// Easter Sunday, so many days later.
    Easter(i8),
    /// A day of a month.
    Fixed(i8, i8),
}

impl Feast {
    /// Its name in the word lists.
    pub fn named(name: &str) -> Option<Feast> {
        Some(match name {
            "easter" => Feast::Easter(0),
            "good-friday" => Feast::Easter(-2),
            "easter-monday" => Feast::Easter(1),
            "christmas-eve" => Feast::Fixed(24, 12),
            "christmas" => Feast::Fixed(25, 12),
            "boxing-day" => Feast::Fixed(26, 12),
            "new-years-eve" => Feast::Fixed(31, 12),
            "new-year" => Feast::Fixed(1, 1),
            "epiphany" => Feast::Fixed(6, 1),
            _ => return None,
        })
    }

    /// Its date in a year of the Gregorian calendar; none beyond the calendar's years.
    pub fn in_year(self, year: i16) -> Option<Date> {
        match self {
            Feast::Fixed(day, month) => Date::new(year, month, day).ok(),
            Feast::Easter(later) => {
                easter(year)?.checked_add(jiff::Span::new().days(i64::from(later))).ok()
            }
        }
    }
}

/// Easter Sunday, by the rule that Butcher's Ecclesiastical Calendar gave in 1876, as
/// in Meeus, Astronomical Algorithms, 1991, chapter 8.
fn easter(year: i16) -> Option<Date> {
    let year_number = i32::from(year);
    let golden = year_number % 19;
    let (century, within) = (year_number / 100, year_number % 100);
    let correction = (century - (century + 8) / 25 + 1) / 3;
    let moon = (19 * golden + century - century / 4 - correction + 15) % 30;
    let weekday = (32 + 2 * (century % 4) + 2 * (within / 4) - moon - within % 4) % 7;
    let shift = (golden + 11 * moon + 22 * weekday) / 451;
    let number = moon + weekday - 7 * shift + 114;
    let (month, day) = (number / 31, number % 31 + 1);
    Date::new(year, i8::try_from(month).ok()?, i8::try_from(day).ok()?).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Dates of Easter as printed in the table of movable feasts, Book of Common
    /// Prayer (Church of England), and Meeus 1991: 1954 and 1818 are his examples.
    #[test]
    fn easter_falls_where_the_tables_have_it() {
        for (year, month, day) in [
            (1818, 3, 22),
            (1954, 4, 18),
            (2000, 4, 23),
            (2024, 3, 31),
            (2025, 4, 20),
            (2026, 4, 5),
            (2038, 4, 25),
        ] {
            assert_eq!(Feast::Easter(0).in_year(year), Date::new(year, month, day).ok());
        }
    }
}
