//! Lapwing.
pub mod language;
pub mod message;
pub mod session;
pub mod units;
