//! Lapwing.
pub mod units;
