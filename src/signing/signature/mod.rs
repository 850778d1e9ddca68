//! Signing an envelope and checking the signature on one.

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use hmac::{Hmac, KeyInit, Mac};
use jiff::Timestamp;
use sha2::Sha256;

use super::Secret;

/// How far the sender's clock may be from ours, either way, in seconds. The
/// specification leaves the figure open; its libraries use five minutes.
pub const TOLERANCE: u64 = 300;

/// What marks a signature of this version in the list of them.
const VERSION: &str = "v1";

/// A message with what its three headers say.
#[derive(Debug, Clone, Copy)]
pub struct Envelope<'a> {
    /// `webhook-id`.
    pub id: &'a [u8],
    /// `webhook-timestamp`: Unix seconds in digits.
    pub timestamp: &'a str,
    /// `webhook-signature`: one or more, separated by spaces.
    pub signatures: &'a str,
    /// The body, byte for byte as it was sent.
    pub body: &'a [u8],
}

/// Why a message is not taken for the sender's.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum NotSigned {
    /// The timestamp is no number of seconds.
    #[error("webhook-timestamp is no number of seconds")]
    Timestamp,
    /// The timestamp is too far from our clock.
    #[error("webhook-timestamp is more than 5 minutes from the server's clock")]
    Tolerance,
    /// No signature holds.
    #[error("no signature holds")]
    Signature,
}

/// The `webhook-signature` for a message sent at `at`, which is cut to the
/// whole second.
///
/// The caller sends `at` as `webhook-timestamp` and `body` byte for byte.
pub fn sign(secret: &Secret, id: &[u8], at: Timestamp, body: &[u8]) -> String {
    let timestamp = at.as_second().to_string();
    let tag = tagged(keyed(secret), id, &timestamp, body).finalize().into_bytes();
    format!("{VERSION},{}", STANDARD.encode(tag))
}

/// Checks that one of the signatures was made with one of the secrets over
/// this id, timestamp and body, no more than [`TOLERANCE`] from `now`.
///
/// Signatures of other versions are passed over. Each comparison takes the
/// same time wherever it fails.
///
/// # Errors
/// None holds, or the timestamp is too far off or no number.
pub fn verify(
    secrets: &[Secret],
    envelope: &Envelope<'_>,
    now: Timestamp,
) -> Result<(), NotSigned> {
    if envelope.timestamp.is_empty()
        || !envelope.timestamp.bytes().all(|byte| byte.is_ascii_digit())
    {
        return Err(NotSigned::Timestamp);
    }
    let sent: i64 = envelope.timestamp.parse().map_err(|_| NotSigned::Timestamp)?;
    if sent.abs_diff(now.as_second()) > TOLERANCE {
        return Err(NotSigned::Tolerance);
    }
    let holds = secrets.iter().any(|secret| {
        let mac = tagged(keyed(secret), envelope.id, envelope.timestamp, envelope.body);
        candidates(envelope.signatures).any(|tag| mac.clone().verify_slice(&tag).is_ok())
    });
    if holds { Ok(()) } else { Err(NotSigned::Signature) }
}

/// The decoded signatures of our version.
fn candidates(signatures: &str) -> impl Iterator<Item = Vec<u8>> {
    signatures.split(' ').filter_map(|entry| {
        let (version, encoded) = entry.split_once(',')?;
        if version == VERSION { STANDARD.decode(encoded).ok() } else { None }
    })
}

/// An empty code under this key.
#[expect(clippy::expect_used, reason = "HMAC takes keys of every length, RFC 2104 section 2")]
fn keyed(secret: &Secret) -> Hmac<Sha256> {
    Hmac::new_from_slice(secret.key()).expect("a key of any length")
}

/// The code with the signed bytes in it: `id.timestamp.body`.
fn tagged(mut mac: Hmac<Sha256>, id: &[u8], timestamp: &str, body: &[u8]) -> Hmac<Sha256> {
    for piece in [id, b".", timestamp.as_bytes(), b".", body] {
        mac.update(piece);
    }
    mac
}

#[cfg(test)]
mod tests;
