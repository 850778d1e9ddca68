//! Who is at the pool.

use crate::message::Name;
use jiff::civil::Date;

/// The register of a night as it stands.
#[derive(Debug, Clone, PartialEq, Eq)]
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
    /// The names of those who are there are asked for too.
    pub listed: bool,
    /// It is said in a room, so it names nobody.
    pub in_room: bool,
}
