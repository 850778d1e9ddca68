//! One log line a request and its id, without texts, addresses, queries or
//! tokens.
//!
//! Only failures of ours are logged unless asked for (`RUST_LOG=lapwing=debug`):
//! whoever started us and doesn't read our log would stop us by it.

use std::cell::RefCell;
use std::sync::Arc;
use std::time::Instant;

use axum::extract::{MatchedPath, Request, State};
use axum::http::{HeaderName, HeaderValue, Method};
use axum::middleware::Next;
use axum::response::Response;

use super::Metrics;
use crate::digest;

/// Common practice, no source.
const REQUEST_ID: HeaderName = HeaderName::from_static("x-request-id");

/// The longest request id that we take over, in bytes. Ours.
const LONGEST_ID: usize = 128;

/// Logs what was asked, in the route's own words, and how it went; gives the
/// answer the request's id, or a new one.
pub async fn log(State(metrics): State<Arc<Metrics>>, request: Request, next: Next) -> Response {
    let begun = Instant::now();
    let method = named(request.method());
    let route = request.extensions().get::<MatchedPath>().cloned();
    let id = request_id(&request);
    let mut response = next.run(request).await;
    let route = route.as_ref().map_or("none", MatchedPath::as_str);
    let (status, took) = (response.status().as_u16(), begun.elapsed());
    metrics.answered(route, method, status, took);
    let elapsed_us = u64::try_from(took.as_micros()).unwrap_or(u64::MAX);
    let shown = id.as_ref().and_then(|id| id.to_str().ok()).unwrap_or_default();
    if response.status().is_server_error() {
        tracing::warn!(%method, route, status, elapsed_us, request = shown, "failed");
    } else {
        tracing::debug!(%method, route, status, elapsed_us, request = shown, "answered");
    }
    id.into_iter().for_each(|id| drop(response.headers_mut().insert(REQUEST_ID, id)));
    response
}

/// Methods that anybody may invent make one label.
fn named(method: &Method) -> &'static str {
    match method.as_str() {
        "GET" => "GET",
        "HEAD" => "HEAD",
        "POST" => "POST",
        "PUT" => "PUT",
        "DELETE" => "DELETE",
        "OPTIONS" => "OPTIONS",
        "PATCH" => "PATCH",
        _ => "other",
    }
}

/// The request's own id where it has one that may be shown, else a new one.
fn request_id(request: &Request) -> Option<HeaderValue> {
    let fits = |id: &&HeaderValue| {
        (1..=LONGEST_ID).contains(&id.len()) && id.as_bytes().iter().all(u8::is_ascii_graphic)
    };
    request.headers().get(REQUEST_ID).filter(fits).cloned().or_else(made)
}

fn made() -> Option<HeaderValue> {
    HeaderValue::try_from(digest::hex(&DRAWN.with_borrow_mut(drawn)?)).ok()
}

/// How many bytes of an id are drawn.
const ID: usize = 16;
/// For so many ids at once: the system is asked for each draw.
const AHEAD: usize = 32;

thread_local! {
    /// What was drawn for ids to come.
    static DRAWN: RefCell<Vec<u8>> = const { RefCell::new(Vec::new()) };
}

/// Bytes that no other id has; `None` without randomness.
fn drawn(ahead: &mut Vec<u8>) -> Option<[u8; ID]> {
    if ahead.is_empty() {
        let mut bytes = vec![0; AHEAD * ID];
        getrandom::fill(&mut bytes).ok()?;
        *ahead = bytes;
    }
    let (rest, id) = ahead.split_last_chunk()?;
    let (left, id) = (rest.len(), *id);
    ahead.truncate(left);
    Some(id)
}

#[cfg(test)]
mod tests {
    use std::collections::HashSet;

    use super::*;

    #[test]
    fn no_two_ids_are_alike() {
        let ids: HashSet<HeaderValue> = (0..3 * AHEAD).filter_map(|_| made()).collect();
        assert_eq!(ids.len(), 3 * AHEAD);
        assert!(
            ids.iter().all(|id| id.len() == 2 * ID && !id.as_bytes().iter().all(|b| *b == b'0'))
        );
    }
}
