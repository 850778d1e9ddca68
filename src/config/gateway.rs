//! `[[gateway]]`: a plain gateway, how its texts come in and how ours go out.

use std::num::NonZeroU32;
use std::str::FromStr;

use super::table::Table;
use crate::hidden::Hidden;
use crate::http::{FieldNames, PlainToken};
use crate::outbox::{Destination, Format, Gateway, Part, Template, Value};

/// What a refusal says to someone who has opted out with the gateway, unless
/// the file says otherwise. Ours.
const OPTED_OUT: [&str; 3] = ["opted out", "opted-out", "unsubscribed"];

/// What the addresses of phones begin with.
const PHONES: &str = "+";

/// One `[[gateway]]`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct GatewayConfig {
    /// Its name, for people and for telling its messages from another's.
    pub name: String,
    /// How its messages come in, if they do.
    pub take: Option<Take>,
    /// How letters go out by it, if they do.
    pub send: Option<SendBy>,
}

/// How messages come in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Take {
    /// The token in its URL.
    pub token: Hidden,
    /// What it calls its fields.
    pub fields: FieldNames,
    /// How many messages it may bring in a minute.
    pub limit: Option<NonZeroU32>,
}

/// How letters go out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SendBy {
    /// What the addresses begin with that go this way.
    pub to: String,
    /// Where they are brought.
    pub destination: Destination,
    /// In what form.
    pub gateway: Gateway,
}

impl GatewayConfig {
    /// Reads one; none where something it can't do without is missing.
    pub(super) fn read(table: &mut Table<'_, '_>) -> Option<GatewayConfig> {
        let name = table.word("name", name);
        let name = table.require("name", name);
        let fields = table.inside("fields", field_names).unwrap_or_default();
        let limit = table.value("limit");
        let given = table.has("token_env");
        let token = table.secret("token_env").filter(|token| {
            let fits = PlainToken::from_str(token.reveal());
            fits.map_err(|unfit| table.fault("token_env", unfit)).is_ok()
        });
        let take = token.map(|token| Take { token, fields, limit });
        let send = table.inside("send", SendBy::read);
        if !given && send.is_none() {
            table.fault("name", "a gateway takes texts (token_env) or sends them ([gateway.send])");
        }
        Some(GatewayConfig { name: name?, take, send: send.flatten() })
    }
}

impl SendBy {
    fn read(table: &mut Table<'_, '_>) -> Option<SendBy> {
        let allow_private = table.value("allow_private").unwrap_or_default();
        let limit = table.value("limit");
        let destination = table.word("url", |url| Destination::new(url, allow_private, limit));
        let destination = table.require("url", destination);
        let format = table.word("format", str::parse::<Format>).unwrap_or_default();
        let to: Option<String> = table.value("to");
        let opted_out: Option<Vec<String>> = table.value("opted_out");
        let opted_out = opted_out.unwrap_or_else(|| OPTED_OUT.map(str::to_owned).into());
        let authorization = table.secret("authorization_env");
        let mut fields: Vec<(String, Value)> = vec![];
        for (name, words) in table.words("fields") {
            match words.parse::<Template>() {
                Ok(template) => fields.push((name, Value::Template(template))),
                Err(unfit) => table.fault("fields", format_args!("{name}: {unfit}")),
            }
        }
        fields.extend(table.secrets("secrets").into_iter().map(|(n, w)| (n, Value::Secret(w))));
        let opted_out = opted_out.iter().map(|words| words.to_lowercase()).collect();
        let gateway = Gateway { format, fields, authorization, opted_out };
        for part in [Part::Text, Part::To] {
            let held = gateway.holds(part) || part == Part::To && gateway.holds(Part::Digits);
            if !held {
                table.fault("fields", format_args!("no field holds {part}"));
            }
        }
        let to = to.unwrap_or_else(|| PHONES.to_owned());
        Some(SendBy { to, destination: destination?, gateway })
    }
}

fn field_names(table: &mut Table<'_, '_>) -> FieldNames {
    let usual = FieldNames::default();
    FieldNames {
        from: table.value("from").unwrap_or(usual.from),
        text: table.value("text").unwrap_or(usual.text),
        id: table.value("id").unwrap_or(usual.id),
        room: table.value("room").unwrap_or(usual.room),
        charset: table.value("charset").unwrap_or(usual.charset),
    }
}

pub(super) fn name(word: &str) -> Result<String, &'static str> {
    let fits = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-';
    if (1..=32).contains(&word.len()) && word.chars().all(fits) {
        Ok(word.to_owned())
    } else {
        Err("a name is 1 to 32 of a-z, 0-9 and -")
    }
}
