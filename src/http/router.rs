//! Which path leads where, and what every path shares.

use std::sync::Arc;

use axum::Router;
use axum::extract::Request;
use axum::http::StatusCode;
use axum::http::header::ALLOW;
use axum::http::request::Parts;
use axum::middleware;
use axum::response::{IntoResponse, Response};
use axum::routing::{get, post};
use tower_http::catch_panic::CatchPanicLayer;

use super::{
    Chat, Inlet, Limit, Metrics, Problem, Reception, access_log, board, body, chat, health,
    messages, neighbours, openapi, plain, problem,
};
use crate::clock::Clock;
use crate::signing::Secret;

/// What the public paths share.
#[derive(Clone)]
pub struct Door {
    /// Where messages are brought.
    pub reception: Reception,
    /// Any of these may have signed a message.
    pub secrets: Arc<[Secret]>,
    /// The plain gateways' ways in.
    pub inlets: Arc<[Inlet]>,
    /// The chat servers' ways in.
    pub chats: Arc<[Chat]>,
    /// The wall clock, for signatures.
    pub clock: Arc<dyn Clock>,
    /// How many messages a sender may bring; as many as they like without.
    pub limit: Option<Arc<Limit>>,
}

/// The same, as each request is handed it: one count goes up and down for it, and not one
/// for each that it holds.
pub(super) type Doorway = Arc<Door>;

impl Door {
    /// A request's head and its whole body, while messages are taken.
    ///
    /// # Errors
    /// 503 once we are stopping; what is wrong with the body.
    pub(super) async fn read(&self, request: Request) -> Result<(Parts, Vec<u8>), Problem> {
        self.reception.open()?;
        let (head, body) = request.into_parts();
        Ok((head, body::read(body, self.reception.limits().body).await?))
    }

    /// Lets a message of the sender's pass.
    ///
    /// # Errors
    /// 429 where it is one too many.
    pub fn admit(&self, from: &str) -> Result<(), Problem> {
        self.limit.as_ref().map_or(Ok(()), |limit| limit.admit(from))
    }
}

/// The public paths.
pub fn router(door: Door) -> Router {
    let plain = Router::new()
        // A HEAD would take the message and drop the reply.
        .route("/v1/plain/{token}", get(plain::get).post(plain::post).head(plain_method))
        .method_not_allowed_fallback(plain_method)
        .layer(CatchPanicLayer::custom(|panic: Box<_>| problem::of_panic(&*panic).as_text()));
    let others = Router::new()
        .route("/v1/messages", post(messages::post))
        .route("/v1/chat/{name}", post(chat::take))
        .route(neighbours::PATH, post(neighbours::post))
        .route("/board/{token}", get(board::show))
        .route("/board/{token}/live", get(board::live))
        .route("/board/{token}/calendar", get(board::calendar).post(board::wish))
        .route("/board/{token}/{file}", get(board::file))
        .route("/board/{token}/swimmer/{name}", get(board::swimmer))
        .route("/me/{token}", get(board::own))
        .route("/me/{token}/calendar", get(board::calendar).post(board::wish))
        .route("/me/{token}/{file}", get(board::own_file))
        .route("/calendar/{file}", get(board::feed))
        .route("/health", get(health::get))
        .route("/ready", get(health::ready))
        .route("/openapi.json", get(openapi::get))
        .fallback(no_such_path);
    let metrics = door.reception.metrics();
    let door: Doorway = Arc::new(door);
    guarded(others.with_state(Arc::clone(&door)), plain.with_state(door), metrics)
}

/// Everything that any of our routers does for any request: problems instead
/// of axum's own errors, panics caught, an id, one log line, counted.
///
/// `plain` answers its errors itself, in plain text.
pub fn guarded(others: Router, plain: Router, metrics: Arc<Metrics>) -> Router {
    others
        .method_not_allowed_fallback(wrong_method)
        .layer(CatchPanicLayer::custom(|panic: Box<_>| problem::of_panic(&*panic).into_response()))
        .merge(plain)
        .layer(middleware::from_fn_with_state(metrics, access_log::log))
}

/// 404, in plain text where a plain gateway asks.
pub async fn no_such_path(request: Request) -> Response {
    let problem = Problem::new(StatusCode::NOT_FOUND, "no such path");
    if request.uri().path().starts_with("/v1/plain") {
        problem.as_text()
    } else {
        problem.into_response()
    }
}

async fn wrong_method() -> Problem {
    Problem::new(StatusCode::METHOD_NOT_ALLOWED, "this path takes another method")
}

async fn plain_method() -> Response {
    let problem = Problem::new(StatusCode::METHOD_NOT_ALLOWED, "send a POST or a GET");
    ([(ALLOW, "GET, POST")], problem.as_text()).into_response()
}
