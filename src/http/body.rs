//! Reading a request's body within bounds of size and time.

use std::time::Duration;

use axum::body::Body;
use axum::http::StatusCode;
use http_body_util::BodyExt;
use tokio::time::{Instant, timeout, timeout_at};

use super::Problem;

/// The longest body that is taken, in bytes.
const MOST: usize = 64 * 1024;

/// How much of a longer one is read and dropped before the answer, in bytes,
/// so that a client that writes before it reads sees the answer at all.
const MOST_DROPPED: usize = 1024 * 1024;

/// How long what comes after that is dropped, while the answer is on its way:
/// closing on unread bytes resets the connection and takes the answer with it.
const LINGER: Duration = Duration::from_secs(2);

/// The whole body, which must have come within `patience`.
///
/// # Errors
/// 413 over 64 KiB, 408 when it takes longer, 400 when it breaks off.
pub async fn read(body: Body, patience: Duration) -> Result<Vec<u8>, Problem> {
    read_of(MOST, body, patience).await
}

/// The same of at most so many bytes.
///
/// # Errors
/// 413 over that, 408 when it takes longer, 400 when it breaks off.
pub async fn read_of(most: usize, mut body: Body, patience: Duration) -> Result<Vec<u8>, Problem> {
    let deadline = Instant::now() + patience;
    let mut kept = Vec::new();
    let mut seen = 0_usize;
    loop {
        let frame = timeout_at(deadline, body.frame())
            .await
            .map_err(|_| Problem::new(StatusCode::REQUEST_TIMEOUT, "the body took too long"))
            .map_err(Problem::hanging_up)?;
        let Some(frame) = frame else { break };
        let frame = frame
            .map_err(|_| Problem::new(StatusCode::BAD_REQUEST, "the body broke off"))
            .map_err(Problem::hanging_up)?;
        let Some(data) = frame.data_ref() else { continue };
        seen = seen.saturating_add(data.len());
        if seen <= most {
            kept.extend_from_slice(data);
        } else if seen >= most.max(MOST_DROPPED) {
            tokio::spawn(timeout(LINGER, drop_rest(body)));
            return Err(too_long(most).hanging_up());
        }
    }
    if seen <= most { Ok(kept) } else { Err(too_long(most)) }
}

fn too_long(most: usize) -> Problem {
    let most = most / 1024;
    Problem::new(StatusCode::PAYLOAD_TOO_LARGE, format!("the body is longer than {most} KiB"))
}

async fn drop_rest(mut body: Body) {
    while let Some(Ok(_)) = body.frame().await {}
}
