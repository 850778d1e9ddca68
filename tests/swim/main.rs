//! The swimming maths against values from outside: published papers, certified
//! data sets, standards. Beside each value stands its source.

#![expect(clippy::unwrap_used, reason = "helpers of tests: what fails to parse fails the test")]

mod critical_speed;
mod even_pace;
mod least_squares;
mod levels;
mod plausible;
mod set;
mod support;
