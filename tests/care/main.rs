//! What keeps people safe, through the desk: danger, stops, readiness, what is
//! never set, and who is told of what.

#![expect(clippy::unwrap_used, clippy::expect_used, reason = "a test that can't go on has failed")]

mod after_trouble;
mod consent;
mod corpus;
mod minors;
mod opened;
mod passing_on;
mod readiness;
mod recipients;
mod squad;
mod stops;
mod told_beside;
mod walk;
mod withheld;
