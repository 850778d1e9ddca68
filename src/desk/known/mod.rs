//! Decides what is known of a swimmer or a night as of now: the facts that coaching works
//! with. Stores nothing, says nothing.

pub mod booking;
pub mod completed_set;
pub mod facts;
pub mod nights;
pub mod omissions;
pub mod out;
pub mod presumed;
pub mod promised;
pub mod races;
pub mod standing_sessions;
pub mod trials;
pub mod troubles;
