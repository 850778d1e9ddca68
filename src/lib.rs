//! Lapwing.
pub mod clock;
pub mod journal;
pub mod language;
pub mod message;
pub mod service;
pub mod session;
pub mod units;
