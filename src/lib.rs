//! Lapwing.
pub mod clock;
pub mod language;
pub mod message;
pub mod service;
pub mod session;
pub mod swim;
pub mod units;
