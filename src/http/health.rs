//! `GET /health`: whether messages are taken.

use axum::Json;
use axum::extract::State;
use axum::response::IntoResponse;
use serde_json::json;

use super::Problem;
use super::router::Door;

/// 200 while messages are taken, 503 once we are stopping.
pub async fn get(State(door): State<Door>) -> Result<impl IntoResponse, Problem> {
    door.reception.open()?;
    Ok(Json(json!({ "status": "ok" })))
}
