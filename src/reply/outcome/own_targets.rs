//! The coach's own targets.

use crate::message::Name;
use crate::swim::even_pace::Target;

/// What a swimmer is to hold from now on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OwnTargetsReply {
    /// Who.
    pub who: Name,
    /// The coach's; none where all come from the test again.
    pub own: Vec<Target>,
    /// Those of the test, where they hold again.
    pub tested: Vec<Target>,
}
