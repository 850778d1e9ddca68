//! The lanes of a night.

use crate::coaching::lanes::{LaneDrawn, Moved, OneMove, Shortfall};
use crate::message::Name;
use jiff::civil::Date;

/// Lanes drawn for a night.
#[derive(Debug, Clone, PartialEq)]
pub struct LanesReply {
    /// The night.
    pub on: Date,
    /// Every lane, lane 1 first.
    pub lanes: Vec<LaneDrawn>,
    /// Who changes lanes against the last drawing.
    pub moved: Vec<Moved>,
    /// Limits and wishes that could not be kept, and what was given way in.
    pub relaxed: Vec<Shortfall>,
    /// The one move worth making, where lanes were kept as they stood.
    pub advice: Option<OneMove>,
    /// Those who are there and in no lane: a stop is open.
    pub stopped: Vec<Name>,
    /// Those who are there and in no lane: ill, or done for today.
    pub done: Vec<Name>,
    /// Those in a lane for whom something is open.
    pub careful: Vec<Name>,
    /// What the coach wants those in a lane to think of, lane by lane.
    pub focus: Vec<(Name, String)>,
}
