//! What a message is answered with, in the outside contract's own form.

use jiff::Timestamp;
use serde::{Deserialize, Serialize};
use serde_json::Value;
use utoipa::ToSchema;

/// The whole answer to one message.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, ToSchema)]
pub struct Answer {
    /// The message's id, or one we gave it.
    pub id: String,
    /// True where the message had been answered before; nothing was stored.
    pub duplicate: bool,
    /// What the message causes to be said, to the sender and to others.
    pub replies: Vec<Spoken>,
    /// What was read, one entry a statement.
    #[schema(value_type = Vec<Object>)]
    pub understood: Vec<Value>,
    /// What came of it.
    #[schema(value_type = Object)]
    pub result: Value,
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
    /// Who delivers it.
    pub via: Via,
    /// The words.
    pub text: String,
    /// The words cut for SMS.
    pub parts: Vec<String>,
}

impl Spoken {
    /// What stands where words were erased: said to nobody.
    pub(super) fn nothing() -> Self {
        let (to, text) = (String::new(), String::new());
        Self { to, room: None, thread: None, due: None, via: Via::Answer, text, parts: vec![] }
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
