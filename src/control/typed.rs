//! A message typed in a terminal, as it goes over the control socket.

use serde::{Deserialize, Serialize};

use crate::service::{Body, Incoming};

/// What was typed, and as whom. Without an id: nothing typed is a repeat.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Typed {
    /// Who types.
    pub from: String,
    /// The group chat, if not in private.
    pub room: Option<String>,
    /// The words.
    pub text: String,
}

impl From<Typed> for Incoming {
    fn from(typed: Typed) -> Incoming {
        Incoming {
            channel: "chat".into(),
            id: None,
            from: typed.from,
            room: typed.room,
            sent_at: None,
            body: Body::Text(typed.text),
        }
    }
}
