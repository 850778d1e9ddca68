//! `[[chat]]`: a chat server, how its messages come in and how people are
//! reached alone.

use super::gateway::name;
use super::table::Table;
use crate::hidden::Hidden;
use crate::http::PlainToken;
use crate::outbox::{Destination, Format, Gateway, Part, Template, Value};

/// What we are called where nothing is said.
const CALLED: &str = "lapwing";

/// One `[[chat]]`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ChatConfig {
    /// Its name, in our address and in those of its people.
    pub name: String,
    /// What we are called there.
    pub called: String,
    /// The token that comes with what is said in a room.
    pub token: Hidden,
    /// The token that comes with what is said to us alone.
    pub direct_token: Option<Hidden>,
    /// How people are reached alone, if they are.
    pub send: Option<ChatSend>,
}

/// How people of a chat are reached alone.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ChatSend {
    /// Its incoming webhook.
    pub destination: Destination,
    /// What is posted there.
    pub hook: Gateway,
}

impl ChatConfig {
    /// Reads one; none where something it can't do without is missing.
    pub(super) fn read(table: &mut Table<'_, '_>) -> Option<ChatConfig> {
        let word = table.word("name", name);
        let name = table.require("name", word);
        let called: Option<String> = table.value("called");
        let given = table.has("token_env");
        let token = token(table, "token_env");
        if !given {
            table.fault("token_env", "it is missing");
        }
        let direct_token = self::token(table, "direct_token_env");
        if direct_token.is_some() && direct_token == token {
            table.fault("direct_token_env", "it must be another than the room's");
        }
        let send = table.inside("send", ChatSend::read).flatten();
        let called = called.unwrap_or_else(|| CALLED.to_owned());
        Some(ChatConfig { name: name?, called, token: token?, direct_token, send })
    }
}

impl ChatSend {
    fn read(table: &mut Table<'_, '_>) -> Option<ChatSend> {
        let allow_private = table.value("allow_private").unwrap_or_default();
        let limit = table.value("limit");
        let destination = table.word("url", |url| Destination::new(url, allow_private, limit));
        let destination = table.require("url", destination);
        let mut fields: Vec<(String, Value)> = vec![];
        for (name, words) in table.words("fields") {
            match words.parse::<Template>() {
                Ok(template) => fields.push((name, Value::Template(template))),
                Err(unfit) => table.fault("fields", format_args!("{name}: {unfit}")),
            }
        }
        let hook = Gateway { format: Format::Json, fields, authorization: None, opted_out: vec![] };
        // Without it a webhook posts to a room what is for one alone.
        for part in [Part::Text, Part::Handle] {
            if !hook.holds(part) {
                table.fault("fields", format_args!("no field holds {part}"));
            }
        }
        Some(ChatSend { destination: destination?, hook })
    }
}

fn token(table: &mut Table<'_, '_>, field: &'static str) -> Option<Hidden> {
    table.secret(field).filter(|token| {
        let fits = token.reveal().parse::<PlainToken>();
        fits.map_err(|unfit| table.fault(field, unfit)).is_ok()
    })
}
