//! How a page or a file goes out: with what keeps it theirs who asked for it.

use axum::http::header::{
    CACHE_CONTROL, CONTENT_SECURITY_POLICY, HeaderName, REFERRER_POLICY, X_CONTENT_TYPE_OPTIONS,
};
use axum::http::{HeaderValue, StatusCode};
use axum::response::{Html, IntoResponse, Response};
use maud::Markup;

use super::policy::policy;

/// Robots leave it alone. Common practice, no source.
const X_ROBOTS_TAG: HeaderName = HeaderName::from_static("x-robots-tag");

/// A page: nothing keeps a copy, no address of it goes anywhere, nothing is loaded from
/// elsewhere, and nothing but our own script runs.
pub fn answer(status: StatusCode, page: Markup) -> Response {
    guarded((status, Html(page.into_string())))
}

/// The same of any other answer.
pub fn guarded(answer: impl IntoResponse) -> Response {
    let mut response = answer.into_response();
    let headers = response.headers_mut();
    headers.insert(CACHE_CONTROL, HeaderValue::from_static("no-store"));
    headers.insert(REFERRER_POLICY, HeaderValue::from_static("no-referrer"));
    headers.insert(X_CONTENT_TYPE_OPTIONS, HeaderValue::from_static("nosniff"));
    headers.insert(X_ROBOTS_TAG, HeaderValue::from_static("noindex, nofollow"));
    headers.insert(CONTENT_SECURITY_POLICY, policy());
    response
}
