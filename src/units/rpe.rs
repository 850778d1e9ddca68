//! Rating of perceived exertion on the 0 to 10 scale.

use serde::{Deserialize, Serialize};

/// A rating of perceived exertion for a whole session, 0 (rest) to 10
/// (maximal), in tenths so that `6.5` is exact.
///
/// Source of the scale: Foster et al. 2001, J Strength Cond Res 15(1):109-115.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(try_from = "u8", into = "u8")]
pub struct Rpe(u8);

/// A number off the scale.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("{0} tenths is no RPE between 0 and 10")]
pub struct NotAnRpe(pub u8);

impl Rpe {
    /// A rating of `tenths` tenths, 0 to 100.
    ///
    /// # Errors
    /// [`NotAnRpe`] above 100 tenths.
    pub fn from_tenths(tenths: u8) -> Result<Self, NotAnRpe> {
        if tenths <= 100 { Ok(Self(tenths)) } else { Err(NotAnRpe(tenths)) }
    }

    /// The rating, 0 to 10.
    pub fn value(self) -> f64 {
        f64::from(self.0) / 10.0
    }

    /// The rating in tenths, 0 to 100.
    pub const fn tenths(self) -> u8 {
        self.0
    }
}

impl TryFrom<u8> for Rpe {
    type Error = NotAnRpe;

    fn try_from(tenths: u8) -> Result<Self, NotAnRpe> {
        Self::from_tenths(tenths)
    }
}

impl From<Rpe> for u8 {
    fn from(rpe: Rpe) -> u8 {
        rpe.0
    }
}
