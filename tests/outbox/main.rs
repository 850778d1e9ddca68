//! The outbox before a real HTTP peer that misbehaves, with the real service
//! and the real store behind it.

#![expect(clippy::unwrap_used, reason = "a test that can't go on has failed")]

mod alarms;
mod faults;
mod gateway;
mod order;
mod outage;
mod peer;
mod process;
#[path = "../service/program.rs"]
#[expect(dead_code, reason = "shared with the service's own tests, which use the rest")]
mod program;
mod refusals;
mod squads;
