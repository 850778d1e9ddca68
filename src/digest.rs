//! Digests of words, and bytes as digits.
//!
//! Pure; knows nothing of what they stand for.

use sha2::{Digest, Sha256};

/// The SHA-256 of several pieces, each behind its length, so that no two lists
/// of pieces run together to the same bytes.
pub fn of<'a>(pieces: impl IntoIterator<Item = &'a str>) -> [u8; 32] {
    let mut digest = Sha256::new();
    for piece in pieces {
        digest.update((piece.len() as u64).to_be_bytes());
        digest.update(piece.as_bytes());
    }
    digest.finalize().into()
}

/// Bytes as digits, two a byte, in lower case.
///
/// ```
/// assert_eq!(lapwing::digest::hex(&[0, 0xa5]), "00a5");
/// ```
pub fn hex(bytes: &[u8]) -> String {
    let halves = bytes.iter().flat_map(|byte| [byte >> 4, byte & 15]);
    halves.filter_map(|half| char::from_digit(half.into(), 16)).collect()
}
