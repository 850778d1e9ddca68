//! The squad's page: who gets its address, for how long, and what is on it.

#![expect(clippy::unwrap_used, reason = "a test fails where it stands")]

mod access;
mod calendars;
mod club;
mod contents;
mod exported;
mod imported;
mod live;
mod one;
mod process;
