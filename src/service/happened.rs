//! What of an entry a squad is folded from. Of a message that is what happened: its words
//! and its answer are passed over, which are most of what is stored, and to make them anew
//! is most of what reading a long log would cost.

use std::borrow::Cow;

use jiff::Timestamp;
use serde::Deserialize;
use serde::de::IgnoredAny;

use super::letter::{self, Logged};
use super::record::{Record, RecordError, known_version};
use super::{Body, Via};
use crate::history::{Called, Event, SquadId, Stamped};
use crate::journal::Part;

/// What an entry tells of its squad.
pub(super) enum Happened {
    /// What a message brought about.
    Message(Told),
    /// What the squad's entries up to here add up to.
    Stated(Vec<Part>),
    /// Nothing: it is about a letter.
    Nothing,
}

/// What a message brought about.
pub(super) struct Told {
    /// Its number within the squad.
    pub cause: u64,
    /// The sender.
    pub from: String,
    /// What counted as now.
    pub now: Timestamp,
    /// What happened.
    pub events: Vec<Event>,
}

/// A record as it is stored. All of it is looked at, so that whatever could not be read as
/// a [`Record`] can't be read as this either.
#[derive(Deserialize)]
struct Stored<'a> {
    v: u32,
    #[serde(rename = "squad")]
    _squad: Option<SquadId>,
    cause: u64,
    from: String,
    #[serde(rename = "room")]
    _room: Option<String>,
    #[serde(rename = "body")]
    _body: Body,
    #[serde(rename = "sent_at")]
    _sent_at: Option<Timestamp>,
    #[serde(rename = "received")]
    _received: Timestamp,
    now: Timestamp,
    events: Vec<Event>,
    #[serde(rename = "replies", borrow)]
    _replies: Vec<Said<'a>>,
    #[serde(rename = "understood")]
    _understood: Vec<IgnoredAny>,
    #[serde(rename = "result")]
    _result: IgnoredAny,
    #[serde(default, rename = "handle")]
    _handle: Option<String>,
    #[serde(default, rename = "gone")]
    _gone: Vec<String>,
}

/// One thing that was said.
#[derive(Deserialize)]
struct Said<'a> {
    #[serde(rename = "to", borrow)]
    _to: Cow<'a, str>,
    #[serde(default, rename = "room")]
    _room: Option<String>,
    #[serde(default, rename = "thread")]
    _thread: Option<String>,
    #[serde(default, rename = "due")]
    _due: Option<Timestamp>,
    #[serde(default, rename = "alarm")]
    _alarm: Option<Called>,
    #[serde(rename = "via")]
    _via: Via,
    #[serde(rename = "text", borrow)]
    _text: Cow<'a, str>,
}

impl Happened {
    /// What these bytes tell of their squad.
    ///
    /// # Errors
    /// They can't be read.
    pub fn read(bytes: &[u8]) -> Result<Self, RecordError> {
        if letter::is_no_message(bytes) {
            return Logged::read(bytes).map(Happened::from);
        }
        let Stored { v, cause, from, now, events, .. } = serde_json::from_slice(bytes)?;
        known_version(v)?;
        Ok(Happened::Message(Told { cause, from, now, events }))
    }
}

impl From<Logged> for Happened {
    fn from(logged: Logged) -> Self {
        match logged {
            Logged::Message(record) => {
                let Record { cause, from, now, events, .. } = *record;
                Happened::Message(Told { cause, from, now, events })
            }
            Logged::Stated(parts) => Happened::Stated(parts),
            Logged::Letter(_) => Happened::Nothing,
        }
    }
}

impl Told {
    /// What happened, each with its number, its instant and its sender.
    pub fn stamped(self) -> impl Iterator<Item = Stamped> {
        let Told { cause, from, now: at, events } = self;
        events.into_iter().map(move |event| Stamped { cause, at, by: from.clone(), event })
    }
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use super::*;
    use crate::service::speaking::tests::letter_to;

    fn record() -> Record {
        Record {
            body: Body::Text("200 test 3:12".into()),
            events: vec![Event::OptedIn { address: "heron".into() }],
            replies: vec![letter_to("coach", Some(Called::Deck))],
            understood: vec![json!({ "kind": "test" })],
            result: json!({ "kind": "test", "targets": [1, 2] }),
            ..Record::unsaid(Some(SquadId("dusk".into())), 7, "heron", Timestamp::UNIX_EPOCH)
        }
    }

    #[test]
    fn what_happened_is_what_the_record_tells() {
        let record = record();
        let Happened::Message(told) = Happened::read(&record.write().unwrap()).unwrap() else {
            panic!("it is a message")
        };
        let stamped: Vec<Stamped> = record.stamped().collect();
        assert_eq!(told.stamped().collect::<Vec<_>>(), stamped);
    }

    /// Whatever is wrong with a record is wrong with what is read of it.
    #[test]
    fn what_is_no_record_tells_nothing() {
        let whole = serde_json::from_slice::<Value>(&record().write().unwrap()).unwrap();
        let read = |value: &Value| {
            let bytes = value.to_string().into_bytes();
            (Record::read(&bytes).is_ok(), Happened::read(&bytes).is_ok())
        };
        assert_eq!(read(&whole), (true, true));
        let wrong = [json!(null), json!(2), json!("x"), json!([2]), json!({}), json!([{}])];
        let names: Vec<String> = whole.as_object().unwrap().keys().cloned().collect();
        for name in &names {
            let mut without = whole.clone();
            without.as_object_mut().unwrap().remove(name);
            let (record, happened) = read(&without);
            assert_eq!(record, happened, "without {name}");
            for value in &wrong {
                let mut changed = whole.clone();
                changed[name] = value.clone();
                let (record, happened) = read(&changed);
                assert_eq!(record, happened, "{name}: {value}");
            }
        }
        let said: Vec<String> = whole["replies"][0].as_object().unwrap().keys().cloned().collect();
        for (name, value) in said.iter().flat_map(|name| wrong.iter().map(move |v| (name, v))) {
            let mut changed = whole.clone();
            changed["replies"][0][name] = value.clone();
            let (record, happened) = read(&changed);
            assert_eq!(record, happened, "a reply's {name}: {value}");
        }
    }
}
