//! How far: whole metres or whole yards, as the trade counts them.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Serialize};

use super::{Course, Unit};

/// A distance in whole units of its course, from 1 to 100,000.
///
/// Shape: `200m`, `1650yd`. Two distances compare only by [`Distance::metres`],
/// never by their amounts, so there is no `Ord`.
///
/// ```
/// use lapwing::units::{Distance, Unit};
/// let mile: Distance = "1650yd".parse().unwrap();
/// assert_eq!((mile.amount(), mile.unit()), (1650, Unit::Yard));
/// assert!((mile.metres().get() - 1508.76).abs() < 1e-9);
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(try_from = "(u32, Unit)", into = "(u32, Unit)")]
pub struct Distance {
    amount: u32,
    unit: Unit,
}

/// A length in metres, for the maths that mix courses: a finite number of
/// metres, which may be negative where it is a difference.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Metres(f64);

/// An amount or word that is no distance between 1 and 100,000 units.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("`{0}` is no distance between 1 and 100,000")]
pub struct NotADistance(pub String);

impl Distance {
    /// The greatest amount, in either unit.
    pub const GREATEST: u32 = 100_000;

    /// `amount` of `unit`.
    ///
    /// # Errors
    /// [`NotADistance`] for nought and for more than 100,000.
    pub fn new(amount: u32, unit: Unit) -> Result<Self, NotADistance> {
        if amount == 0 || amount > Self::GREATEST {
            return Err(NotADistance(format!("{amount}{unit}")));
        }
        Ok(Self { amount, unit })
    }

    /// How many of its unit.
    pub const fn amount(self) -> u32 {
        self.amount
    }

    /// The unit it is counted in.
    pub const fn unit(self) -> Unit {
        self.unit
    }

    /// The same length in metres: exact, since the yard is 0.9144 m.
    pub fn metres(self) -> Metres {
        Metres(f64::from(self.amount) * self.unit.in_metres())
    }

    /// True if it is a whole number of lengths of `course`, in its unit; open
    /// water has no lengths, so every distance in metres fits.
    pub fn fits(self, course: Course) -> bool {
        self.unit == course.unit()
            && course.length().is_none_or(|length| self.amount.is_multiple_of(length))
    }

    /// `times` of it, if that is still a distance.
    pub fn times(self, times: u32) -> Option<Distance> {
        self.amount.checked_mul(times).and_then(|amount| Distance::new(amount, self.unit).ok())
    }
}

impl Metres {
    /// A number of metres.
    pub const fn new(metres: f64) -> Self {
        Self(metres)
    }

    /// The number of metres.
    pub const fn get(self) -> f64 {
        self.0
    }
}

impl fmt::Display for Distance {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{}{}", self.amount, self.unit)
    }
}

impl FromStr for Distance {
    type Err = NotADistance;

    fn from_str(text: &str) -> Result<Self, NotADistance> {
        let split = text.find(|c: char| !c.is_ascii_digit()).unwrap_or(text.len());
        let (digits, unit) = text.split_at(split);
        let unit = match unit {
            "m" => Unit::Metre,
            "yd" => Unit::Yard,
            _ => return Err(NotADistance(text.to_owned())),
        };
        digits
            .parse()
            .map_err(|_| NotADistance(text.to_owned()))
            .and_then(|amount| Distance::new(amount, unit))
    }
}

impl TryFrom<(u32, Unit)> for Distance {
    type Error = NotADistance;

    fn try_from((amount, unit): (u32, Unit)) -> Result<Self, NotADistance> {
        Self::new(amount, unit)
    }
}

impl From<Distance> for (u32, Unit) {
    fn from(distance: Distance) -> Self {
        (distance.amount, distance.unit)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn whole_lengths() {
        let fits = |text: &str, course| text.parse::<Distance>().unwrap().fits(course);
        assert!(fits("75m", Course::Short25m));
        assert!(!fits("75m", Course::Long50m));
        assert!(!fits("100m", Course::Short25yd));
        assert!(fits("1234m", Course::OpenWater));
    }

    proptest! {
        #[test]
        fn print_then_parse_is_identity(amount in 1u32..=Distance::GREATEST, yards: bool) {
            let distance = Distance::new(amount, if yards { Unit::Yard } else { Unit::Metre }).unwrap();
            prop_assert_eq!(distance.to_string().parse::<Distance>().unwrap(), distance);
        }
    }
}
