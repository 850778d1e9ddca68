//! Who swims in which lane: the split by pace that costs least, within what a
//! lane can hold.
//!
//! Knows paces and a set; not why someone is here, nor what anyone is told.
//!
//! # The model
//!
//! Lane 1 is the fastest. Swimmers stand in order of threshold pace, ties by
//! name; those with no pace at all behind everyone, taken to be as slow as the
//! slowest pace that is known. A *split* gives each lane a run of neighbours in
//! that order (perhaps nobody), lane 1 the first run. A swimmer pinned to a lane
//! is taken out of the order and added to their lane.
//!
//! A lane may be swum if
//!
//! - it holds no more than the capacity,
//! - it holds no two who are to be kept apart,
//! - all get away: swimmers x gap <= send-off, on every repeat of the set. They
//!   circle, so the first may leave again while the last is coming home; each has
//!   their rest before their own next start,
//! - nobody is lapped: see [`Evening::course`].
//!
//! # The cost
//!
//! Ours. A lane goes at the pace of its slowest, so what a split costs is the
//! waiting of the others. With paces in hundredths of a second per 100:
//!
//! - for each swimmer the squared difference to their lane's slowest,
//! - where that slowest is over 10 % slower than they are, four times the square of
//!   what is over,
//! - for each pair in a lane what one swimmer costs who is 3 s per 100 off,
//! - where a send-off has to be longer than the slowest alone needs, so that
//!   there is room for all, what it costs if each in the lane were half as many
//!   seconds per 100 off.
//!
//! The cost is a whole number, so that two ways of working it can be compared
//! exactly. The first two parts are convex functions of a difference between the
//! slowest and the swimmer, the others depend on a lane's number and slowest
//! only. So without pins, partings and limits no other way of dealing out the
//! swimmers is cheaper than a split into runs: changing two swimmers over whose
//! order disagrees with their lanes never costs more.
//!
//! # How it is found
//!
//! Dynamic programming over the places where the order may be cut, exact for
//! this model; the idea is that of Fisher 1958, "On grouping for maximum
//! homogeneity", J. Am. Stat. Assoc. 53 (from memory). A run's end fixes the
//! lane's slowest and so its send-off; whatever limit a run breaks, all longer
//! ones with the same end break too, so it stops growing there: the time is
//! lanes x swimmers x capacity.

mod advice;
mod board;
mod cost;
mod draw;
mod evening;
mod joining;
mod known_pace;
mod limits;
mod movement;
mod partition;
mod shortfall;

pub use advice::{OneMove, move_worth_making};
pub use board::in_order_of_pace;
pub use cost::Cost;
pub use draw::{Draw, LaneDrawn, LaneSendOff, Placed, as_placed, draw};
pub use evening::{Entrant, Evening, Gap, KnownPace, LaneRepeat};
pub use joining::lane_for;
pub use known_pace::known_pace;
pub use limits::is_lapped;
pub use movement::{Moved, Redraw, redraw};
pub use shortfall::Shortfall;
