//! Where letters are brought to.

use std::net::IpAddr;
use std::num::NonZeroU32;

use reqwest::Url;

use super::is_public;

/// Letters a minute that are brought at most if nothing is said: ten a second,
/// as much as a modem bank for texts takes. Ours.
const LIMIT: NonZeroU32 = NonZeroU32::new(600).unwrap();

/// An address for letters, and how it is to be treated.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Destination {
    /// The address.
    pub url: Url,
    /// Whether it may lie in a private network, or on this machine.
    pub allow_private: bool,
    /// How many letters a minute are brought there at most.
    pub per_minute: NonZeroU32,
}

/// Why letters can't be brought to an address. Never repeats it: it may hold a
/// token.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum NotADestination {
    /// It is no URL of this kind.
    #[error("the outbox's address is no http or https URL with a host")]
    Url,
    /// It names a machine inside a private network by its number.
    #[error(
        "the outbox's address is in a private network; `allow_private = true` under `[outbox]` allows that"
    )]
    Private,
}

impl Destination {
    /// The destination at this URL.
    ///
    /// # Errors
    /// It can't be one, or is a private address that is not allowed.
    pub fn new(
        url: &str,
        allow_private: bool,
        per_minute: Option<NonZeroU32>,
    ) -> Result<Destination, NotADestination> {
        let url: Url = url.parse().map_err(|_| NotADestination::Url)?;
        let host = url.host_str().filter(|host| !host.is_empty()).ok_or(NotADestination::Url)?;
        if !matches!(url.scheme(), "http" | "https") {
            return Err(NotADestination::Url);
        }
        // A number is never looked up as names are, so it is checked here.
        let number: Option<IpAddr> = host.trim_matches(['[', ']']).parse().ok();
        if !allow_private && number.is_some_and(|number| !is_public(number)) {
            return Err(NotADestination::Private);
        }
        Ok(Destination { allow_private, per_minute: per_minute.unwrap_or(LIMIT), url })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn private_numbers_are_refused_however_they_are_written() {
        let refused = |url| Destination::new(url, false, None).err();
        for url in [
            "http://127.0.0.1:8080/in",
            "http://10.0.0.5/",
            "http://2130706433/",
            "http://0x7f.1/",
            "http://[::1]/",
            "http://[::ffff:192.168.0.1]/",
            "http://169.254.169.254/latest",
        ] {
            assert_eq!(refused(url), Some(NotADestination::Private), "{url}");
            assert!(Destination::new(url, true, None).is_ok(), "{url}");
        }
        for url in ["", "gateway", "ftp://example.org/", "file:///etc/passwd", "http://"] {
            assert_eq!(refused(url), Some(NotADestination::Url), "{url}");
        }
        assert_eq!(refused("https://gateway.example.org/in?token=7"), None);
    }
}
