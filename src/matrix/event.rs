//! What the events of a transaction say to us. Pure.

use jiff::Timestamp;
use serde_json::Value;

use super::Account;
use crate::message::{Addressed, addressed, is_bare_answer, without_name};
use crate::service::Body;

/// What an event is to us.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Heard {
    /// We are invited to this room.
    Invited { room: String },
    /// Who is in this room has changed.
    Moved { room: String },
    /// Something was said.
    Said(Said),
    /// Nothing that concerns us: our own words, another bot's, an edit, a
    /// reaction.
    Nothing,
}

/// Something said in a room.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Said {
    /// The event's id, which repeats are known by.
    pub id: String,
    pub room: String,
    pub sender: String,
    /// The event that begins the thread.
    pub thread: Option<String>,
    pub sent_at: Option<Timestamp>,
    pub words: Words,
}

/// The words of what was said.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Words {
    /// A text, and whether it mentions us by id.
    Text { text: String, mentions_us: bool },
    /// A picture, something encrypted: no text.
    NotText,
}

impl Heard {
    /// Reads an event; one that lacks a field concerns nobody.
    pub fn read(event: &Value, us: &Account) -> Heard {
        Heard::of(event, us).unwrap_or(Heard::Nothing)
    }

    fn of(event: &Value, us: &Account) -> Option<Heard> {
        let word = |name: &str| event.get(name).and_then(Value::as_str).map(str::to_owned);
        let (kind, room, sender) = (word("type")?, word("room_id")?, word("sender")?);
        let content = event.get("content")?;
        let is_us = |id: &str| id == us.user_id();
        match kind.as_str() {
            "m.room.member" => {
                let invited = content.get("membership")? == "invite";
                let ours = word("state_key").is_some_and(|id| is_us(&id));
                Some(if invited && ours { Heard::Invited { room } } else { Heard::Moved { room } })
            }
            "m.room.message" | "m.room.encrypted" if !is_us(&sender) => {
                let words = match kind.as_str() {
                    "m.room.encrypted" => Words::NotText,
                    _ => Words::of(content, us)?,
                };
                let relation = content.get("m.relates_to");
                let rel_type = relation.and_then(|one| one.get("rel_type")).and_then(Value::as_str);
                if rel_type == Some("m.replace") {
                    return None;
                }
                let root = relation.and_then(|one| one.get("event_id")).and_then(Value::as_str);
                let thread = root.filter(|_| rel_type == Some("m.thread")).map(str::to_owned);
                let sent_at = event.get("origin_server_ts").and_then(Value::as_i64);
                let sent_at = sent_at.and_then(|ms| Timestamp::from_millisecond(ms).ok());
                let id = word("event_id")?;
                Some(Heard::Said(Said { id, room, sender, thread, sent_at, words }))
            }
            _ => None,
        }
    }
}

impl Said {
    /// What was said to us, without our name; none where it is not for us.
    pub fn to_us(&self, us: &Account, alone: bool) -> Option<Body> {
        let Words::Text { text, mentions_us } = &self.words else {
            return alone.then(|| Body::NotText(vec![]));
        };
        let id = us.user_id();
        let called = [id.trim_start_matches('@'), &us.called, &us.localpart];
        let bare = called.iter().find_map(|name| without_name(text, name));
        let spoken = match bare {
            Some(bare) if bare.is_empty() => "help".to_owned(),
            Some(bare) => bare,
            None if alone || *mentions_us => text.clone(),
            None => match addressed(text, &us.called) {
                Addressed::Overheard => text.clone(),
                Addressed::ToUs(_) | Addressed::ToOthers => return None,
            },
        };
        Some(Body::Text(spoken))
    }

    /// The text where it may be no more than an answer, whoever it is said to.
    pub fn bare_answer(&self) -> Option<Body> {
        match &self.words {
            Words::Text { text, .. } if is_bare_answer(text) => Some(Body::Text(text.clone())),
            _ => None,
        }
    }
}

impl Words {
    fn of(content: &Value, us: &Account) -> Option<Words> {
        let word = |name: &str| content.get(name).and_then(Value::as_str);
        match word("msgtype")? {
            "m.text" => {
                let body = word("body")?;
                let is_reply = content.pointer("/m.relates_to/m.in_reply_to").is_some();
                let text = if is_reply { without_quote(body) } else { body };
                let id = us.user_id();
                let mentioned = content.pointer("/m.mentions/user_ids").and_then(Value::as_array);
                let mentions_us = mentioned.is_some_and(|all| all.iter().any(|one| *one == *id));
                Some(Words::Text { text: text.trim().to_owned(), mentions_us })
            }
            "m.image" | "m.audio" | "m.video" | "m.file" | "m.location" => Some(Words::NotText),
            // Notices are what bots say; whoever answers them talks in circles.
            _ => None,
        }
    }
}

/// A reply without the quoted lines that older clients put before it.
fn without_quote(body: &str) -> &str {
    match body.split_once("\n\n") {
        Some((quoted, rest)) if quoted.lines().all(|line| line.starts_with('>')) => rest,
        _ => body,
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;
    use crate::hidden::Hidden;

    fn us() -> Account {
        Account {
            localpart: "lapwing".into(),
            server: "localhost".into(),
            called: "Lapwing".into(),
            as_token: Hidden::new("a"),
            hs_token: Hidden::new("h"),
        }
    }

    fn message(sender: &str, content: Value) -> Value {
        json!({ "type": "m.room.message", "room_id": "!r:localhost", "sender": sender,
            "event_id": "$1", "origin_server_ts": 1_772_478_300_000_i64, "content": content })
    }

    fn text(body: &str) -> Value {
        message("@ann:localhost", json!({ "msgtype": "m.text", "body": body }))
    }

    fn to_us(event: &Value, alone: bool) -> Option<Body> {
        match Heard::read(event, &us()) {
            Heard::Said(said) => said.to_us(&us(), alone),
            _ => None,
        }
    }

    fn said(words: &str) -> Option<Body> {
        Some(Body::Text(words.to_owned()))
    }

    #[test]
    fn what_is_said_to_us_is_heard_without_our_name() {
        for body in ["lapwing next", "@lapwing:localhost: next", "Lapwing: next", "@lapwing next"] {
            assert_eq!(to_us(&text(body), false), said("next"), "{body}");
            assert_eq!(to_us(&text(body), true), said("next"), "{body}");
        }
        assert_eq!(to_us(&text("next"), false), None);
        assert_eq!(to_us(&text("next"), true), said("next"));
        assert_eq!(to_us(&text("lapwing"), false), said("help"));
        assert_eq!(to_us(&text("feeling dizzy"), false), said("feeling dizzy"));
        let mention = json!({ "msgtype": "m.text", "body": "next",
            "m.mentions": { "user_ids": ["@lapwing:localhost"] } });
        assert_eq!(to_us(&message("@ann:localhost", mention), false), said("next"));
    }

    #[test]
    fn our_own_words_notices_edits_and_reactions_are_nothing() {
        let own = message("@lapwing:localhost", json!({ "msgtype": "m.text", "body": "lapwing" }));
        let notice = message("@bot:localhost", json!({ "msgtype": "m.notice", "body": "lapwing" }));
        let edit = message(
            "@ann:localhost",
            json!({ "msgtype": "m.text", "body": "* lapwing next",
                "m.relates_to": { "rel_type": "m.replace", "event_id": "$0" } }),
        );
        let redacted = message("@ann:localhost", json!({}));
        let mut reaction = text("lapwing");
        reaction["type"] = json!("m.reaction");
        for event in [own, notice, edit, redacted, reaction, json!({}), json!(7)] {
            assert_eq!(Heard::read(&event, &us()), Heard::Nothing, "{event}");
        }
    }

    #[test]
    fn a_thread_is_kept_and_a_quote_is_not() {
        let threaded = message(
            "@ann:localhost",
            json!({ "msgtype": "m.text", "body": "lapwing next", "m.relates_to": {
                "rel_type": "m.thread", "event_id": "$0", "m.in_reply_to": { "event_id": "$0" } } }),
        );
        let Heard::Said(heard) = Heard::read(&threaded, &us()) else { panic!("nothing") };
        assert_eq!(heard.thread.as_deref(), Some("$0"));
        let reply = message(
            "@ann:localhost",
            json!({ "msgtype": "m.text", "body": "> <@bo:localhost> my chest pain\n\nlapwing next",
                "m.relates_to": { "m.in_reply_to": { "event_id": "$0" } } }),
        );
        assert_eq!(to_us(&reply, false), said("next"));
    }

    #[test]
    fn what_is_no_text_is_met_alone() {
        let picture = message("@ann:localhost", json!({ "msgtype": "m.image", "body": "p.png" }));
        let mut secret = text("");
        secret["type"] = json!("m.room.encrypted");
        for event in [picture, secret] {
            assert_eq!(to_us(&event, false), None);
            assert_eq!(to_us(&event, true), Some(Body::NotText(vec![])));
        }
    }

    #[test]
    fn an_invitation_of_ours_is_told_from_others_moving() {
        let member = |who: &str, membership: &str| {
            json!({ "type": "m.room.member", "room_id": "!r:localhost", "sender": "@ann:localhost",
                "state_key": who, "content": { "membership": membership } })
        };
        let room = "!r:localhost".to_owned();
        let invited = Heard::read(&member("@lapwing:localhost", "invite"), &us());
        assert_eq!(invited, Heard::Invited { room: room.clone() });
        for event in [member("@bo:localhost", "invite"), member("@lapwing:localhost", "join")] {
            assert_eq!(Heard::read(&event, &us()), Heard::Moved { room: room.clone() });
        }
    }
}
