//! Virtual swimmers: to try the rules on whole seasons, and to fill a demo
//! squad's history.
//!
//! Seeded and pure: the same seed gives the same season. Knows coaching from
//! outside, as any caller does; nothing in coaching knows of it.

mod body;
mod compare;
mod pool;
mod record;
mod report;
mod season;
mod swimmer;
mod watch;

pub use body::Body;
pub use compare::{Arm, Comparison, Trials, compare};
pub use pool::Ability;
pub use report::{Dated, Report};
pub use season::{Plan, Season, season};
pub use swimmer::{Swimmer, Swum};
pub use watch::Broken;
