//! What goes into a journal and comes out of it: entries, their places, and
//! the parts of a snapshot. Knows nothing of how they are stored.

use std::fmt;

/// Names a message: the channel it came by, and its id there.
///
/// Each of the two may be up to 65,535 bytes long; an
/// [append](crate::journal::Journal::append) of a longer one fails.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct MessageKey {
    /// The way by which the message came; ids are unique within it.
    pub channel: String,
    /// The id that the channel gave it.
    pub id: String,
}

/// What one message left behind.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    /// The key under which a repeat of the message finds this entry; `None` if
    /// the message had no id and is never recognised again.
    pub key: Option<MessageKey>,
    /// Opaque to the journal; up to 64 MiB.
    pub body: Vec<u8>,
}

/// An entry's place in the log: 1, 2, 3 … without holes, in the order of the
/// calls that appended them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Seq(u64);

impl Seq {
    /// The place with this number, counted from 1.
    pub fn new(number: u64) -> Self {
        Self(number)
    }

    /// The number of the place, counted from 1.
    pub fn number(self) -> u64 {
        self.0
    }
}

impl fmt::Display for Seq {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

/// One piece of a snapshot, say one squad's profiles. A later checkpoint
/// replaces the part of the same name and leaves the others as they are.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Part {
    /// Names the part; 1 to 255 bytes.
    pub name: String,
    /// Opaque to the journal; up to 64 MiB. An empty part is kept too.
    pub bytes: Vec<u8>,
}

/// The state that the entries up to a place added up to.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Snapshot {
    /// Everything up to and including this place is in the parts; `None`
    /// before the first checkpoint.
    pub through: Option<Seq>,
    /// All parts, ordered by name.
    pub parts: Vec<Part>,
}
