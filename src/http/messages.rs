//! `POST /v1/messages`: signed JSON in, the whole answer out.
//!
//! What is wrong is found in this order: size 413 (a body that doesn't come,
//! 408), media type 415, signature 401, JSON 400, id unlike the header 400,
//! fields 422,
//! too many 429. Nothing a stranger sent is parsed before its signature holds.

use axum::extract::{Request, State};
use axum::http::header::{CACHE_CONTROL, CONTENT_TYPE};
use axum::http::{HeaderMap, StatusCode};
use axum::response::IntoResponse;
use jiff::Timestamp;

use super::router::Doorway;
use super::{Problem, ProblemBody, fields::Fields, media_type};
use crate::service::{Answer, Body, Incoming};
use crate::signing::{self, Envelope, Secret};

/// Takes one message.
///
/// `webhook-signature` is `v1,` and the base64 of HMAC-SHA256 over
/// `id.timestamp.body`, by the Standard Webhooks scheme.
#[utoipa::path(post, path = "/v1/messages", tag = "messages",
    params(
        ("webhook-id" = String, Header, description = "The same as `id`"),
        ("webhook-timestamp" = u64, Header, description = "Unix seconds, within 5 minutes"),
        ("webhook-signature" = String, Header, description = "One or more, separated by spaces"),
    ),
    request_body = Fields,
    responses(
        (status = 200, description = "The answer", body = Answer),
        (status = "4XX", description = "Why it was not taken", body = ProblemBody,
            content_type = "application/problem+json"),
        (status = 503, description = "Not stored, send it again", body = ProblemBody,
            content_type = "application/problem+json"),
    ))]
pub async fn post(
    State(door): State<Doorway>,
    request: Request,
) -> Result<impl IntoResponse, Problem> {
    let (head, body) = door.read(request).await?;
    require_json(&head.headers)?;
    let id = require_signed(&door.secrets, door.clock.now(), &head.headers, &body)?;
    let fields = Fields::of_json(&body, id)?;
    door.admit(&fields.from)?;
    let incoming = Incoming {
        channel: "messages".into(),
        id: Some(fields.id),
        from: fields.from,
        room: fields.room,
        sent_at: fields.sent_at,
        body: Body::Text(fields.text),
    };
    let answer = door.reception.receive(incoming).await?;
    Ok(([(CONTENT_TYPE, JSON), (CACHE_CONTROL, "no-store")], written(&answer)?))
}

/// An answer as JSON.
fn written(answer: &Answer) -> Result<Vec<u8>, Problem> {
    answer.write().map_err(|error| {
        tracing::error!(%error, "an answer can't be written");
        Problem::new(StatusCode::INTERNAL_SERVER_ERROR, "the answer can't be written")
    })
}

/// What a message comes as.
pub(super) const JSON: &str = "application/json";

/// Passes where a body says that it is JSON.
///
/// # Errors
/// 415 where it says anything else.
pub(super) fn require_json(headers: &HeaderMap) -> Result<(), Problem> {
    match media_type::of(headers)? {
        Some(stated) if stated.essence_str() == JSON => Ok(()),
        _ => Err(media_type::unsupported("the content-type must be application/json")),
    }
}

/// The message's id from its header, once the signature holds.
///
/// # Errors
/// 401 where it doesn't.
pub(super) fn require_signed<'a>(
    secrets: &[Secret],
    now: Timestamp,
    headers: &'a HeaderMap,
    body: &[u8],
) -> Result<&'a [u8], Problem> {
    let unsigned = |why: String| Problem::new(StatusCode::UNAUTHORIZED, why);
    let missing = |name| unsigned(format!("the header {name} is missing or is no text"));
    let text = |name| headers.get(name).and_then(|value| value.to_str().ok());

    let id = headers.get("webhook-id").ok_or_else(|| missing("webhook-id"))?.as_bytes();
    let envelope = Envelope {
        id,
        timestamp: text("webhook-timestamp").ok_or_else(|| missing("webhook-timestamp"))?,
        signatures: text("webhook-signature").ok_or_else(|| missing("webhook-signature"))?,
        body,
    };
    signing::verify(secrets, &envelope, now).map_err(|refusal| unsigned(refusal.to_string()))?;
    Ok(id)
}
