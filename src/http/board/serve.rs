//! `GET /board/{token}`: the page for whoever has its address.

use axum::extract::rejection::PathRejection;
use axum::extract::{Path, RawQuery, State};
use axum::http::header::{
    CACHE_CONTROL, CONTENT_SECURITY_POLICY, HeaderName, REFERRER_POLICY, X_CONTENT_TYPE_OPTIONS,
};
use axum::http::{HeaderValue, StatusCode};
use axum::response::{Html, IntoResponse, Response};
use maud::Markup;

use super::layout::{self, Again};
use super::page::{Shown, page};
use super::policy::policy;
use crate::http::Problem;
use crate::http::router::Door;
use crate::language::Language;
use crate::reply::{Label, voice};

/// Robots leave it alone. Common practice, no source.
const X_ROBOTS_TAG: HeaderName = HeaderName::from_static("x-robots-tag");

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
        (status = 404, description = "It is shut, or never was", body = String,
            content_type = "text/html"),
        (status = 503, description = "It can't be shown now", body = String,
            content_type = "text/html"),
    ))]
pub async fn show(
    State(door): State<Door>,
    token: Result<Path<String>, PathRejection>,
    RawQuery(query): RawQuery,
) -> Response {
    let Ok(Path(token)) = token else { return shut() };
    seen(door.reception.board(token.clone()).await, |board| {
        let shown = match query.as_deref() {
            Some(STILL) => Shown::Still,
            Some(ALL) => Shown::Whole,
            _ => Shown::Live,
        };
        answer(StatusCode::OK, page(&board, &token, shown))
    })
}

/// What was found is shown; else it is shut, or can't be shown now.
pub fn seen<T>(found: Result<Option<T>, Problem>, shown: impl FnOnce(T) -> Response) -> Response {
    match found {
        Ok(Some(found)) => shown(found),
        Ok(None) => shut(),
        Err(problem) => refused(&problem),
    }
}

/// Whether it is shut or never was is nobody's business.
pub fn shut() -> Response {
    answer(StatusCode::NOT_FOUND, told(Label::Shut, Label::ShutHow, Again::Never))
}

/// It can't be shown now.
pub fn refused(problem: &Problem) -> Response {
    answer(problem.status(), told(Label::Unavailable, Label::UnavailableHow, Again::Browser))
}

/// A page of two sentences, to somebody whose language is not known.
fn told(heading: Label, how: Label, again: Again) -> Markup {
    let voice = voice(Language::English);
    layout::note(Language::English, voice.label(heading), voice.label(how), again)
}

/// The page with what keeps it theirs: nothing keeps a copy, no address of it goes
/// anywhere, nothing is loaded from elsewhere, and nothing but our own script runs.
pub fn answer(status: StatusCode, page: Markup) -> Response {
    let mut response = (status, Html(page.into_string())).into_response();
    guard(&mut response);
    response
}

/// What keeps an answer theirs who asked for it.
pub fn guard(response: &mut Response) {
    let headers = response.headers_mut();
    headers.insert(CACHE_CONTROL, HeaderValue::from_static("no-store"));
    headers.insert(REFERRER_POLICY, HeaderValue::from_static("no-referrer"));
    headers.insert(X_CONTENT_TYPE_OPTIONS, HeaderValue::from_static("nosniff"));
    headers.insert(X_ROBOTS_TAG, HeaderValue::from_static("noindex, nofollow"));
    headers.insert(CONTENT_SECURITY_POLICY, policy());
}
