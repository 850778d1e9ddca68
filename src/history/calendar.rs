//! Calendars that last: addresses under which what lies ahead can be had, until they
//! are shut or renewed.
//!
//! Knows of an address's token its digest alone.

use jiff::Timestamp;
use serde::{Deserialize, Serialize};

use super::{Squad, Touched};
use crate::message::Name;

/// A calendar that is open to one address.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct CalendarOpen {
    /// Whose it is.
    pub address: String,
    /// Whose own it is; none for the squad's.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub of: Option<Name>,
    /// The digest of its token.
    pub token: String,
    /// Since when.
    pub since: Timestamp,
}

impl Squad {
    /// The calendar that this digest opens.
    pub fn calendar_by(&self, token: &str) -> Option<&CalendarOpen> {
        self.calendars.iter().find(|open| open.token == token)
    }

    /// What is open to an address: of this swimmer, or of the squad.
    pub fn calendar_of(&self, address: &str, of: Option<&Name>) -> Option<&CalendarOpen> {
        self.calendars.iter().find(|open| open.address == address && open.of.as_ref() == of)
    }

    /// There is one at most of the same; a new one takes its place.
    pub(super) fn open_calendar(&mut self, open: CalendarOpen) -> Touched {
        self.shut_calendar(&open.address, open.of.as_ref());
        self.calendars.push(open);
        Touched::Head
    }

    pub(super) fn shut_calendar(&mut self, address: &str, of: Option<&Name>) -> Touched {
        self.calendars.retain(|open| open.address != address || open.of.as_ref() != of);
        Touched::Head
    }
}
