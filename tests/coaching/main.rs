//! Coaching from outside: sessions, weeks and feedback for invented swimmers.
#![allow(clippy::unwrap_used, reason = "in a test the panic is the report")]

mod contract;
mod feedback;
mod lanes;
mod limits;
mod own_targets;
mod rules;
mod season;
mod swimmers;
mod weeks;
mod worked;
