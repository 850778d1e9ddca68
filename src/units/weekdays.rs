//! Days of the week, as a squad's timetable names them.

use jiff::civil::Weekday;
use serde::{Deserialize, Serialize};

/// Days of the week, Monday first, each once. Stored as numbers, Monday 1 to
/// Sunday 7 (ISO 8601).
///
/// ```
/// use jiff::civil::Weekday::{Thursday, Tuesday};
/// use lapwing::units::Weekdays;
/// let days: Weekdays = [Thursday, Tuesday, Thursday].into_iter().collect();
/// assert_eq!(days.iter().collect::<Vec<_>>(), [Tuesday, Thursday]);
/// ```
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "Vec<i8>", into = "Vec<i8>")]
pub struct Weekdays(Vec<Weekday>);

impl Weekdays {
    /// The days, Monday first.
    pub fn iter(&self) -> impl Iterator<Item = Weekday> {
        self.0.iter().copied()
    }

    /// True if there are none.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// How many there are.
    pub fn len(&self) -> usize {
        self.0.len()
    }
}

/// The day's word in our notation and in the contract: `mon`.
pub const fn weekday_word(day: Weekday) -> &'static str {
    match day {
        Weekday::Monday => "mon",
        Weekday::Tuesday => "tue",
        Weekday::Wednesday => "wed",
        Weekday::Thursday => "thu",
        Weekday::Friday => "fri",
        Weekday::Saturday => "sat",
        Weekday::Sunday => "sun",
    }
}

impl FromIterator<Weekday> for Weekdays {
    fn from_iter<I: IntoIterator<Item = Weekday>>(days: I) -> Self {
        let mut days: Vec<Weekday> = days.into_iter().collect();
        days.sort_by_key(|day| day.to_monday_one_offset());
        days.dedup();
        Self(days)
    }
}

impl TryFrom<Vec<i8>> for Weekdays {
    type Error = String;

    fn try_from(numbers: Vec<i8>) -> Result<Self, String> {
        numbers
            .into_iter()
            .map(|number| Weekday::from_monday_one_offset(number).map_err(|e| e.to_string()))
            .collect()
    }
}

impl From<Weekdays> for Vec<i8> {
    fn from(days: Weekdays) -> Vec<i8> {
        days.iter().map(Weekday::to_monday_one_offset).collect()
    }
}
