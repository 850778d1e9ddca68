//! Where a swim is measured: the pool's length and its unit.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Serialize};

use super::UnknownName;

/// The unit a distance is counted in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Unit {
    /// The metre.
    #[serde(rename = "m")]
    Metre,
    /// The international yard, 0.9144 m exactly (agreement of 1959).
    #[serde(rename = "yd")]
    Yard,
}

impl Unit {
    /// Metres in one of this unit.
    pub const fn in_metres(self) -> f64 {
        match self {
            Unit::Metre => 1.0,
            Unit::Yard => 0.9144,
        }
    }

    /// The contract's word: `m` or `yd`.
    pub const fn name(self) -> &'static str {
        match self {
            Unit::Metre => "m",
            Unit::Yard => "yd",
        }
    }
}

impl fmt::Display for Unit {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(self.name())
    }
}

/// A kind of water that times are compared in.
///
/// Shape: `25m`, `50m`, `25yd`, `open`; these are also the JSON values.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Course {
    /// A 25 m pool.
    #[serde(rename = "25m")]
    Short25m,
    /// A 50 m pool.
    #[serde(rename = "50m")]
    Long50m,
    /// A 25 yd pool.
    #[serde(rename = "25yd")]
    Short25yd,
    /// A lake, a river or the sea: no lengths, distances in metres.
    #[serde(rename = "open")]
    OpenWater,
}

impl Course {
    /// Every course, in the order above.
    pub const ALL: [Course; 4] =
        [Course::Short25m, Course::Long50m, Course::Short25yd, Course::OpenWater];

    /// The unit in which this course counts.
    pub const fn unit(self) -> Unit {
        match self {
            Course::Short25yd => Unit::Yard,
            _ => Unit::Metre,
        }
    }

    /// One length of the pool, in [`Course::unit`]; `None` in open water.
    pub const fn length(self) -> Option<u32> {
        match self {
            Course::Short25m | Course::Short25yd => Some(25),
            Course::Long50m => Some(50),
            Course::OpenWater => None,
        }
    }

    /// The contract's word for it.
    pub const fn name(self) -> &'static str {
        match self {
            Course::Short25m => "25m",
            Course::Long50m => "50m",
            Course::Short25yd => "25yd",
            Course::OpenWater => "open",
        }
    }
}

impl fmt::Display for Course {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(self.name())
    }
}

impl FromStr for Course {
    type Err = UnknownName;

    fn from_str(word: &str) -> Result<Self, UnknownName> {
        Course::ALL
            .into_iter()
            .find(|course| course.name() == word)
            .ok_or_else(|| UnknownName { what: "course", word: word.to_owned() })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn print_then_parse_is_identity() {
        for course in Course::ALL {
            assert_eq!(course.to_string().parse::<Course>(), Ok(course));
        }
        assert!("33m".parse::<Course>().is_err());
    }
}
