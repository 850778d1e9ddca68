//! One message and all it left, as the journal keeps it.

use jiff::Timestamp;
use serde::{Deserialize, Serialize};
use serde_json::Value;

use super::told::{Told, write_open};
use super::{Answer, Body, Spoken, streams};
use crate::history::{Event, SquadId, Stamped};
use crate::journal::StreamId;

/// The version of [`Record`] that this program writes.
const VERSION: u32 = 1;
/// Most records are no longer than so many bytes.
const LIKELY: usize = 4096;

/// One message and all it left: the body of a journal entry.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[cfg_attr(test, derive(Serialize))]
pub(super) struct Record {
    /// Its own version.
    pub v: u32,
    /// The squad it changed; none for strangers.
    pub squad: Option<SquadId>,
    /// Its number within the squad.
    pub cause: u64,
    /// The sender.
    pub from: String,
    /// The room it was said in.
    pub room: Option<String>,
    /// What was said, as it came.
    pub body: Body,
    /// When the sender says it was sent.
    pub sent_at: Option<Timestamp>,
    /// When it came.
    pub received: Timestamp,
    /// What counted as now.
    pub now: Timestamp,
    /// What happened.
    pub events: Vec<Event>,
    /// What was said; its words stand once, uncut.
    #[serde(with = "uncut")]
    pub replies: Vec<Spoken>,
    /// What was read.
    pub understood: Vec<Value>,
    /// What it came to.
    pub result: Value,
    /// What the channel calls the sender, where that is not the address.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub handle: Option<String>,
    /// Addresses that are no longer in the squad since.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub gone: Vec<String>,
}

/// Replies without the parts that their words are cut into: those are made again.
mod uncut {
    use std::borrow::Cow;

    use jiff::Timestamp;
    use serde::{Deserialize, Deserializer, Serialize, Serializer};

    use crate::history::Called;
    use crate::reply;
    use crate::service::{Spoken, Via};

    #[derive(Serialize, Deserialize)]
    struct Uncut<'a> {
        to: Cow<'a, str>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        room: Option<Cow<'a, str>>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        thread: Option<Cow<'a, str>>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        due: Option<Timestamp>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        alarm: Option<Called>,
        via: Via,
        text: Cow<'a, str>,
    }

    pub fn serialize<S: Serializer>(replies: &[Spoken], to: S) -> Result<S::Ok, S::Error> {
        to.collect_seq(replies.iter().map(|reply| Uncut {
            to: reply.to.as_str().into(),
            room: reply.room.as_deref().map(Cow::Borrowed),
            thread: reply.thread.as_deref().map(Cow::Borrowed),
            due: reply.due,
            alarm: reply.alarm,
            via: reply.via,
            text: reply.text.as_str().into(),
        }))
    }

    pub fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<Vec<Spoken>, D::Error> {
        let replies: Vec<Uncut<'static>> = Deserialize::deserialize(from)?;
        let cut = |reply: Uncut<'static>| {
            let text = reply.text.into_owned();
            // What was erased has no words, and no parts either.
            let parts = if text.is_empty() { Vec::new() } else { reply::segments(&text) };
            Spoken {
                to: reply.to.into_owned(),
                room: reply.room.map(Cow::into_owned),
                thread: reply.thread.map(Cow::into_owned),
                due: reply.due,
                alarm: reply.alarm,
                via: reply.via,
                parts,
                text,
            }
        };
        Ok(replies.into_iter().map(cut).collect())
    }
}

/// The record up to what was read, as it is written.
#[derive(Serialize)]
struct Head<'a> {
    v: u32,
    squad: Option<&'a SquadId>,
    cause: u64,
    from: &'a str,
    room: Option<&'a str>,
    body: &'a Body,
    sent_at: Option<Timestamp>,
    received: Timestamp,
    now: Timestamp,
    events: &'a [Event],
    #[serde(serialize_with = "uncut::serialize")]
    replies: &'a [Spoken],
}

/// A record that can't be read back.
#[derive(Debug, thiserror::Error)]
pub enum RecordError {
    /// It is no record at all.
    #[error("a stored message can't be read: {0}")]
    Damaged(#[from] serde_json::Error),
    /// A later program wrote it.
    #[error("a stored {what} is of version {found}, this program reads up to {known}")]
    Newer {
        /// What is stored.
        what: &'static str,
        /// Its version.
        found: u32,
        /// The latest version that this program reads.
        known: u32,
    },
}

/// Whether this program reads records of a version.
pub(super) fn known_version(found: u32) -> Result<(), RecordError> {
    match found > VERSION {
        true => Err(RecordError::Newer { what: "message", found, known: VERSION }),
        false => Ok(()),
    }
}

impl Record {
    /// A record of what no words brought about, to be filled in: message `cause`
    /// of the squad, if of one.
    pub fn unsaid(squad: Option<SquadId>, cause: u64, from: &str, now: Timestamp) -> Self {
        Record {
            v: VERSION,
            squad,
            cause,
            from: from.to_owned(),
            room: None,
            body: Body::Text(String::new()),
            sent_at: None,
            received: now,
            now,
            events: vec![],
            replies: vec![],
            understood: vec![],
            result: Value::Null,
            handle: None,
            gone: vec![],
        }
    }

    /// Where it belongs in the journal.
    pub fn stream(&self) -> StreamId {
        match &self.squad {
            Some(id) => streams::of_squad(id),
            None => streams::of_person(&self.from),
        }
    }

    /// What happened, each with its number, its instant and its sender.
    pub fn stamped(&self) -> impl Iterator<Item = Stamped> {
        self.events.iter().map(|event| Stamped {
            cause: self.cause,
            at: self.now,
            by: self.from.clone(),
            event: event.clone(),
        })
    }

    /// The record as bytes.
    pub fn write(&self) -> Result<Vec<u8>, RecordError> {
        self.write_told().map(|(bytes, _)| bytes)
    }

    /// The same, with what of it stands in the answer too.
    pub fn write_told(&self) -> Result<(Vec<u8>, Told), RecordError> {
        let Record { v, cause, sent_at, received, now, .. } = *self;
        let Record { squad, from, room, body, events, replies, understood, result, .. } = self;
        let mut bytes = Vec::with_capacity(LIKELY);
        let head = Head {
            v,
            squad: squad.as_ref(),
            cause,
            from,
            room: room.as_deref(),
            body,
            sent_at,
            received,
            now,
            events,
            replies,
        };
        write_open(&mut bytes, &head)?;
        let told = Told::write(&mut bytes, understood, result)?;
        if let Some(handle) = &self.handle {
            bytes.extend_from_slice(br#","handle":"#);
            serde_json::to_writer(&mut bytes, handle)?;
        }
        if !self.gone.is_empty() {
            bytes.extend_from_slice(br#","gone":"#);
            serde_json::to_writer(&mut bytes, &self.gone)?;
        }
        bytes.push(b'}');
        Ok((bytes, told))
    }

    /// The record that bytes hold.
    pub fn read(bytes: &[u8]) -> Result<Self, RecordError> {
        let record: Record = serde_json::from_slice(bytes)?;
        known_version(record.v)?;
        Ok(record)
    }

    /// The answer as it was given, marked as a duplicate. What was erased is
    /// left out, and what is left of it goes to whoever asks.
    pub fn answer_again(self, id: String, from: &str, room: Option<&str>) -> Answer {
        let mut replies = self.replies;
        if self.body == Body::Erased {
            replies.retain(|reply| !reply.text.is_empty());
            for reply in replies.iter_mut().filter(|reply| reply.to.is_empty()) {
                reply.to = from.to_owned();
                reply.room = room.map(str::to_owned);
            }
        }
        let (understood, result) = (self.understood, self.result);
        Answer { id, duplicate: true, replies, understood, result, told: Told::default() }
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;
    use crate::service::Via;

    #[test]
    fn a_record_and_its_answer_are_written_as_what_they_are() {
        let whole = Record {
            room: Some("pool".into()),
            events: vec![Event::OptedOut { address: "heron \"é\"".into() }],
            replies: vec![Spoken::alone("heron".into(), Via::Answer, "Stored.".into())],
            understood: vec![json!({ "kind": "done", "rpe": 6 }), json!({})],
            result: json!({ "kind": "done", "load": 312.5, "parts": ["}", null] }),
            handle: Some("h".into()),
            gone: vec!["teal".into()],
            ..Record::unsaid(Some(SquadId("dusk".into())), 7, "heron", Timestamp::UNIX_EPOCH)
        };
        let few = Record { handle: None, gone: vec![], ..whole.clone() };
        let none = Record::unsaid(None, 1, "teal", Timestamp::UNIX_EPOCH);
        for record in [whole, few, none] {
            let (bytes, told) = record.write_told().unwrap();
            assert_eq!(bytes, serde_json::to_vec(&record).unwrap());
            assert_eq!(Record::read(&bytes).unwrap(), record);
            let told_of =
                |told| Answer { told, ..record.clone().answer_again("7".into(), "", None) };
            let answers = [told_of(told), told_of(Told::default())];
            let written =
                answers.map(|one| (one.write().unwrap(), serde_json::to_vec(&one).unwrap()));
            assert!(
                written
                    .iter()
                    .flat_map(|(one, other)| [one, other])
                    .all(|one| *one == written[0].1)
            );
        }
    }
}
