//! What a message is answered with, in the outside contract's own form.

use jiff::Timestamp;
use serde::{Deserialize, Serialize};
use serde_json::Value;
use utoipa::ToSchema;

use super::told::{Told, write_open};
use crate::history::Called;
use crate::reply;

/// The whole answer to one message.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, ToSchema)]
pub struct Answer {
    /// The message's id, or one we gave it.
    pub id: String,
    /// True where the message had been answered before; nothing was stored.
    pub duplicate: bool,
    /// What the message causes to be said, to the sender and to others.
    pub replies: Vec<Spoken>,
    /// What was read, one entry a statement. Of offices: `second_contact`, `alerts`
    /// (`wanted`), `staff`, `new_code`, `confirm`; a `release` that the coach answers
    /// for has `on_my_word`.
    #[schema(value_type = Vec<Object>)]
    pub understood: Vec<Value>,
    /// What came of it. A result of somebody who is stopped or ill is `kept_only`: it
    /// has no targets, and no set to swim next. `better` after illness tells when the
    /// clear days end (`clear_until`), `staff` who holds an office (`staff`), `new code`
    /// the code (`code`); what waits for a code says so (`waits`).
    #[schema(value_type = Object)]
    pub result: Value,
    /// The two as they were written for the record.
    #[serde(skip)]
    pub(super) told: Told,
}

/// Most answers are no longer than so many bytes.
const LIKELY: usize = 4096;

/// An answer up to what was read.
#[derive(Serialize)]
struct Head<'a> {
    id: &'a str,
    duplicate: bool,
    replies: &'a [Spoken],
}

impl Answer {
    /// The answer as JSON.
    ///
    /// # Errors
    /// It can't be written.
    pub fn write(&self) -> Result<Vec<u8>, serde_json::Error> {
        // In memory that need not grow.
        let mut bytes = Vec::with_capacity(LIKELY);
        let Some(told) = self.told.written() else {
            serde_json::to_writer(&mut bytes, self)?;
            return Ok(bytes);
        };
        let Answer { id, duplicate, replies, .. } = self;
        write_open(&mut bytes, &Head { id, duplicate: *duplicate, replies })?;
        bytes.extend_from_slice(told);
        bytes.push(b'}');
        Ok(bytes)
    }
}

/// One thing said to one address or room.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct Spoken {
    /// To whom.
    pub to: String,
    /// In which room, if not in private.
    pub room: Option<String>,
    /// In which thread of it, by the channel's own id.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub thread: Option<String>,
    /// Not to be delivered before.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(value_type = Option<String>, format = DateTime)]
    pub due: Option<Timestamp>,
    /// For an alarm: as what this address is called, coach or contact. An alarm waits for
    /// nothing: it is tried at once, and until it is delivered.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(value_type = Option<String>)]
    pub alarm: Option<Called>,
    /// Who delivers it.
    pub via: Via,
    /// The words.
    pub text: String,
    /// The words cut for SMS.
    pub parts: Vec<String>,
}

impl Spoken {
    /// Words for one address alone.
    pub(crate) fn alone(to: String, via: Via, text: String) -> Self {
        let parts = reply::segments(&text);
        Self { to, room: None, thread: None, due: None, alarm: None, via, text, parts }
    }

    /// What stands where words were erased: said to nobody.
    pub(super) fn nothing() -> Self {
        Self { parts: vec![], ..Self::alone(String::new(), Via::Answer, String::new()) }
    }
}

/// Who delivers a reply.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
#[serde(rename_all = "snake_case")]
pub enum Via {
    /// The caller, with the answer.
    Answer,
    /// Lapwing itself.
    Outbox,
}

/// Why a message got no answer.
#[derive(Debug, thiserror::Error)]
pub enum Failure {
    /// The id was used before for another sender, text or room.
    #[error("this id belongs to another message")]
    Conflict,
    /// No such time zone, an empty name and the like.
    #[error("{0}")]
    Refused(String),
    /// What is stored is not whole, so nothing more is taken until somebody has
    /// looked.
    #[error("nothing is stored until the journal is repaired: {0}")]
    ReadOnly(String),
    /// The store can't take it now, or we are stopping; send it again.
    #[error("not stored, send it again")]
    Unavailable,
}
