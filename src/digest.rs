//! Digests of words, and bytes as digits.
//!
//! Pure; knows nothing of what they stand for.

use std::fmt::Write;

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
    bytes.iter().fold(String::with_capacity(bytes.len() * 2), |mut digits, byte| {
        // Writing to a string can't fail.
        let _ = write!(digits, "{byte:02x}");
        digits
    })
}
