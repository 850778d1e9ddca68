//! Someone for whom something is due.

use jiff::civil::Date;

use crate::message::Name;

/// Someone for whom something is due.
pub struct Whom {
    /// At which address.
    pub to: String,
    /// Which swimmer it is about, where it is about one.
    pub who: Option<Name>,
    /// Of which night, or due on which day.
    pub on: Date,
}
