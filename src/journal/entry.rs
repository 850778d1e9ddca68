//! What goes into a journal and comes out of it: entries, where they stand, and
//! the parts of a snapshot. Knows nothing of how they are stored.

use std::fmt;

use jiff::Timestamp;
use sha2::{Digest, Sha256};

use crate::digest;

/// The channel of a key whose words were erased; its id is the digest that the
/// key had.
const ERASED: &str = "erased";

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

impl MessageKey {
    /// The key with its words gone: it still finds the entry that the message
    /// left, and nobody can read from it what the message was called.
    #[must_use]
    pub fn erased(&self) -> MessageKey {
        MessageKey { channel: ERASED.to_owned(), id: digest::hex(&self.digest()) }
    }

    /// Half of a SHA-256, so that nobody can make two ids that share one.
    pub(super) fn digest(&self) -> [u8; 16] {
        if let Some(digest) = self.erased_digest() {
            return digest;
        }
        let mut digest = Sha256::new();
        digest.update((self.channel.len() as u64).to_be_bytes());
        digest.update(self.channel.as_bytes());
        digest.update(self.id.as_bytes());
        first_half(digest)
    }

    fn erased_digest(&self) -> Option<[u8; 16]> {
        if self.channel != ERASED || self.id.len() != 32 {
            return None;
        }
        Some(u128::from_str_radix(&self.id, 16).ok()?.to_be_bytes())
    }
}

/// Names a stream: entries that add up to one state, in an order of their own.
/// A squad is one.
///
/// Up to 255 bytes long; an [append](crate::journal::Journal::append) to a
/// longer one fails.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct StreamId(pub String);

impl StreamId {
    /// The stream of all entries, of whatever stream: the log itself. An entry's
    /// number in it is its place. Nothing is appended to it by name.
    pub fn all() -> StreamId {
        StreamId(String::new())
    }

    /// What entries bear in place of the name in tables: names are long.
    pub(super) fn tag(&self) -> u64 {
        let digest = Sha256::digest(self.0.as_bytes());
        digest.first_chunk().map_or(0, |bytes| u64::from_le_bytes(*bytes))
    }
}

impl fmt::Display for StreamId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

/// What one message left behind.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    /// The state that it adds to.
    pub stream: StreamId,
    /// The key under which a repeat of the message finds this entry; `None` if
    /// the message had no id and is never recognised again.
    pub key: Option<MessageKey>,
    /// When it came, to the second.
    pub at: Timestamp,
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

/// What an entry is known by whatever becomes of its words: a digest of what was
/// first written there and of the mark before it, so that a history that was cut
/// or changed in any place does not fit together.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Default)]
pub struct Mark(pub [u8; 16]);

impl fmt::Debug for Mark {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&digest::hex(&self.0))
    }
}

/// How far a stream goes: how many entries it has, and the mark of the last.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Tip {
    /// The number of its last entry, counted from 1.
    pub number: u64,
    /// That entry's mark.
    pub mark: Mark,
}

/// An entry where it stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Placed {
    /// Its place in the log.
    pub place: Seq,
    /// The mark of the entry before it.
    pub before: Mark,
    /// Its number in its stream, and its mark.
    pub tip: Tip,
    /// The entry.
    pub entry: Entry,
}

/// One piece of a snapshot, say one swimmer's profile. A later checkpoint
/// replaces the part of the same name and leaves the others as they are.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Part {
    /// Names the part; 1 to 255 bytes.
    pub name: String,
    /// Opaque to the journal; up to 64 MiB. An empty one takes the part away.
    pub bytes: Vec<u8>,
}

/// The state that the entries of a stream up to a number added up to.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Snapshot {
    /// Everything up to and including the stream's entry of this number is in
    /// the parts; 0 before the first checkpoint.
    pub through: u64,
    /// All parts, ordered by name.
    pub parts: Vec<Part>,
}

/// The first half of a digest.
pub(super) fn first_half(digest: Sha256) -> [u8; 16] {
    let whole: [u8; 32] = digest.finalize().into();
    let mut half = [0; 16];
    half.copy_from_slice(&whole[..16]);
    half
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn channel_and_id_do_not_run_together() {
        let one = MessageKey { channel: "sms".into(), id: "1".into() };
        let two = MessageKey { channel: "sms1".into(), id: String::new() };
        assert_ne!(one.digest(), two.digest());
    }

    #[test]
    fn an_erased_key_leads_where_the_key_led() {
        let key = MessageKey { channel: "sms".into(), id: "gw-heron".into() };
        let erased = key.erased();
        assert_eq!(erased.digest(), key.digest());
        assert_eq!(erased.erased(), erased);
        assert!(!format!("{erased:?}").contains("heron"));
    }
}
