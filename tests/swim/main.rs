//! The swimming maths against values from outside: published papers, certified
//! data sets, standards. Beside each value stands its source.

#![expect(clippy::unwrap_used, reason = "helpers of tests: what fails to parse fails the test")]

mod conversion;
mod critical_speed;
mod curve;
mod even_pace;
mod least_squares;
mod levels;
mod linear;
mod load;
mod next_test;
mod plausible;
mod points;
mod prediction;
mod real_change;
mod reference;
mod set;
mod stroke_efficiency;
mod support;
mod why;
mod world_records;
