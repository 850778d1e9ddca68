//! How answers get back to where a message came from.

use serde::{Deserialize, Serialize};

use super::Via;

/// How a channel brings answers back, and as whom it knows the sender.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct WayBack {
    /// Who brings the answer where the message was said.
    pub answers: Via,
    /// Who brings what the sender alone may hear of an answer to what was said
    /// in a room; `None` where nobody can.
    pub alone: Option<Via>,
    /// What the channel calls the sender at present, for letters to them.
    pub handle: Option<String>,
    /// The thread of the room that it was said in, by the channel's own id.
    pub thread: Option<String>,
}

impl Default for WayBack {
    /// The caller brings everything.
    fn default() -> Self {
        WayBack { answers: Via::Answer, alone: Some(Via::Answer), handle: None, thread: None }
    }
}
