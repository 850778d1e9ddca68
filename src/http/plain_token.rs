//! The word in a plain gateway's URL that stands for a signature.

use std::str::FromStr;

use base64::Engine;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use sha2::{Digest, Sha256};
use subtle::ConstantTimeEq;

/// Bytes of randomness in a token we make.
const MADE_LENGTH: usize = 24;

/// Fewer characters than this can be guessed (ours: 16 random letters are more than
/// anybody can try).
const SAFE_LENGTH: usize = 16;

/// A token. It has no `Debug`, so that no log line can show one.
#[derive(Clone)]
pub struct PlainToken(String);

/// Why a word is no token. Never repeats the word.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("a plain gateway's token is visible ASCII characters without `/`")]
pub struct NotAToken;

impl PlainToken {
    /// A new one, from the system's source of randomness, safe in a URL.
    ///
    /// # Errors
    /// The system has none.
    pub fn generate() -> Result<PlainToken, getrandom::Error> {
        let mut bytes = [0; MADE_LENGTH];
        getrandom::fill(&mut bytes)?;
        Ok(PlainToken(URL_SAFE_NO_PAD.encode(bytes)))
    }

    /// The token as it stands in the URL.
    pub fn reveal(&self) -> &str {
        &self.0
    }

    /// True if it is so short that it might be guessed.
    pub fn is_short(&self) -> bool {
        self.0.len() < SAFE_LENGTH
    }

    /// Whether this is the token, in a time that doesn't tell where they
    /// differ: digests of one length are compared.
    pub fn is(&self, word: &str) -> bool {
        Sha256::digest(&self.0).ct_eq(&Sha256::digest(word)).into()
    }
}

impl FromStr for PlainToken {
    type Err = NotAToken;

    fn from_str(word: &str) -> Result<Self, NotAToken> {
        let fits = |byte: u8| byte.is_ascii_graphic() && byte != b'/';
        if word.is_empty() || !word.bytes().all(fits) {
            return Err(NotAToken);
        }
        Ok(PlainToken(word.to_owned()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_the_token_is_the_token() {
        let token: PlainToken = "heron-7".parse().ok().unwrap();
        assert!(token.is("heron-7"));
        for word in ["", "heron-", "heron-77", "Heron-7"] {
            assert!(!token.is(word), "{word}");
        }
        let made = PlainToken::generate().unwrap();
        assert!(made.is(made.reveal()) && !token.is(made.reveal()));
        assert!(made.reveal().parse::<PlainToken>().is_ok());
        assert!("".parse::<PlainToken>().is_err() && "a/b".parse::<PlainToken>().is_err());
    }
}
