//! `PUT /_matrix/app/v1/transactions/{txn}`: what the homeserver tells us, in
//! its order and once.

use std::collections::HashMap;
use std::sync::Arc;

use axum::extract::{Path, Request, State};
use axum::http::header::AUTHORIZATION;
use axum::http::{HeaderMap, StatusCode};
use axum::response::{IntoResponse, Response};
use axum::routing::{get, post, put};
use axum::{Json, Router};
use serde_json::{Value, json};
use sha2::{Digest, Sha256};
use subtle::ConstantTimeEq;
use tokio::sync::Mutex;

use super::event::{Heard, Said};
use super::homeserver::{Homeserver, Unanswered};
use crate::http::{Limit, Problem, Reception, guarded, read_body_of};
use crate::service::Body;
use crate::service::{Incoming, Via, WayBack};

/// The longest transaction, in bytes: a hundred events of 64 KiB, which are the
/// longest (Matrix specification, "Size limits"), and what stands round them.
const LONGEST: usize = 8 * 1024 * 1024;

/// What takes transactions.
pub struct Appservice {
    homeserver: Arc<Homeserver>,
    reception: Reception,
    limit: Option<Arc<Limit>>,
    /// Held for the whole of a transaction: they come one after the other.
    told: Mutex<Told>,
}

/// What earlier transactions told.
#[derive(Default)]
struct Told {
    /// The last that was taken whole. Only a repeat of that one can come: the
    /// homeserver goes on when it has been answered.
    last: Option<String>,
    /// Which rooms hold only us and one other, until someone moves.
    for_two: HashMap<String, bool>,
}

/// An answer that is an error to the homeserver.
struct Refusal(StatusCode, &'static str, String);

impl IntoResponse for Refusal {
    fn into_response(self) -> Response {
        (self.0, Json(json!({ "errcode": self.1, "error": self.2 }))).into_response()
    }
}

impl Appservice {
    /// An application service before this reception.
    pub fn new(
        homeserver: Arc<Homeserver>,
        reception: Reception,
        limit: Option<Arc<Limit>>,
    ) -> Arc<Appservice> {
        Arc::new(Appservice { homeserver, reception, limit, told: Mutex::default() })
    }

    fn require_homeserver(&self, headers: &HeaderMap) -> Result<(), Refusal> {
        let shown = headers.get(AUTHORIZATION).and_then(|field| field.to_str().ok());
        let Some(shown) = shown.and_then(|field| field.strip_prefix("Bearer ")) else {
            let why = "the header Authorization is missing".to_owned();
            return Err(Refusal(StatusCode::UNAUTHORIZED, "M_UNAUTHORIZED", why));
        };
        let ours = Sha256::digest(self.homeserver.account.hs_token.reveal());
        match bool::from(ours.ct_eq(&Sha256::digest(shown))) {
            true => Ok(()),
            false => Err(Refusal(StatusCode::FORBIDDEN, "M_FORBIDDEN", "a wrong token".to_owned())),
        }
    }

    /// Takes what one transaction tells; if that can't be done to its end, it
    /// comes again, and what was done is known by its ids.
    async fn take(&self, number: String, events: &[Value]) -> Result<(), Refusal> {
        let mut told = self.told.lock().await;
        if told.last.as_ref() == Some(&number) {
            return Ok(());
        }
        for event in events {
            match Heard::read(event, &self.homeserver.account) {
                Heard::Nothing => {}
                Heard::Moved { room } => {
                    told.for_two.remove(&room);
                }
                Heard::Invited { room } => {
                    told.for_two.remove(&room);
                    known(self.homeserver.join(&room).await)?;
                }
                Heard::Said(said) => self.hear(&mut told, said).await?,
            }
        }
        told.last = Some(number);
        Ok(())
    }

    async fn hear(&self, told: &mut Told, said: Said) -> Result<(), Refusal> {
        let alone = match told.for_two.get(&said.room) {
            Some(alone) => *alone,
            None => {
                // Where we are not, nobody is alone with us.
                let alone = known(self.homeserver.is_for_two(&said.room).await)?.unwrap_or(false);
                told.for_two.insert(said.room.clone(), alone);
                alone
            }
        };
        let answers =
            || said.bare_answer().filter(|_| self.reception.is_asked_of_danger(&said.sender));
        let body = said.to_us(&self.homeserver.account, alone).or_else(answers);
        let Some(body) = body else { return Ok(()) };
        // A bridge may bring our own words back under another name.
        if matches!(&body, Body::Text(text) if self.reception.has_said(text)) {
            return Ok(());
        }
        if self.limit.as_ref().is_some_and(|limit| limit.admit(&said.sender).is_err()) {
            // To refuse the transaction would hold up everybody else.
            tracing::debug!("a message over its sender's limit is passed over");
            return Ok(());
        }
        let back = WayBack {
            answers: Via::Outbox,
            alone: Some(Via::Outbox),
            handle: alone.then(|| said.room.clone()),
            thread: said.thread,
        };
        let message = Incoming {
            channel: "matrix".into(),
            id: Some(said.id),
            from: said.sender,
            room: (!alone).then_some(said.room),
            sent_at: said.sent_at,
            body,
        };
        match self.reception.receive_by(message, back).await {
            Ok(_) => Ok(()),
            Err(problem) if problem.status().is_server_error() => Err(later(&problem)),
            // It would be refused again.
            Err(problem) => {
                tracing::warn!(status = %problem.status(), "a message is passed over");
                Ok(())
            }
        }
    }
}

/// What the homeserver said, or nothing where it refused; an error where it
/// must be asked again.
fn known<T>(answer: Result<T, Unanswered>) -> Result<Option<T>, Refusal> {
    match answer {
        Ok(answer) => Ok(Some(answer)),
        Err(refused @ Unanswered::Refused(..)) => {
            tracing::warn!(%refused, "not known of a room");
            Ok(None)
        }
        Err(away) => Err(Refusal(StatusCode::SERVICE_UNAVAILABLE, "M_UNKNOWN", away.to_string())),
    }
}

fn later(problem: &Problem) -> Refusal {
    Refusal(problem.status(), "M_UNKNOWN", "not taken, send it again".to_owned())
}

/// The paths of an application service.
pub fn router(appservice: Arc<Appservice>) -> Router {
    let metrics = appservice.reception.metrics();
    let paths = Router::new()
        .route("/_matrix/app/v1/transactions/{txn}", put(transaction))
        .route("/_matrix/app/v1/ping", post(ping))
        .route("/_matrix/app/v1/users/{id}", get(nobody))
        .route("/_matrix/app/v1/rooms/{alias}", get(nobody))
        .with_state(appservice);
    guarded(paths, Router::new(), metrics)
}

async fn transaction(
    State(appservice): State<Arc<Appservice>>,
    Path(number): Path<String>,
    request: Request,
) -> Result<Json<Value>, Refusal> {
    let (head, body) = request.into_parts();
    appservice.require_homeserver(&head.headers)?;
    appservice.reception.open().map_err(|stopping| later(&stopping))?;
    let patience = appservice.reception.limits().body;
    let body = read_body_of(LONGEST, body, patience).await.map_err(|unread| later(&unread))?;
    let unfit = || {
        let why = "not a transaction".to_owned();
        Refusal(StatusCode::BAD_REQUEST, "M_NOT_JSON", why)
    };
    let body: Value = serde_json::from_slice(&body).map_err(|_| unfit())?;
    let events = body.get("events").and_then(Value::as_array).ok_or_else(unfit)?.clone();
    // Once begun it runs to its end, even if the homeserver hangs up.
    let taking = tokio::spawn(async move { appservice.take(number, &events).await });
    let broken = |_| Refusal(StatusCode::INTERNAL_SERVER_ERROR, "M_UNKNOWN", "a fault".to_owned());
    taking.await.map_err(broken)??;
    Ok(Json(json!({})))
}

async fn ping(
    State(appservice): State<Arc<Appservice>>,
    headers: HeaderMap,
) -> Result<Json<Value>, Refusal> {
    appservice.require_homeserver(&headers)?;
    Ok(Json(json!({})))
}

/// We make no users or rooms when asked for them.
async fn nobody() -> Refusal {
    Refusal(StatusCode::NOT_FOUND, "M_NOT_FOUND", "there is no such one".to_owned())
}
