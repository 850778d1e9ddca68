//! What somebody can't or may not do.

use jiff::civil::Date;

use crate::message::Name;
use crate::session::Limit;
use crate::units::Equipment;

/// What holds from now on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LimitsReply {
    /// Of whom, where it is not the sender.
    pub who: Option<Name>,
    /// Of the whole squad.
    pub all: bool,
    /// What is left out.
    pub limits: Vec<Limit>,
    /// All the kit there is, where that was said.
    pub kit: Option<Vec<Equipment>>,
    /// The night whose set, put before that, changes with it.
    pub set_changed: Option<Date>,
}
