//! A lane of the pool, by the number on its block.

use std::fmt;

use serde::{Deserialize, Serialize};

/// A lane's number, from 1 to 20; also how many lanes there are, by the number
/// of the last.
///
/// Shape: printed and stored as the number.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(try_from = "u8", into = "u8")]
pub struct Lane(u8);

/// A number that no lane has.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("{0} is no lane between 1 and 20")]
pub struct NotALane(pub u8);

impl Lane {
    /// The lowest number.
    pub const FIRST: Lane = Lane(1);
    /// The highest number: two 50 m pools side by side.
    pub const LAST: Lane = Lane(20);

    /// The lane with that number.
    ///
    /// # Errors
    /// [`NotALane`] outside 1 to 20.
    pub fn new(number: u8) -> Result<Self, NotALane> {
        if (1..=Self::LAST.0).contains(&number) { Ok(Self(number)) } else { Err(NotALane(number)) }
    }

    /// Its number.
    pub const fn number(self) -> u8 {
        self.0
    }

    /// The lanes from the first to this one, in order.
    pub fn up_to(self) -> impl Iterator<Item = Lane> {
        (1..=self.0).map(Lane)
    }
}

impl fmt::Display for Lane {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(out)
    }
}

impl TryFrom<u8> for Lane {
    type Error = NotALane;

    fn try_from(number: u8) -> Result<Self, NotALane> {
        Self::new(number)
    }
}

impl From<Lane> for u8 {
    fn from(lane: Lane) -> u8 {
        lane.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn err_outside_the_pool() {
        assert!(Lane::new(0).is_err() && Lane::new(21).is_err());
        assert_eq!(Lane::new(3).unwrap().up_to().map(Lane::number).collect::<Vec<_>>(), [1, 2, 3]);
    }
}
