//! `[outbox]`: where texts to others than the sender are brought.

use std::num::NonZeroU32;

use super::table::Table;
use crate::outbox::Destination;

/// The file's `[outbox]`.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Outbox {
    /// The address; letters wait without one.
    pub url: Option<String>,
    /// Whether it may lie in a private network, or on this machine.
    pub allow_private: bool,
    /// How many letters a minute are brought there at most.
    pub limit: Option<NonZeroU32>,
}

impl Outbox {
    pub(super) fn read(table: &mut Table<'_, '_>) -> Outbox {
        let allow_private = table.value("allow_private").unwrap_or_default();
        let limit = table.value("limit");
        let url = table
            .word("url", |url| Destination::new(url, allow_private, limit).map(|_| url.to_owned()));
        Outbox { url, allow_private, limit }
    }
}
