//! Letters as signed JSON, by the Standard Webhooks scheme.

use std::future::ready;

use jiff::Timestamp;
use reqwest::header::CONTENT_TYPE;
use reqwest::{Client, RequestBuilder, Url};
use serde::Serialize;

use super::{Manner, Request, Returned};
use crate::service::Letter;
use crate::signing::{Secret, sign};

/// Signs with each of its secrets, so that one can follow another without a
/// break.
pub struct Signed(pub Vec<Secret>);

/// The body of a request.
#[derive(Serialize)]
struct Payload<'a> {
    r#type: &'static str,
    timestamp: Timestamp,
    data: Data<'a>,
}

#[derive(Serialize)]
struct Data<'a> {
    to: &'a str,
    room: Option<&'a str>,
    text: &'a str,
    parts: &'a [String],
}

impl Manner for Signed {
    fn request<'a>(
        &'a self,
        http: &'a Client,
        to: &'a Url,
        letter: &'a Letter,
        now: Timestamp,
    ) -> Request<'a> {
        Box::pin(ready(self.written(http, to, letter, now)))
    }
}

impl Signed {
    fn written(
        &self,
        http: &Client,
        to: &Url,
        letter: &Letter,
        now: Timestamp,
    ) -> Result<RequestBuilder, Returned> {
        let body = payload(letter)?;
        let signature = |secret| sign(secret, letter.id.as_bytes(), now, &body);
        let signatures: Vec<String> = self.0.iter().map(signature).collect();
        Ok(http
            .post(to.clone())
            .header(CONTENT_TYPE, "application/json")
            .header("webhook-id", &letter.id)
            .header("webhook-timestamp", now.as_second())
            .header("webhook-signature", signatures.join(" "))
            .body(body))
    }
}

/// The same bytes for every try.
fn payload(letter: &Letter) -> Result<Vec<u8>, Returned> {
    let spoken = &letter.spoken;
    let payload = Payload {
        r#type: "reply.send",
        timestamp: letter.written,
        data: Data {
            to: &spoken.to,
            room: spoken.room.as_deref(),
            text: &spoken.text,
            parts: &spoken.parts,
        },
    };
    serde_json::to_vec(&payload).map_err(|failed| Returned::because(failed.to_string()))
}
