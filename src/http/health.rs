//! `GET /health` and `GET /ready`: for whoever looks after the process.

use axum::Json;
use axum::extract::State;
use serde::Serialize;
use utoipa::ToSchema;

use super::router::Doorway;
use super::{Problem, ProblemBody};

/// That all is well.
#[derive(Serialize, ToSchema)]
pub struct Status {
    /// `ok`.
    status: &'static str,
}

/// Whether messages can be stored, and help be reached.
#[derive(Serialize, ToSchema)]
pub struct Ready {
    /// `ready`, or `unheard` while an alarm has reached nobody.
    status: &'static str,
    /// How many alarms have reached nobody.
    unheard: usize,
    /// Since when there is one.
    #[schema(value_type = Option<String>, format = DateTime)]
    since: Option<jiff::Timestamp>,
}

/// 200 while messages are taken, 503 once we are stopping.
#[utoipa::path(get, path = "/health", tag = "operations", responses(
    (status = 200, description = "The server runs", body = Status),
    (status = 503, description = "It is stopping", body = ProblemBody,
        content_type = "application/problem+json"),
))]
pub async fn get(State(door): State<Doorway>) -> Result<Json<Status>, Problem> {
    door.reception.open()?;
    Ok(Json(Status { status: "ok" }))
}

/// 200 while messages can be stored too, 503 while the store has failed. An alarm
/// that has reached nobody is told in the body: whoever sends messages by the
/// status must not stop sending them then, for the next may be another one.
#[utoipa::path(get, path = "/ready", tag = "operations", responses(
    (status = 200, description = "Messages are taken and can be stored; `status` is `unheard` \
        while an alarm has reached nobody who can help", body = Ready),
    (status = 503, description = "It is stopping, or the store has failed", body = ProblemBody,
        content_type = "application/problem+json"),
))]
pub async fn ready(State(door): State<Doorway>) -> Result<Json<Ready>, Problem> {
    door.reception.ready()?;
    let (unheard, since) = door.reception.unheard();
    let status = if unheard == 0 { "ready" } else { "unheard" };
    Ok(Json(Ready { status, unheard, since }))
}
