//! Lapwing.
pub mod cli;
pub mod clock;
pub mod coaching;
pub mod control;
pub mod desk;
pub mod http;
pub mod journal;
pub mod language;
pub mod message;
pub mod profile;
pub mod reply;
pub mod service;
pub mod session;
pub mod signing;
pub mod swim;
pub mod tls;
pub mod units;
