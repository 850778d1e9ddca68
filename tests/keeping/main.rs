//! What is said of a session to come is kept, or taken back in words.

#![expect(clippy::unwrap_used, reason = "helpers of tests: what fails to parse fails the test")]

mod careful;
#[path = "../care/opened.rs"]
mod opened;
mod promises;
mod seasons;
mod talk;
mod told;
mod yardstick;
