//! `[matrix]`: the homeserver that we are an application service of.

use super::table::Table;
use crate::matrix::Account;
use crate::outbox::Destination;

/// Our account's name where nothing is said.
const LOCALPART: &str = "lapwing";

/// The file's `[matrix]`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MatrixConfig {
    /// Where the homeserver's client API is.
    pub destination: Destination,
    /// Who we are there.
    pub account: Account,
}

impl MatrixConfig {
    /// Reads it; none where something it can't do without is missing.
    pub(super) fn read(table: &mut Table<'_, '_>) -> Option<MatrixConfig> {
        let allow_private = table.value("allow_private").unwrap_or_default();
        let limit = table.value("limit");
        let destination =
            table.word("homeserver", |url| Destination::new(url, allow_private, limit));
        let destination = table.require("homeserver", destination);
        let server = table.word("server_name", Account::server);
        let server = table.require("server_name", server);
        let localpart = table.word("user", Account::localpart);
        let localpart = localpart.unwrap_or_else(|| LOCALPART.to_owned());
        let called: Option<String> = table.value("called");
        for name in ["as_token_env", "hs_token_env"] {
            if !table.has(name) {
                table.fault(name, "it is missing");
            }
        }
        let as_token = table.secret("as_token_env");
        let hs_token = table.secret("hs_token_env");
        if as_token.is_some() && as_token == hs_token {
            table.fault("hs_token_env", "it must be another than the other way's");
        }
        let account = Account {
            called: called.unwrap_or_else(|| localpart.clone()),
            localpart,
            server: server?,
            as_token: as_token?,
            hs_token: hs_token?,
        };
        Some(MatrixConfig { destination: destination?, account })
    }
}
