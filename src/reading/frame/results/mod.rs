//! What was swum: tests, sets, sessions, other training; of oneself or of several.

pub mod capture;
pub mod done;
pub mod narrative;
pub mod puzzle;
pub mod set;
pub mod test;
