//! The file by which a homeserver gets to know us.

use super::Account;

/// The registration, as YAML: what `app_service_config_files` names. Holds both
/// tokens.
pub fn registration(account: &Account, url: &str) -> String {
    let Account { localpart, as_token, hs_token, .. } = account;
    let quoted = |word: &str| format!("'{}'", word.replace('\'', "''"));
    format!(
        "id: {id}\nurl: {url}\nas_token: {as_token}\nhs_token: {hs_token}\n\
         sender_localpart: {id}\nrate_limited: false\nnamespaces:\n  users:\n    - exclusive: true\n      \
         regex: {regex}\n  aliases: []\n  rooms: []\n",
        id = quoted(localpart),
        url = quoted(url),
        as_token = quoted(as_token.reveal()),
        hs_token = quoted(hs_token.reveal()),
        regex = quoted(&exact(&account.user_id())),
    )
}

/// A pattern for exactly this id.
fn exact(id: &str) -> String {
    let letter = |c: char| match c.is_ascii_alphanumeric() {
        true => c.to_string(),
        false => format!("\\{c}"),
    };
    format!("^{}$", id.chars().map(letter).collect::<String>())
}
