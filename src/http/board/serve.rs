//! `GET /board/{token}`: the page for whoever has its address.

use axum::extract::rejection::PathRejection;
use axum::extract::{Path, State};
use axum::http::header::{
    CACHE_CONTROL, CONTENT_SECURITY_POLICY, HeaderName, REFERRER_POLICY, X_CONTENT_TYPE_OPTIONS,
};
use axum::http::{HeaderValue, StatusCode};
use axum::response::{Html, IntoResponse, Response};
use maud::Markup;

use super::layout;
use super::page::page;
use super::style::policy;
use crate::http::router::Door;
use crate::language::Language;
use crate::reply::{Label, voice};

/// Robots leave it alone. Common practice, no source.
const X_ROBOTS_TAG: HeaderName = HeaderName::from_static("x-robots-tag");

/// Shows the squad's page.
#[utoipa::path(get, path = "/board/{token}", tag = "operations",
    params(("token" = String, Path, description = "What the text `board` was answered with")),
    responses(
        (status = 200, description = "The page", body = String, content_type = "text/html"),
        (status = 404, description = "It is shut, or never was", body = String,
            content_type = "text/html"),
        (status = 503, description = "It can't be shown now", body = String,
            content_type = "text/html"),
    ))]
pub async fn show(
    State(door): State<Door>,
    token: Result<Path<String>, PathRejection>,
) -> Response {
    let shown = match token {
        Ok(Path(token)) => door.reception.board(token).await,
        Err(_) => Ok(None),
    };
    match shown {
        Ok(Some(board)) => answer(StatusCode::OK, page(&board)),
        // Whether it is shut or never was is nobody's business.
        Ok(None) => answer(StatusCode::NOT_FOUND, told(Label::Shut, Label::ShutHow, false)),
        Err(problem) => {
            answer(problem.status(), told(Label::Unavailable, Label::UnavailableHow, true))
        }
    }
}

/// A page of two sentences, to somebody whose language is not known.
fn told(heading: Label, how: Label, again: bool) -> Markup {
    let voice = voice(Language::English);
    layout::note(Language::English, voice.label(heading), voice.label(how), again)
}

/// The page with what keeps it hers: nothing keeps a copy, no address of it goes
/// anywhere, nothing is loaded from elsewhere or run.
fn answer(status: StatusCode, page: Markup) -> Response {
    let mut response = (status, Html(page.into_string())).into_response();
    let headers = response.headers_mut();
    headers.insert(CACHE_CONTROL, HeaderValue::from_static("no-store"));
    headers.insert(REFERRER_POLICY, HeaderValue::from_static("no-referrer"));
    headers.insert(X_CONTENT_TYPE_OPTIONS, HeaderValue::from_static("nosniff"));
    headers.insert(X_ROBOTS_TAG, HeaderValue::from_static("noindex, nofollow"));
    headers.insert(CONTENT_SECURITY_POLICY, policy());
    response
}
