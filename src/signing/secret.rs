//! The key that both sides share.

use std::str::FromStr;

use base64::Engine;
use base64::engine::general_purpose::STANDARD;

/// What a secret begins with, so that it is known for one at sight.
const PREFIX: &str = "whsec_";

/// Bytes in a secret, by the specification.
const LENGTHS: std::ops::RangeInclusive<usize> = 24..=64;

/// Bytes in a secret we make: the length of the hash's output.
const MADE_LENGTH: usize = 32;

/// A signing key of 24 to 64 bytes, written `whsec_` and base64.
///
/// It has no `Debug`, so that no log line can show one.
#[derive(Clone)]
pub struct Secret(Vec<u8>);

/// Why a word is no secret. Never repeats the word.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum NotASecret {
    /// It doesn't begin with `whsec_`.
    #[error("a signing secret begins with `whsec_`")]
    Prefix,
    /// What follows is no base64.
    #[error("a signing secret is `whsec_` and base64; this is no base64")]
    Base64,
    /// Too short to be safe, or too long.
    #[error("a signing secret holds 24 to 64 bytes, not {0}")]
    Length(usize),
}

impl Secret {
    /// A new one, from the system's source of randomness.
    ///
    /// # Errors
    /// The system has none.
    pub fn generate() -> Result<Secret, getrandom::Error> {
        let mut bytes = vec![0; MADE_LENGTH];
        getrandom::fill(&mut bytes)?;
        Ok(Secret(bytes))
    }

    /// The secret as it is written down, for the file it is kept in.
    pub fn reveal(&self) -> String {
        format!("{PREFIX}{}", STANDARD.encode(&self.0))
    }

    /// The key itself.
    pub(super) fn key(&self) -> &[u8] {
        &self.0
    }
}

impl FromStr for Secret {
    type Err = NotASecret;

    fn from_str(word: &str) -> Result<Self, NotASecret> {
        let encoded = word.strip_prefix(PREFIX).ok_or(NotASecret::Prefix)?;
        let bytes = STANDARD.decode(encoded).map_err(|_| NotASecret::Base64)?;
        if !LENGTHS.contains(&bytes.len()) {
            return Err(NotASecret::Length(bytes.len()));
        }
        Ok(Secret(bytes))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn made_then_read_is_the_same_key() {
        let made = Secret::generate().unwrap();
        let read: Secret = made.reveal().parse().ok().unwrap();
        assert_eq!(read.key(), made.key());
        assert_ne!(made.key(), Secret::generate().unwrap().key());
    }

    #[test]
    fn other_words_are_no_secrets() {
        let of = |bytes: usize| format!("whsec_{}", STANDARD.encode(vec![7; bytes]));
        let refusal = |word: &str| word.parse::<Secret>().err();
        assert_eq!(refusal(""), Some(NotASecret::Prefix));
        assert_eq!(refusal(&of(24)["whsec_".len()..]), Some(NotASecret::Prefix));
        assert_eq!(refusal("whsec_not base64"), Some(NotASecret::Base64));
        assert_eq!(refusal("whsec_"), Some(NotASecret::Length(0)));
        assert_eq!(refusal(&of(23)), Some(NotASecret::Length(23)));
        assert_eq!(refusal(&of(65)), Some(NotASecret::Length(65)));
        assert_eq!(refusal(&of(24)), None);
        assert_eq!(refusal(&of(64)), None);
    }
}
