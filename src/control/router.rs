//! The paths of the control socket.

use axum::extract::{Request, State};
use axum::http::StatusCode;
use axum::routing::{get, post};
use axum::{Json, Router};
use serde::de::DeserializeOwned;
use serde_json::{Value, json};

use super::Typed;
use crate::http::{self, Problem, Reception};
use crate::service::{Answer, NewSquad, SquadAdded};

/// Whether the owner answers.
pub(super) const HEALTH: &str = "/control/health";
/// A [`Typed`] message in, its [`Answer`] out.
pub(super) const MESSAGES: &str = "/control/messages";
/// A [`NewSquad`] in, a [`SquadAdded`] out.
pub(super) const SQUADS: &str = "/control/squads";

/// The paths that a folder's owner answers on its control socket.
pub(super) fn router(reception: Reception) -> Router {
    let paths = Router::new()
        .route(HEALTH, get(health))
        .route(MESSAGES, post(receive))
        .route(SQUADS, post(add_squad))
        .fallback(http::no_such_path)
        .with_state(reception);
    http::guarded(paths, Router::new())
}

async fn health() -> Json<Value> {
    Json(json!({ "status": "ok" }))
}

async fn receive(
    State(reception): State<Reception>,
    request: Request,
) -> Result<Json<Answer>, Problem> {
    let typed: Typed = read(&reception, request).await?;
    http::fields::address(&typed.from)?;
    typed.room.as_deref().map(http::fields::room_id).transpose()?;
    reception.receive(typed.into()).await.map(Json)
}

async fn add_squad(
    State(reception): State<Reception>,
    request: Request,
) -> Result<Json<SquadAdded>, Problem> {
    let squad: NewSquad = read(&reception, request).await?;
    http::fields::address(&squad.coach)?;
    reception.add_squad(squad).await.map(Json)
}

async fn read<T: DeserializeOwned>(reception: &Reception, request: Request) -> Result<T, Problem> {
    reception.open()?;
    let body = http::read_body(request.into_body(), reception.limits().body).await?;
    serde_json::from_slice(&body).map_err(|unfit| {
        Problem::new(StatusCode::UNPROCESSABLE_ENTITY, format!("not understood: {unfit}"))
    })
}
