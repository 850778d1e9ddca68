//! Lapwing.
pub mod swim;
pub mod units;
