//! One log line a request, without texts, addresses, queries or tokens.
//!
//! Only failures of ours are logged unless asked for (`RUST_LOG=lapwing=debug`):
//! whoever started us and doesn't read our log would stop us by it.

use std::time::Instant;

use axum::extract::{MatchedPath, Request};
use axum::middleware::Next;
use axum::response::Response;

/// Logs what was asked, in the route's own words, and how it went.
pub async fn log(request: Request, next: Next) -> Response {
    let begun = Instant::now();
    let method = request.method().clone();
    let route = request.extensions().get::<MatchedPath>().cloned();
    let response = next.run(request).await;
    let route = route.as_ref().map_or("none", MatchedPath::as_str);
    let status = response.status().as_u16();
    let elapsed_us = u64::try_from(begun.elapsed().as_micros()).unwrap_or(u64::MAX);
    if response.status().is_server_error() {
        tracing::warn!(%method, route, status, elapsed_us, "failed");
    } else {
        tracing::debug!(%method, route, status, elapsed_us, "answered");
    }
    response
}
