//! What a chat server posts, in whichever of the known forms: a form or JSON,
//! flat or with a `message` inside, with whichever fields it has.
//!
//! The fields are those of three general-purpose open-source servers:
//! Mattermost (`server/public/model/outgoing_webhook.go`), Rocket.Chat
//! (`triggerHandler.ts`; `tmid` from memory), Zulip (`outgoing-webhooks.md`, its
//! own format and the one it borrowed).

use jiff::Timestamp;
use serde_json::{Map, Value};

use crate::digest;

/// Where a server says in which thread a message stands, and where the answer
/// says it.
const THREADS: [&str; 4] = ["tmid", "root_id", "thread_id", "thread_ts"];

/// From here on a number is a time in milliseconds: as seconds it would be the
/// year 5138.
const MILLISECONDS: i64 = 100_000_000_000;

/// A message as a chat server posts it. Everything but the token and the text
/// may be missing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Post {
    /// What shows that it comes from the server.
    pub token: String,
    /// The words, as typed.
    pub text: String,
    /// The sender, by an id that stays.
    pub user_id: Option<String>,
    /// The sender, by a name that may change.
    pub user_name: Option<String>,
    /// The room.
    pub channel: Option<String>,
    /// It was said to us alone.
    pub alone: bool,
    /// Why the server sends it: a word at its beginning, or that it mentions us.
    pub trigger: Option<String>,
    /// Not a person's.
    pub bot: bool,
    /// The thread, under the field's name.
    pub thread: Option<(&'static str, String)>,
    /// When it was sent.
    pub sent_at: Option<Timestamp>,
    id: Option<String>,
}

/// A field that nothing can be done without is missing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("`{0}` is missing")]
pub(super) struct Missing(&'static str);

impl Post {
    /// The message in the fields of a form.
    pub fn of_form(pairs: impl Iterator<Item = (String, String)>) -> Result<Post, Missing> {
        Post::of(pairs.map(|(name, value)| (name, Value::from(value))).collect())
    }

    /// The message in a JSON object.
    pub fn of(fields: Map<String, Value>) -> Result<Post, Missing> {
        let inner = fields.get("message").and_then(Value::as_object);
        let outer = |names: &[&str]| word(&fields, names);
        let inside = |names: &[&str]| inner.and_then(|message| word(message, names));
        let token = outer(&["token"]).ok_or(Missing("token"))?;
        let text = outer(&["text", "data"]).or_else(|| inside(&["content"]));
        let kind = inside(&["type"]);
        Ok(Post {
            token,
            text: text.ok_or(Missing("text"))?,
            user_id: outer(&["user_id"]).or_else(|| inside(&["sender_id"])),
            user_name: outer(&["user_name"]).or_else(|| inside(&["sender_full_name"])),
            channel: outer(&["channel_id", "channel_name"]).or_else(|| inside(&["stream_id"])),
            alone: kind.is_some_and(|kind| kind == "private" || kind == "direct"),
            trigger: outer(&["trigger_word", "trigger"]).filter(|word| !word.is_empty()),
            bot: is_of_a_bot(&fields),
            thread: THREADS.iter().find_map(|name| Some((*name, outer(&[name])?))),
            sent_at: outer(&["timestamp"]).or_else(|| inside(&["timestamp"])).and_then(instant),
            id: outer(&["post_id", "message_id"]).or_else(|| inside(&["id"])),
        })
    }

    /// What a repeat is known by: the server's id of the message, else a digest
    /// of who said what, where and when; none where it doesn't say when.
    pub fn id(&self) -> Option<String> {
        if let Some(id) = &self.id {
            return Some(format!("id-{}", digest::hex(&digest::of([id.as_str()]))));
        }
        let when = self.sent_at?.to_string();
        let who = self.user_id.as_deref().or(self.user_name.as_deref());
        let pieces = [self.channel.as_deref().unwrap_or_default(), who.unwrap_or_default(), &when];
        let all = pieces.into_iter().chain([self.text.as_str()]);
        Some(format!("said-{}", digest::hex(&digest::of(all))))
    }
}

/// Where servers mark what no person wrote: at the top, in the message or in its
/// properties. Beside those of the three servers above, from memory.
const BOTS: [&str; 7] =
    ["bot", "bot_id", "is_bot", "from_bot", "from_webhook", "sender_is_bot", "from_plugin"];

fn is_of_a_bot(fields: &Map<String, Value>) -> bool {
    let marked = |fields: &Map<String, Value>| {
        BOTS.iter().any(|name| fields.get(*name).is_some_and(is_truthy))
    };
    let inside = |name: &str| fields.get(name).and_then(Value::as_object);
    let message = inside("message");
    // An address of this form is given to bots alone.
    let sender = message.and_then(|message| word(message, &["sender_email"]));
    let sender = sender.or_else(|| word(fields, &["user_email", "sender_email"]));
    let by_address = sender.and_then(|address| Some(address.split_once('@')?.0.ends_with("-bot")));
    marked(fields)
        || message.is_some_and(marked)
        || ["props", "user"].into_iter().filter_map(inside).any(marked)
        || message.and_then(|one| one.get("props")?.as_object()).is_some_and(marked)
        || by_address == Some(true)
}

/// The first of these fields that holds a word or a number.
fn word(fields: &Map<String, Value>, names: &[&str]) -> Option<String> {
    names.iter().find_map(|name| match fields.get(*name)? {
        Value::String(word) if !word.is_empty() => Some(word.clone()),
        // An empty text is a text; other fields that are empty are missing.
        Value::String(word) if *name == "text" => Some(word.clone()),
        Value::Number(number) => Some(number.to_string()),
        _ => None,
    })
}

fn is_truthy(value: &Value) -> bool {
    match value {
        Value::Null => false,
        Value::Bool(is) => *is,
        Value::String(word) => !matches!(word.as_str(), "" | "false" | "0"),
        Value::Number(number) => number.as_f64() != Some(0.0),
        Value::Array(_) | Value::Object(_) => true,
    }
}

/// Seconds, milliseconds, or a date and time.
fn instant(word: String) -> Option<Timestamp> {
    match word.parse::<f64>() {
        Ok(number) if number.abs() < 1e15 => {
            let whole = number as i64;
            match whole.abs() < MILLISECONDS {
                true => Timestamp::from_second(whole).ok(),
                false => Timestamp::from_millisecond(whole).ok(),
            }
        }
        _ => word.parse().ok(),
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;

    fn of(value: Value) -> Result<Post, Missing> {
        Post::of(value.as_object().unwrap().clone())
    }

    #[test]
    fn only_token_and_text_are_needed() {
        let post = of(json!({ "token": "t", "text": "" })).unwrap();
        assert_eq!(
            (post.user_id.as_deref(), post.channel.as_deref(), post.bot),
            (None, None, false)
        );
        assert_eq!(post.id(), None);
        assert_eq!(of(json!({ "text": "next" })), Err(Missing("token")));
        assert_eq!(of(json!({ "token": "t", "text": null })), Err(Missing("text")));
    }

    #[test]
    fn a_time_is_read_in_each_servers_form() {
        let at = |when: Value| of(json!({ "token": "t", "text": "a", "timestamp": when }));
        let expected: Timestamp = "2026-03-02T19:05:00Z".parse().unwrap();
        for when in [
            json!("1772478300"),
            json!(1_772_478_300),
            json!(1_772_478_300_000_i64),
            json!("2026-03-02T19:05:00.000Z"),
            json!("1772478300.000200"),
        ] {
            assert_eq!(at(when.clone()).unwrap().sent_at, Some(expected), "{when}");
        }
        assert_eq!(at(json!("soon")).unwrap().sent_at, None);
        assert_eq!(at(json!({ "a": 1 })).unwrap().sent_at, None);
    }

    #[test]
    fn a_repeat_is_known_by_its_id_or_by_who_said_what_where_and_when() {
        let say = |more: Value| {
            let mut fields = json!({ "token": "t", "text": "next", "user_id": "u1" });
            let more = more.as_object().unwrap().clone();
            fields.as_object_mut().unwrap().extend(more);
            of(fields).unwrap().id()
        };
        assert_eq!(say(json!({ "post_id": "p1" })), say(json!({ "post_id": "p1", "text": "x" })));
        assert_ne!(say(json!({ "post_id": "p1" })), say(json!({ "post_id": "p2" })));
        let at = |second: i64| say(json!({ "timestamp": second, "channel_id": "c1" }));
        assert_eq!(at(1), at(1));
        assert_ne!(at(1), at(2));
        assert_ne!(at(1), say(json!({ "timestamp": 1, "channel_id": "c2" })));
    }

    #[test]
    fn what_a_bot_says_is_marked_in_any_form() {
        for (bot, is) in [
            (json!(false), false),
            (json!(null), false),
            (json!("false"), false),
            (json!(true), true),
            (json!({ "i": "bot" }), true),
            (json!("true"), true),
        ] {
            let post = of(json!({ "token": "t", "text": "a", "bot": bot })).unwrap();
            assert_eq!(post.bot, is, "{bot}");
        }
    }

    #[test]
    fn bots_are_known_by_whatever_mark() {
        let marked = |more: Value| {
            let mut fields = json!({ "token": "t", "text": "next" });
            fields.as_object_mut().unwrap().extend(more.as_object().unwrap().clone());
            of(fields).unwrap().bot
        };
        for mark in [
            json!({ "bot_id": "B1" }),
            json!({ "props": { "from_webhook": "true" } }),
            json!({ "user": { "is_bot": true } }),
            json!({ "message": { "sender_is_bot": true } }),
            json!({ "message": { "sender_email": "dusk-bot@chat.example.org" } }),
            json!({ "message": { "props": { "from_bot": "true" } } }),
        ] {
            assert!(marked(mark.clone()), "{mark}");
        }
        for person in [
            json!({ "bot_id": "" }),
            json!({ "message": { "sender_email": "ann@chat.example.org" } }),
            json!({ "user": { "is_bot": false } }),
        ] {
            assert!(!marked(person.clone()), "{person}");
        }
    }
}
