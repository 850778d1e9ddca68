//! The rules a coach works by: what to swim next, and what a result changes.
//!
//! Pure functions of the facts handed in; knows no texts, no stores, no clock.

mod facts;

pub use facts::*;
