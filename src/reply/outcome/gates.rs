//! What keeps somebody out of the water, and a result that came all the same.

use jiff::civil::Date;

use super::Outcome;
use crate::message::Name;

/// What keeps somebody out of the water, or at easy swimming.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Out {
    /// A stop: until the coach releases.
    Stopped,
    /// Illness, until they text that it is over.
    Ill,
    /// The clear days after illness: they swim from this day on.
    Clearing(Date),
}

/// A result that is stored and nothing more: no praise, no times to hold.
#[derive(Debug, Clone, PartialEq)]
pub struct KeptReply {
    /// Whose.
    pub who: Name,
    /// True if it is about someone other than the sender.
    pub other: bool,
    /// What keeps them out; none where the same text says so.
    pub out: Option<Out>,
    /// The result.
    pub result: Box<Outcome>,
}
