//! What people take along: their history as files that other programs read.
//!
//! A squad's or one swimmer's; tables as CSV (RFC 4180), everything as JSON Lines,
//! what lies ahead as a calendar (RFC 5545). Knows what is kept; not who asks, nor
//! by which way.

mod ahead;
mod calendar;
mod file;
mod kept;
mod rows;

pub use file::{File, NoSuchFile, NotWritten, Whose, written};
