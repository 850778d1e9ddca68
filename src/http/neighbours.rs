//! Bringing a message to the machine that answers for its squad, and taking one from
//! another machine.
//!
//! Whoever is not reached soon, or answers anything but 200, is left alone for some
//! seconds, and the message is answered here: its id keeps it from being stored twice.
//! What was brought is answered where it was brought, and never brought on.

use std::collections::HashMap;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::Duration;

use axum::Json;
use axum::extract::{Request, State};
use axum::http::StatusCode;
use axum::http::header::CONTENT_TYPE;
use axum::response::IntoResponse;
use serde::{Deserialize, Serialize};

use super::Problem;
use super::messages::{JSON, require_json, require_signed};
use super::router::Doorway;
use crate::clock::Clock;
use crate::journal::Machine;
use crate::service::{Answer, Incoming, WayBack};
use crate::signing::{self, Secret};
use crate::tls::{self, Trust};

/// The path under which a machine takes what another brings.
pub const PATH: &str = "/v1/neighbour";

/// How long another may take to answer, until it is answered here (ours).
const PATIENCE: Duration = Duration::from_millis(300);

/// How long nothing is brought to one that was not reached, or refuses (ours).
const LEFT_ALONE: Duration = Duration::from_secs(5);

/// The same of one that was too slow: it may be loading a squad, or stand still (ours).
const SLOW: Duration = Duration::from_secs(1);

/// A message on its way between machines.
#[derive(Serialize, Deserialize)]
struct Brought<I = Incoming, B = WayBack> {
    incoming: I,
    back: B,
}

/// The other machines over the same journal, and this one's own name and key.
pub struct Neighbours {
    own: Machine,
    key: [Secret; 1],
    http: reqwest::Client,
    clock: Arc<dyn Clock>,
    /// Those that did not answer, and until when they are left alone.
    alone: Mutex<HashMap<String, Duration>>,
}

/// Another machine did not answer.
struct Unanswered {
    why: String,
    /// It won't soon.
    for_long: bool,
}

/// The other machines can't be reached at all.
#[derive(Debug, thiserror::Error)]
pub enum NoNeighbours {
    /// No client for HTTP.
    #[error("no way to the other machines: {0}")]
    Client(#[from] reqwest::Error),
    /// The system has no randomness.
    #[error("no key for the other machines: {0}")]
    Key(#[from] getrandom::Error),
}

impl Neighbours {
    /// Those of a machine that the others reach at `address`.
    ///
    /// # Errors
    /// There is no client or no key to be had.
    pub fn reached_at(address: &str, clock: Arc<dyn Clock>) -> Result<Neighbours, NoNeighbours> {
        let secret = Secret::generate()?;
        let mut name = [0_u8; 16];
        getrandom::fill(&mut name)?;
        let own = Machine {
            name: crate::digest::hex(&name),
            address: address.to_owned(),
            key: secret.reveal(),
        };
        let trust = if address.starts_with("https") { Trust::System } else { Trust::None };
        let http = tls::client(trust).timeout(PATIENCE).no_proxy().build()?;
        Ok(Neighbours { own, key: [secret], http, clock, alone: Mutex::default() })
    }

    /// This machine, as the others are told.
    pub fn own(&self) -> &Machine {
        &self.own
    }

    /// The answer of another machine to a message; none where it is to be answered here.
    pub(super) async fn bring(
        &self,
        to: Machine,
        incoming: &Incoming,
        back: &WayBack,
    ) -> Option<Answer> {
        if to.name == self.own.name || self.is_left_alone(&to.name) {
            return None;
        }
        let answer = self.answer_of(&to, incoming, back).await;
        if let Err(Unanswered { why, for_long }) = &answer {
            tracing::debug!(%why, "another machine does not answer: this one does");
            let until = self.clock.passed() + if *for_long { LEFT_ALONE } else { SLOW };
            let mut alone = self.alone();
            alone.retain(|_, until| *until > self.clock.passed());
            alone.insert(to.name, until);
        }
        answer.ok()
    }

    async fn answer_of(
        &self,
        to: &Machine,
        incoming: &Incoming,
        back: &WayBack,
    ) -> Result<Answer, Unanswered> {
        let told =
            |error: &dyn std::error::Error| Unanswered { why: error.to_string(), for_long: true };
        let late = |error: &reqwest::Error| Unanswered {
            why: error.to_string(),
            for_long: !error.is_timeout(),
        };
        let body = serde_json::to_vec(&Brought { incoming, back }).map_err(|error| told(&error))?;
        let id = incoming.id.clone().unwrap_or_default();
        let secret: Secret = to.key.parse().map_err(|error| told(&error))?;
        let now = self.clock.now();
        let signature = signing::sign(&secret, id.as_bytes(), now, &body);
        let request = self
            .http
            .post(format!("{}{PATH}", to.address))
            .header(CONTENT_TYPE, JSON)
            .header("webhook-id", id)
            .header("webhook-timestamp", now.as_second())
            .header("webhook-signature", signature)
            .body(body);
        let response = request.send().await.map_err(|error| late(&error))?;
        if response.status() != reqwest::StatusCode::OK {
            let why = format!("it says {}", response.status());
            return Err(Unanswered { why, for_long: true });
        }
        let bytes = response.bytes().await.map_err(|error| late(&error))?;
        serde_json::from_slice(&bytes).map_err(|error| told(&error))
    }

    fn is_left_alone(&self, name: &str) -> bool {
        self.alone().get(name).is_some_and(|until| *until > self.clock.passed())
    }

    fn alone(&self) -> MutexGuard<'_, HashMap<String, Duration>> {
        self.alone.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Whoever may bring something has one of these.
    fn key(&self) -> &[Secret] {
        &self.key
    }
}

/// Takes a message that another machine brings.
pub async fn post(
    State(door): State<Doorway>,
    request: Request,
) -> Result<impl IntoResponse, Problem> {
    let (head, body) = door.read(request).await?;
    let nobody = || Problem::new(StatusCode::NOT_FOUND, "no such path");
    let neighbours = door.reception.neighbours().ok_or_else(nobody)?;
    require_json(&head.headers)?;
    require_signed(neighbours.key(), door.clock.now(), &head.headers, &body)?;
    let unread = |error: serde_json::Error| {
        Problem::new(StatusCode::BAD_REQUEST, format!("no message: {error}"))
    };
    let Brought { incoming, back }: Brought = serde_json::from_slice(&body).map_err(unread)?;
    let answer = door.reception.receive_here(incoming, back).await?;
    Ok(Json(answer))
}
