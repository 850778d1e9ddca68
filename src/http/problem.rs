//! Errors as RFC 9457 writes them, `application/problem+json`; and the same
//! errors in plain text for gateways, which know no other.

use std::any::Any;
use std::borrow::Cow;
use std::time::Duration;

use axum::Json;
use axum::http::header::{CONNECTION, CONTENT_TYPE, RETRY_AFTER};
use axum::http::{HeaderValue, StatusCode};
use axum::response::{IntoResponse, Response};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use crate::service::Failure;

/// Seconds after which a sender may try again when we could not take it.
const RETRY_AFTER_S: u64 = 5;

/// Why a request got no answer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    status: StatusCode,
    detail: Cow<'static, str>,
    retry_after_s: Option<u64>,
    hang_up: bool,
}

/// The members of RFC 9457 that we send; `type` is left out, which means
/// `about:blank`: the status says all.
#[derive(Debug, Serialize, Deserialize, ToSchema)]
#[schema(as = Problem)]
pub struct ProblemBody {
    /// The status in words.
    pub title: String,
    /// The status.
    pub status: u16,
    /// What is wrong with this very request.
    pub detail: String,
}

impl Problem {
    /// A problem with this status, told in a sentence without a full stop.
    pub fn new(status: StatusCode, detail: impl Into<Cow<'static, str>>) -> Problem {
        Problem { status, detail: detail.into(), retry_after_s: None, hang_up: false }
    }

    /// 503, to be tried again: the store can't take it, or we are stopping.
    pub fn unavailable(detail: impl Into<Cow<'static, str>>) -> Problem {
        Problem {
            retry_after_s: Some(RETRY_AFTER_S),
            ..Problem::new(StatusCode::SERVICE_UNAVAILABLE, detail)
        }
    }

    /// The same, to be tried again after this long, up to the whole second.
    pub fn retried_after(self, wait: Duration) -> Problem {
        let whole = wait.as_secs() + u64::from(wait.subsec_nanos() > 0);
        Problem { retry_after_s: Some(whole), ..self }
    }

    /// 500: a fault of ours; what it was stands in the log alone.
    pub fn fault() -> Problem {
        Problem::new(StatusCode::INTERNAL_SERVER_ERROR, "a fault of ours, now in the log")
    }

    /// The same, with the connection closed after it, because the rest of the
    /// request was never read.
    pub fn hanging_up(self) -> Problem {
        Problem { hang_up: true, ..self }
    }

    /// Its status.
    pub fn status(&self) -> StatusCode {
        self.status
    }

    /// The problem as one line of text, for a gateway.
    pub fn as_text(&self) -> Response {
        let line = format!("{}: {}", self.title(), self.detail);
        self.with_headers((self.status, line).into_response())
    }

    fn title(&self) -> &'static str {
        self.status.canonical_reason().unwrap_or("Error")
    }

    fn with_headers(&self, mut response: Response) -> Response {
        let headers = response.headers_mut();
        if let Some(seconds) = self.retry_after_s {
            headers.insert(RETRY_AFTER, HeaderValue::from(seconds));
        }
        if self.hang_up {
            headers.insert(CONNECTION, HeaderValue::from_static("close"));
        }
        response
    }
}

impl IntoResponse for Problem {
    fn into_response(self) -> Response {
        let body = ProblemBody {
            title: self.title().to_owned(),
            status: self.status.as_u16(),
            detail: self.detail.clone().into_owned(),
        };
        let mut response = (self.status, Json(body)).into_response();
        response
            .headers_mut()
            .insert(CONTENT_TYPE, HeaderValue::from_static("application/problem+json"));
        self.with_headers(response)
    }
}

impl From<Failure> for Problem {
    fn from(failure: Failure) -> Problem {
        let detail = failure.to_string();
        match failure {
            Failure::Conflict => Problem::new(StatusCode::CONFLICT, detail),
            Failure::Refused(_) => Problem::new(StatusCode::UNPROCESSABLE_ENTITY, detail),
            Failure::ReadOnly(_) | Failure::Unavailable => Problem::unavailable(detail),
        }
    }
}

/// The problem to answer with where a handler panicked.
pub fn of_panic(panic: &(dyn Any + Send)) -> Problem {
    let words = panic
        .downcast_ref::<String>()
        .map(String::as_str)
        .or_else(|| panic.downcast_ref::<&str>().copied())
        .unwrap_or("no words");
    tracing::error!(words, "a request panicked");
    Problem::fault()
}
