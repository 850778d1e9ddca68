//! Decides what is known of a swimmer or a night as of now: the facts that coaching works
//! with. Stores nothing, says nothing.

pub mod booking;
pub mod careful;
pub mod facts;
pub mod left_out;
pub mod nights;
pub mod out;
pub mod presumed;
pub mod promised;
pub mod races;
pub mod set_of_night;
pub mod standing;
pub mod trials;
