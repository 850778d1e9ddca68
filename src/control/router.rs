//! The paths of the control socket.

use std::path::PathBuf;

use axum::extract::{Request, State};
use axum::http::StatusCode;
use axum::routing::{get, post};
use axum::{Json, Router};
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};
use serde_json::{Value, json};

use super::{Store, TakeError, Typed};
use crate::http::{self, Problem, Reception};
use crate::journal::{Checked, Copied};
use crate::service::{
    Answer, Arrived, Bringing, BroughtIn, LetterNumber, LetterSeen, Managing, Opening, Showing,
    Shown, SquadAdded, SquadSeen, Taking, Undelivered, Waiting,
};

/// Whether the owner answers.
pub(super) const HEALTH: &str = "/control/health";
/// A [`Typed`] message in, its [`Answer`] out.
pub(super) const MESSAGES: &str = "/control/messages";
/// A [`Opening`] in, a [`SquadAdded`] out.
pub(super) const SQUADS: &str = "/control/squads";

/// A [`Managing`] in, the [`SquadSeen`]s that it meant out.
pub(super) const MANAGE: &str = "/control/squads/manage";

/// A [`Showing`] in, a [`Shown`] out.
pub(super) const READ: &str = "/control/read";

/// Nothing in, [`Undelivered`] letters out.
pub(super) const OUTBOX: &str = "/control/outbox";
/// A [`LetterNumber`] or null in, how many are tried again out.
pub(super) const OUTBOX_RETRY: &str = "/control/outbox/retry";

/// A [`LetterNumber`] in, a [`LetterSeen`] out.
pub(super) const LETTER: &str = "/control/outbox/letter";
/// A [`Waiting`] in, what [`Arrived`] out.
pub(super) const ARRIVED: &str = "/control/arrived";

/// A [`Taking`] in, the file's text out.
pub(super) const TAKE: &str = "/control/take";

/// A [`Bringing`] in, [`BroughtIn`] out.
pub(super) const BRING: &str = "/control/bring";

/// The longest table that is brought, in bytes (ours: ten years of a club's tests).
const LONGEST_TABLE: usize = 16 * 1024 * 1024;

/// Nothing in, [`Checked`] out.
pub(super) const CHECK: &str = "/control/check";
/// A [`BackupTo`] in, [`Copied`] out.
pub(super) const BACKUP: &str = "/control/backup";

/// Where to copy the journal to.
#[derive(Debug, Serialize, Deserialize)]
pub(super) struct BackupTo {
    /// The file, by its whole path: the owner may stand elsewhere.
    pub to: PathBuf,
}

/// What the paths share.
#[derive(Clone)]
pub(super) struct Inside {
    /// Where messages are brought.
    pub reception: Reception,
    /// The journal, for its upkeep.
    pub store: Store,
}

/// The paths that a folder's owner answers on its control socket.
pub(super) fn router(inside: Inside) -> Router {
    let metrics = inside.reception.metrics();
    let paths = Router::new()
        .route(HEALTH, get(health))
        .route(MESSAGES, post(receive))
        .route(SQUADS, post(add_squad))
        .route(MANAGE, post(manage))
        .route(READ, post(show))
        .route(LETTER, post(letter))
        .route(ARRIVED, post(arrived))
        .route(OUTBOX, post(undelivered))
        .route(OUTBOX_RETRY, post(retry_letters))
        .route(TAKE, post(take))
        .route(BRING, post(bring))
        .route(CHECK, post(check))
        .route(BACKUP, post(backup))
        .fallback(http::no_such_path)
        .with_state(inside);
    http::guarded(paths, Router::new(), metrics)
}

async fn health() -> Json<Value> {
    Json(json!({ "status": "ok" }))
}

async fn receive(State(inside): State<Inside>, request: Request) -> Result<Json<Answer>, Problem> {
    let typed: Typed = read(&inside.reception, request).await?;
    http::fields::address(&typed.from)?;
    typed.room.as_deref().map(http::fields::room_id).transpose()?;
    inside.reception.receive(typed.into()).await.map(Json)
}

async fn add_squad(
    State(inside): State<Inside>,
    request: Request,
) -> Result<Json<SquadAdded>, Problem> {
    let squad: Opening = read(&inside.reception, request).await?;
    http::fields::address(&squad.squad.coach)?;
    inside.reception.ask(|service| async move { service.add_squad(squad).await }).await.map(Json)
}

async fn manage(
    State(inside): State<Inside>,
    request: Request,
) -> Result<Json<Vec<SquadSeen>>, Problem> {
    let managing: Managing = read(&inside.reception, request).await?;
    inside.reception.ask(|service| async move { service.manage(managing).await }).await.map(Json)
}

async fn show(State(inside): State<Inside>, request: Request) -> Result<Json<Shown>, Problem> {
    let showing: Showing = read(&inside.reception, request).await?;
    inside.reception.ask(|service| async move { service.shown(&showing) }).await.map(Json)
}

async fn letter(
    State(inside): State<Inside>,
    request: Request,
) -> Result<Json<LetterSeen>, Problem> {
    let number: LetterNumber = read(&inside.reception, request).await?;
    inside.reception.ask(|service| async move { service.letter_seen(number) }).await.map(Json)
}

async fn arrived(State(inside): State<Inside>, request: Request) -> Result<Json<Arrived>, Problem> {
    let waiting: Waiting = read(&inside.reception, request).await?;
    inside.reception.ask(|service| async move { service.arrived(&waiting) }).await.map(Json)
}

async fn undelivered(
    State(inside): State<Inside>,
    request: Request,
) -> Result<Json<Vec<Undelivered>>, Problem> {
    let () = read(&inside.reception, request).await?;
    inside.reception.ask(|service| async move { service.undelivered() }).await.map(Json)
}

async fn retry_letters(
    State(inside): State<Inside>,
    request: Request,
) -> Result<Json<usize>, Problem> {
    let letter: Option<LetterNumber> = read(&inside.reception, request).await?;
    inside.reception.ask(|service| async move { service.retry(letter).await }).await.map(Json)
}

async fn take(State(inside): State<Inside>, request: Request) -> Result<Json<String>, Problem> {
    let taking: Taking = read(&inside.reception, request).await?;
    inside.reception.ask(|service| async move { service.taken(&taking) }).await.map(Json)
}

async fn bring(State(inside): State<Inside>, request: Request) -> Result<Json<BroughtIn>, Problem> {
    inside.reception.open()?;
    let patience = inside.reception.limits().body;
    let body = http::read_body_of(LONGEST_TABLE, request.into_body(), patience).await?;
    let bringing: Bringing = understood(&body)?;
    inside.reception.ask(|service| async move { service.bring(&bringing).await }).await.map(Json)
}

async fn check(State(inside): State<Inside>, request: Request) -> Result<Json<Checked>, Problem> {
    let () = read(&inside.reception, request).await?;
    inside.store.check().await.map(Json).map_err(failed)
}

async fn backup(State(inside): State<Inside>, request: Request) -> Result<Json<Copied>, Problem> {
    let BackupTo { to } = read(&inside.reception, request).await?;
    inside.store.backup(&to).await.map(Json).map_err(failed)
}

/// Whoever asks may read the whole folder: the reason is no secret.
fn failed(failed: TakeError) -> Problem {
    Problem::new(StatusCode::INTERNAL_SERVER_ERROR, failed.to_string())
}

async fn read<T: DeserializeOwned>(reception: &Reception, request: Request) -> Result<T, Problem> {
    reception.open()?;
    understood(&http::read_body(request.into_body(), reception.limits().body).await?)
}

fn understood<T: DeserializeOwned>(body: &[u8]) -> Result<T, Problem> {
    serde_json::from_slice(body).map_err(|unfit| {
        Problem::new(StatusCode::UNPROCESSABLE_ENTITY, format!("not understood: {unfit}"))
    })
}
