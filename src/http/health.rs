//! `GET /health` and `GET /ready`: for whoever looks after the process.

use axum::Json;
use axum::extract::State;
use serde::Serialize;
use utoipa::ToSchema;

use super::router::Door;
use super::{Problem, ProblemBody};

/// That all is well.
#[derive(Serialize, ToSchema)]
pub struct Status {
    /// `ok` or `ready`.
    status: &'static str,
}

/// 200 while messages are taken, 503 once we are stopping.
#[utoipa::path(get, path = "/health", tag = "operations", responses(
    (status = 200, description = "The server runs", body = Status),
    (status = 503, description = "It is stopping", body = ProblemBody,
        content_type = "application/problem+json"),
))]
pub async fn get(State(door): State<Door>) -> Result<Json<Status>, Problem> {
    door.reception.open()?;
    Ok(Json(Status { status: "ok" }))
}

/// 200 while messages can be stored too, 503 while the store has failed.
#[utoipa::path(get, path = "/ready", tag = "operations", responses(
    (status = 200, description = "Messages are taken and can be stored", body = Status),
    (status = 503, description = "It is stopping, or the store has failed", body = ProblemBody,
        content_type = "application/problem+json"),
))]
pub async fn ready(State(door): State<Door>) -> Result<Json<Status>, Problem> {
    door.reception.ready()?;
    Ok(Json(Status { status: "ready" }))
}
