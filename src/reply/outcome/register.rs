//! Who is at the pool, and who comes.

use super::LanesChangedReply;
use crate::message::Name;
use jiff::civil::{Date, Time};

/// Someone said whether they come.
#[derive(Debug, Clone, PartialEq)]
pub struct AttendReply {
    /// Who, where it is another than the sender.
    pub who: Option<Name>,
    /// To which night.
    pub on: Date,
    /// They come.
    pub coming: bool,
    /// Minutes after the start.
    pub late_min: Option<u16>,
    /// They come perhaps.
    pub perhaps: bool,
    /// When they go, where it is before the end.
    pub leaves: Option<Time>,
    /// What became of the lanes.
    pub lanes: Option<Box<LanesChangedReply>>,
}

/// Who comes on a night.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NightReply {
    /// The night.
    pub on: Date,
    /// Those who said they come, with their minutes late.
    pub coming: Vec<(Name, Option<u16>)>,
    /// Those who come perhaps.
    pub perhaps: Vec<Name>,
    /// Those who don't come.
    pub out: Vec<Name>,
    /// Those who said nothing.
    pub unsaid: Vec<Name>,
}

/// The register of a night as it stands.
#[derive(Debug, Clone, PartialEq)]
pub struct RegisterReply {
    /// The night.
    pub on: Date,
    /// Those who are there.
    pub here: Vec<Name>,
    /// Those who were looked for and are not.
    pub absent: Vec<Name>,
    /// Those to look for who are not marked yet.
    pub unmarked: Vec<Name>,
    /// Those who are there and must not swim.
    pub stopped: Vec<Name>,
    /// Those whom "all" did not mean: they said they don't come, are away, ill or
    /// stopped.
    pub left_out: Vec<Name>,
    /// The names of those who are there are asked for too.
    pub listed: bool,
    /// What became of the lanes.
    pub lanes: Option<Box<LanesChangedReply>>,
}
