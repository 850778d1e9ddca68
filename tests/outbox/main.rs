//! The outbox before a real HTTP peer that misbehaves, with the real service
//! and the real store behind it.

mod faults;
mod order;
mod outage;
mod peer;
mod process;
mod refusals;
mod squads;
