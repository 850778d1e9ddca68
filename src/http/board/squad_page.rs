//! `GET /board/{token}`: the page for whoever has its address.

use axum::extract::{RawQuery, State};
use axum::http::StatusCode;
use axum::response::Response;

use super::address::{Address, NotShown, behind};
use super::answer::answer;
use super::page::{Shown, page};
use crate::http::router::Doorway;

/// The query that asks for a page which doesn't look again by itself.
const STILL: &str = "still";
/// The query that asks for all of each list.
const ALL: &str = "all";

/// Shows the squad's page.
#[utoipa::path(get, path = "/board/{token}", tag = "operations",
    params(("token" = String, Path, description = "What the text `board` was answered with"),
        ("still" = Option<String>, Query, description = "It doesn't look again by itself"),
        ("all" = Option<String>, Query, description = "All of each list")),
    responses(
        (status = 200, description = "The page", body = String, content_type = "text/html"),
        NotShown,
    ))]
pub async fn show(
    State(door): State<Doorway>,
    Address(token): Address<String>,
    RawQuery(query): RawQuery,
) -> Result<Response, NotShown> {
    let look =
        behind(
            &door.reception,
            &token,
            |service, token| async move { service.board(&token).await },
        );
    let board = look.await?;
    let shown = match query.as_deref() {
        Some(STILL) => Shown::Still,
        Some(ALL) => Shown::Whole,
        _ => Shown::Live,
    };
    Ok(answer(StatusCode::OK, page(&board, &token, shown)))
}
