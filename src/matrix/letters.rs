//! Letters as messages in rooms, and in rooms for two where one is alone meant.

use std::sync::Arc;

use jiff::Timestamp;
use reqwest::{Client, Method, Url};
use serde_json::json;

use super::Homeserver;
use crate::outbox::{Manner, Request, Returned};
use crate::service::Letter;

/// Brings letters to rooms. A letter's id is the homeserver's transaction id:
/// it takes a repeat for what it is.
pub struct Letters(pub Arc<Homeserver>);

impl Manner for Letters {
    fn request<'a>(
        &'a self,
        _http: &'a Client,
        _to: &'a Url,
        letter: &'a Letter,
        _now: Timestamp,
    ) -> Request<'a> {
        Box::pin(async move {
            let spoken = &letter.spoken;
            let room = match &spoken.room {
                Some(room) => room.clone(),
                // Looked up when it is said, not when it was asked: someone may
                // have come in since.
                None => {
                    let found = self.0.direct_room(&spoken.to, letter.handle.as_deref()).await;
                    found.map_err(|unanswered| Returned::because(unanswered.to_string()))?
                }
            };
            let (kind, text) = ("m.notice", &spoken.text);
            let content = match &spoken.thread {
                None => json!({ "msgtype": kind, "body": text }),
                Some(root) => json!({ "msgtype": kind, "body": text, "m.relates_to": {
                    "rel_type": "m.thread", "event_id": root,
                    "is_falling_back": true, "m.in_reply_to": { "event_id": root } } }),
            };
            let path = ["rooms", &room, "send", "m.room.message", &letter.id];
            Ok(self.0.request(Method::PUT, &path).json(&content))
        })
    }
}
