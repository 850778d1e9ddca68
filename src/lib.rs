//! Lapwing.
pub mod clock;
pub mod coaching;
pub mod desk;
pub mod journal;
pub mod language;
pub mod message;
pub mod profile;
pub mod reply;
pub mod service;
pub mod session;
pub mod signing;
pub mod swim;
pub mod units;
