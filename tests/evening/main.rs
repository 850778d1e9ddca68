//! The squad's evening: a coach's own set by lanes, and a set cut on the way.

#![expect(clippy::unwrap_used, reason = "a test that can't go on has failed")]

mod agreeing;
mod at_random;
mod capture;
mod cut;
mod night;
#[path = "../care/opened.rs"]
mod opened;
mod sets;
#[path = "../care/squad.rs"]
#[expect(dead_code, reason = "shared with the tests of care, which use the rest")]
mod squad;
mod told;
mod yardstick;
mod yesterday;
