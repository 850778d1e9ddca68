//! Which record of the store lies under which key.
//!
//! One named tree, told apart by the first byte of the key:
//!
//! | key | record |
//! | --- | --- |
//! | `e` seq piece | entries: those that fit together from `seq` on, or one piece of a long one |
//! | `f` | the format of the journal, written once |
//! | `i` digest | the place of the entry that the message with this key left |
//! | `m` | through which place the snapshot goes |
//! | `p` length name piece | one piece of a part of the snapshot |
//!
//! Numbers are big-endian so that the order of keys is the order of the log.
//! Knows nothing of what the records hold.

use sha2::{Digest, Sha256};

use super::MessageKey;

/// The one tree that holds everything. The store's unnamed tree is left
/// alone: it doesn't survive a move to the store's next version.
pub(super) const TREE: &str = "journal";

/// Where the format lies.
pub(super) const FORMAT: &[u8] = b"f";

/// Where the reach of the snapshot lies.
pub(super) const THROUGH: &[u8] = b"m";

/// What every key of an entry begins with.
pub(super) const ENTRIES: &[u8] = b"e";

/// What every key of a snapshot's part begins with.
pub(super) const PARTS: &[u8] = b"p";

/// What every key of the index begins with.
pub(super) const INDEX: &[u8] = b"i";

/// The channel of a key whose words were erased; its id is the digest that the
/// key had in the index.
pub(super) const ERASED: &str = "erased";

/// The key of piece `piece` of the entries from `seq` on.
pub(super) fn entry_key(seq: u64, piece: u32) -> [u8; 13] {
    let mut key = [0; 13];
    key[0] = ENTRIES[0];
    key[1..9].copy_from_slice(&seq.to_be_bytes());
    key[9..].copy_from_slice(&piece.to_be_bytes());
    key
}

/// The place and piece of an entry's key, or `None` if it is no such key.
pub(super) fn entry_place(key: &[u8]) -> Option<(u64, u32)> {
    let rest = key.strip_prefix(ENTRIES)?;
    let (seq, rest) = rest.split_first_chunk::<8>()?;
    let piece = <[u8; 4]>::try_from(rest).ok()?;
    Some((u64::from_be_bytes(*seq), u32::from_be_bytes(piece)))
}

/// The index key of a message: half of a SHA-256, so that index records are
/// small and of one size, yet nobody can make two ids that share one.
pub(super) fn index_key(message: &MessageKey) -> [u8; 17] {
    if let Some(key) = erased_key(message) {
        return key;
    }
    let mut digest = Sha256::new();
    digest.update((message.channel.len() as u64).to_be_bytes());
    digest.update(message.channel.as_bytes());
    digest.update(message.id.as_bytes());
    let mut key = [0; 17];
    key[0] = INDEX[0];
    key[1..].copy_from_slice(&digest.finalize()[..16]);
    key
}

/// The index key of a message whose own key was erased.
fn erased_key(message: &MessageKey) -> Option<[u8; 17]> {
    if message.channel != ERASED || message.id.len() != 32 {
        return None;
    }
    let digest = u128::from_str_radix(&message.id, 16).ok()?;
    let mut key = [0; 17];
    key[0] = INDEX[0];
    key[1..].copy_from_slice(&digest.to_be_bytes());
    Some(key)
}

/// The key of piece `piece` of the part called `name` (at most 255 bytes).
pub(super) fn part_key(name: &str, piece: u32) -> Vec<u8> {
    let mut key = part_prefix(name);
    key.extend_from_slice(&piece.to_be_bytes());
    key
}

/// What the keys of all pieces of a part begin with, and no other part's.
pub(super) fn part_prefix(name: &str) -> Vec<u8> {
    let mut key = Vec::with_capacity(PARTS.len() + 1 + name.len() + 4);
    key.extend_from_slice(PARTS);
    // The caller has checked the length; a longer name would only be misfiled.
    key.push(u8::try_from(name.len()).unwrap_or(u8::MAX));
    key.extend_from_slice(name.as_bytes());
    key
}

/// The name and piece of a part's key, or `None` if it is no such key.
pub(super) fn part_place(key: &[u8]) -> Option<(&str, u32)> {
    let (&length, rest) = key.strip_prefix(PARTS)?.split_first()?;
    let (name, piece) = rest.split_at_checked(usize::from(length))?;
    let piece = <[u8; 4]>::try_from(piece).ok()?;
    Some((std::str::from_utf8(name).ok()?, u32::from_be_bytes(piece)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_of_entries_sort_as_the_log() {
        let order = [
            entry_key(1, 0),
            entry_key(1, 1),
            entry_key(2, 0),
            entry_key(256, 0),
            entry_key(u64::MAX, 0),
        ];
        assert!(order.is_sorted());
        assert_eq!(entry_place(&order[1]), Some((1, 1)));
    }

    #[test]
    fn channel_and_id_do_not_run_together() {
        let one = MessageKey { channel: "sms".into(), id: "1".into() };
        let two = MessageKey { channel: "sms1".into(), id: String::new() };
        assert_ne!(index_key(&one), index_key(&two));
    }

    #[test]
    fn an_erased_key_leads_where_the_key_led() {
        let key = MessageKey { channel: "sms".into(), id: "gw-heron".into() };
        let erased = key.erased();
        assert_eq!(index_key(&erased), index_key(&key));
        assert_eq!(erased.erased(), erased);
        assert!(!format!("{erased:?}").contains("heron"));
    }

    #[test]
    fn a_part_is_no_prefix_of_another() {
        assert!(!part_key("squad-10", 0).starts_with(&part_prefix("squad-1")));
        assert_eq!(part_place(&part_key("squad-1", 7)), Some(("squad-1", 7)));
    }
}
