//! The session builder: a search over real sessions for the best that fits.
//!
//! Works from a setting that is already decided; knows no history.

mod compose;
mod main_sets;
mod pen;
mod race_day;
mod search;
mod setting;

pub(super) use race_day::race_day;
pub(super) use search::{build, least_seconds};
pub(super) use setting::Setting;
