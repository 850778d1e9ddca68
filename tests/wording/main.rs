//! What we say, in every language: a sample of every variant of every outcome
//! goes through every voice, stays in the SMS alphabet, keeps to the wording
//! rules, and stands side by side in one snapshot for a person to read.

#![expect(clippy::unwrap_used, reason = "a test that can't go on has failed")]

mod alphabet;
mod answers;
mod approval;
mod care;
mod commands;
mod evening;
mod every_variant;
mod forbidden;
mod offices;
mod parts;
mod questions;
mod rooms;
mod said;
mod samples;
mod segments;
mod statements;

#[test]
fn side_by_side() {
    insta::assert_snapshot!("side_by_side", said::side_by_side());
}
