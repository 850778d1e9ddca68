//! Decides what a swimmer is to swim: the next session, the week, the race they lead to,
//! and what waits for the coach's yes.

pub mod approval;
pub mod limits;
pub mod meets;
pub mod sessions;
