//! A squad's evenings, decided by the desk alone: the register, who comes, the
//! timetable, and what is presumed of those who were there.

#![expect(clippy::unwrap_used, reason = "a test that can't go on has failed")]

#[path = "../care/squad.rs"]
#[expect(dead_code, reason = "shared with the tests of care, which use the rest")]
mod squad;
mod taking;
