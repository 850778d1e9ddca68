//! Where a swim is measured: the pool's length and its unit.

use serde::{Deserialize, Serialize};
use strum::{Display, EnumString, IntoStaticStr, VariantArray};

use super::{UnknownName, every};

/// The unit a distance is counted in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[derive(Display, IntoStaticStr)]
pub enum Unit {
    /// The metre.
    #[serde(rename = "m")]
    #[strum(serialize = "m")]
    Metre,
    /// The international yard, 0.9144 m exactly (agreement of 1959).
    #[serde(rename = "yd")]
    #[strum(serialize = "yd")]
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
    pub fn name(self) -> &'static str {
        self.into()
    }
}

/// A kind of water that times are compared in.
///
/// Shape: `25m`, `50m`, `25yd`, `open`; these are also the JSON values.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[derive(Display, EnumString, IntoStaticStr, VariantArray)]
#[strum(parse_err_ty = UnknownName, parse_err_fn = unknown)]
pub enum Course {
    /// A 25 m pool.
    #[serde(rename = "25m")]
    #[strum(serialize = "25m")]
    Short25m,
    /// A 50 m pool.
    #[serde(rename = "50m")]
    #[strum(serialize = "50m")]
    Long50m,
    /// A 25 yd pool.
    #[serde(rename = "25yd")]
    #[strum(serialize = "25yd")]
    Short25yd,
    /// A lake, a river or the sea: no lengths, distances in metres.
    #[serde(rename = "open")]
    #[strum(serialize = "open")]
    OpenWater,
}

impl Course {
    /// Every course, in the order above.
    pub const ALL: [Course; Course::VARIANTS.len()] = every(Course::VARIANTS);

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
    pub fn name(self) -> &'static str {
        self.into()
    }
}

fn unknown(word: &str) -> UnknownName {
    UnknownName { what: "course", word: word.to_owned() }
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
