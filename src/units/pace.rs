//! Speed and its reciprocal, pace per 100: the two ways a swim is compared.

use std::fmt;

use serde::{Deserialize, Serialize};

use super::{Centis, Course, Distance, Unit};

/// A speed in units of the course per second: finite and above zero.
///
/// The speed of a yard swim is in yards per second; [`Speed::unit`] says which,
/// so a mix is visible. Percentages of a level apply to speed, never to pace.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Speed {
    per_second: f64,
    unit: Unit,
}

/// A pace: seconds for 100 of the course's unit, kept unrounded and rounded
/// only where it is shown.
///
/// Shape: printed to the tenth, as `1:49.1`.
///
/// ```
/// use lapwing::units::{Centis, Distance, Pace, Unit};
/// let test = Distance::new(200, Unit::Metre).unwrap();
/// let pace = Pace::of(test, Centis::new(19200).unwrap());
/// assert_eq!(pace.to_string(), "1:36.0");
/// assert_eq!(pace.time_for(Distance::new(50, Unit::Metre).unwrap()).unwrap().hundredths(), 4800);
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Pace {
    per_100_s: f64,
    unit: Unit,
}

/// A number that is no speed or pace: not finite, or not above zero.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[error("{0} is no speed")]
pub struct NotASpeed(pub f64);

impl Speed {
    /// `per_second` units a second.
    ///
    /// # Errors
    /// [`NotASpeed`] unless it is finite and above zero.
    pub fn new(per_second: f64, unit: Unit) -> Result<Self, NotASpeed> {
        if per_second.is_finite() && per_second > 0.0 {
            Ok(Self { per_second, unit })
        } else {
            Err(NotASpeed(per_second))
        }
    }

    /// The mean speed of a swim.
    pub fn of(distance: Distance, time: Centis) -> Self {
        Self { per_second: f64::from(distance.amount()) / time.seconds(), unit: distance.unit() }
    }

    /// Units a second.
    pub const fn per_second(self) -> f64 {
        self.per_second
    }

    /// The unit of its distance.
    pub const fn unit(self) -> Unit {
        self.unit
    }

    /// The same speed in metres a second.
    pub fn metres_per_second(self) -> f64 {
        self.per_second * self.unit.in_metres()
    }

    /// `fraction` of it (0.95 is 95 % of the speed).
    ///
    /// # Errors
    /// [`NotASpeed`] unless the result is finite and above zero.
    pub fn scaled(self, fraction: f64) -> Result<Self, NotASpeed> {
        Self::new(self.per_second * fraction, self.unit)
    }

    /// The pace that this speed is.
    pub fn pace(self) -> Pace {
        Pace { per_100_s: 100.0 / self.per_second, unit: self.unit }
    }
}

impl Pace {
    /// `per_100_s` seconds for 100 of `unit`.
    ///
    /// # Errors
    /// [`NotASpeed`] unless it is finite and above zero.
    pub fn new(per_100_s: f64, unit: Unit) -> Result<Self, NotASpeed> {
        Speed::new(per_100_s, unit).map(|_| Self { per_100_s, unit })
    }

    /// The even pace of a swim.
    pub fn of(distance: Distance, time: Centis) -> Self {
        Speed::of(distance, time).pace()
    }

    /// Seconds for 100, unrounded.
    pub const fn per_100_s(self) -> f64 {
        self.per_100_s
    }

    /// The unit of the 100.
    pub const fn unit(self) -> Unit {
        self.unit
    }

    /// The pace as a time for 100, to the nearest hundredth; `None` past 24 h.
    pub fn per_100(self) -> Option<Centis> {
        Centis::from_seconds(self.per_100_s).ok()
    }

    /// The speed that this pace is.
    pub fn speed(self) -> Speed {
        Speed { per_second: 100.0 / self.per_100_s, unit: self.unit }
    }

    /// The time for `distance` at this pace, to the nearest hundredth. A
    /// distance in the other unit is converted by its exact length.
    pub fn time_for(self, distance: Distance) -> Option<Centis> {
        let in_own_unit = distance.metres().get() / self.unit.in_metres();
        Centis::from_seconds(self.per_100_s * in_own_unit / 100.0).ok()
    }

    /// The same speed through the water, as a pace per 100 of `course`'s unit:
    /// a ratio of lengths (1 yd = 0.9144 m), no allowance for turns.
    #[must_use]
    pub fn in_unit_of(self, course: Course) -> Pace {
        let unit = course.unit();
        Pace { per_100_s: self.per_100_s * unit.in_metres() / self.unit.in_metres(), unit }
    }
}

impl fmt::Display for Pace {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.per_100().map(Centis::to_tenth) {
            Some(time) => {
                let full = time.to_string();
                out.write_str(full.strip_suffix('0').unwrap_or(&full))
            }
            None => out.write_str("over 24 h"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: the yard of 1959 is 0.9144 m; the figures are a plain ratio of
    /// lengths, worked in double precision.
    #[test]
    fn pace_between_units() {
        let metric = Pace::new(85.0, Unit::Metre).unwrap();
        assert!((metric.in_unit_of(Course::Short25yd).per_100_s() - 77.724).abs() < 1e-9);
        let yards = Pace::new(70.0, Unit::Yard).unwrap();
        assert!((yards.in_unit_of(Course::Short25m).per_100_s() - 76.552_930_9).abs() < 1e-6);
    }

    #[test]
    fn err_not_a_speed() {
        for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert!(Speed::new(bad, Unit::Metre).is_err());
            assert!(Pace::new(bad, Unit::Metre).is_err());
        }
    }
}
