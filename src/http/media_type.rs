//! What a request says its body is.

use axum::http::HeaderMap;
use axum::http::StatusCode;
use axum::http::header::{CONTENT_ENCODING, CONTENT_TYPE};
use mime::Mime;

use super::Problem;

/// The body's media type with its parameters; `None` where none is stated.
///
/// # Errors
/// 415 where it can't be read, or where the body is compressed.
pub fn of(headers: &HeaderMap) -> Result<Option<Mime>, Problem> {
    let encoded = headers
        .get(CONTENT_ENCODING)
        .is_some_and(|encoding| !encoding.as_bytes().eq_ignore_ascii_case(b"identity"));
    if encoded {
        return Err(unsupported("a body must not be compressed"));
    }
    let Some(stated) = headers.get(CONTENT_TYPE) else { return Ok(None) };
    stated
        .to_str()
        .ok()
        .and_then(|stated| stated.parse().ok())
        .map(Some)
        .ok_or_else(|| unsupported("this content-type can't be read"))
}

/// 415.
pub fn unsupported(detail: &'static str) -> Problem {
    Problem::new(StatusCode::UNSUPPORTED_MEDIA_TYPE, detail)
}
