//! Who we are on a homeserver.

use crate::hidden::Hidden;

/// Our account.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Account {
    /// The name before the colon.
    pub localpart: String,
    /// The homeserver's name, behind the colon.
    pub server: String,
    /// What we are called in rooms.
    pub called: String,
    /// What we show the homeserver.
    pub as_token: Hidden,
    /// What the homeserver shows us.
    pub hs_token: Hidden,
}

/// Words are no account's name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum NotAnAccount {
    /// No name before the colon.
    #[error("a user's name is made of a-z, 0-9 and . _ = - / +")]
    Localpart,
    /// No name behind it.
    #[error("a homeserver's name is a host, perhaps with a port")]
    Server,
}

impl Account {
    /// The whole id.
    pub fn user_id(&self) -> String {
        format!("@{}:{}", self.localpart, self.server)
    }

    /// A user's name (Matrix specification, appendices, "User Identifiers").
    ///
    /// # Errors
    /// It is none.
    pub fn localpart(word: &str) -> Result<String, NotAnAccount> {
        let fits = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || "._=-/+".contains(c);
        match !word.is_empty() && word.len() < 200 && word.chars().all(fits) {
            true => Ok(word.to_owned()),
            false => Err(NotAnAccount::Localpart),
        }
    }

    /// A homeserver's name (the same, "Server Name").
    ///
    /// # Errors
    /// It is none.
    pub fn server(word: &str) -> Result<String, NotAnAccount> {
        let fits = |c: char| c.is_ascii_alphanumeric() || ".-:[]".contains(c);
        match !word.is_empty() && word.len() < 230 && word.chars().all(fits) {
            true => Ok(word.to_owned()),
            false => Err(NotAnAccount::Server),
        }
    }
}
