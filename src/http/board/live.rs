//! `GET /board/{token}/live`: tells a page that is looked at when to look again, as
//! server-sent events (HTML Living Standard, WHATWG, section 9.2).
//!
//! Says that something changed, never what: what may be seen is decided at each
//! look. Where all places are taken, whoever only listens gives way as any idle
//! connection does, and their page looks by itself.

use std::convert::Infallible;
use std::time::Duration;

use axum::extract::State;
use axum::http::{HeaderName, HeaderValue};
use axum::response::Response;
use axum::response::sse::{Event, Sse};
use futures_util::stream::{Stream, unfold};
use tokio::time::sleep;

use super::address::{Address, NotShown, behind};
use super::answer::guarded;
use crate::http::Reception;
use crate::http::router::Doorway;
use crate::service::Changes;

/// Something changed: look again.
const CHANGED: &str = "changed";
/// Nothing did; the line is there.
const CALM: &str = "calm";

/// The longest time in which nothing is said (ours: a page misses the line soon
/// after two of them, and 500 pages cost a hundred short lines a second).
const BEAT: Duration = Duration::from_secs(5);
/// The shortest between two changes that are told (ours: an evening's texts come in
/// bursts, and each look is a whole page).
const GAP: Duration = Duration::from_millis(200);

/// Has proxies pass on each line as it comes. Common practice, no source.
const X_ACCEL_BUFFERING: HeaderName = HeaderName::from_static("x-accel-buffering");

/// Tells the squad's page when to look again.
#[utoipa::path(get, path = "/board/{token}/live", tag = "operations",
    params(("token" = String, Path, description = "What the text `board` was answered with")),
    responses(
        (status = 200, description = "Server-sent events for as long as the page is open: \
            `changed` for each change, `calm` every five seconds", body = String,
            content_type = "text/event-stream"),
        NotShown,
    ))]
pub async fn live(
    State(door): State<Doorway>,
    Address(token): Address<String>,
) -> Result<Response, NotShown> {
    let changes = changes(&door.reception, &token).await?;
    let line = Line { reception: door.reception.clone(), token, changes, said: None };
    let mut response = guarded(Sse::new(line.events()));
    response.headers_mut().insert(X_ACCEL_BUFFERING, HeaderValue::from_static("no"));
    Ok(response)
}

async fn changes(reception: &Reception, token: &str) -> Result<Changes, NotShown> {
    behind(reception, token, |service, token| async move { service.changes_of_board(&token) }).await
}

/// A page that listens.
struct Line {
    reception: Reception,
    token: String,
    changes: Changes,
    /// What was said last.
    said: Option<&'static str>,
}

impl Line {
    fn events(self) -> impl Stream<Item = Result<Event, Infallible>> {
        unfold(self, |line| async move {
            let (said, line) = line.next().await?;
            Some((Ok(Event::default().data(said)), line))
        })
    }

    /// What is said next; nothing more once we stop, or the page is shut: its next
    /// look finds that out.
    async fn next(mut self) -> Option<(&'static str, Line)> {
        let stopping = self.reception.stopping().clone();
        let said = match self.said {
            // At once, so that the page knows of the line.
            None => CALM,
            Some(_) => tokio::select! {
                () = stopping.cancelled() => return None,
                said = self.hears() => said,
            },
        };
        changes(&self.reception, &self.token).await.ok()?;
        self.said = Some(said);
        Some((said, self))
    }

    async fn hears(&mut self) -> &'static str {
        if self.said == Some(CHANGED) {
            sleep(GAP).await;
        }
        tokio::select! {
            () = self.changes.next() => CHANGED,
            () = sleep(BEAT) => CALM,
        }
    }
}
