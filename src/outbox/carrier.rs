//! One try of one letter: a signed request, and what its answer means. Knows
//! nothing of other letters or of later tries.

use std::error::Error;
use std::sync::Arc;
use std::time::Duration;

use governor::clock::{Clock as _, DefaultClock};
use governor::{DefaultDirectRateLimiter, Quota, RateLimiter};
use jiff::Timestamp;
use reqwest::header::{CONTENT_TYPE, RETRY_AFTER};
use reqwest::{Response, StatusCode};
use serde::Serialize;
use tokio::time::{sleep, timeout};

use super::Destination;
use super::guard::{NotPublic, PublicNames};
use super::schedule;
use crate::service::Letter;
use crate::signing::{Secret, sign};
use crate::tls::{self, Trust};

/// How much of an answer's body is read before the connection is given up: its
/// words mean nothing to us. Ours, in bytes.
const BODY: usize = 4096;

/// How long its body may take.
const BODY_PATIENCE: Duration = Duration::from_secs(2);

/// How long a try may take.
#[derive(Debug, Clone, Copy)]
pub struct Patience {
    /// To find the other end.
    pub connect: Duration,
    /// In all, until the answer's head is there.
    pub whole: Duration,
}

impl Default for Patience {
    /// Standard Webhooks 1.0.0 has a sender wait 15 to 30 s.
    fn default() -> Patience {
        Patience { connect: Duration::from_secs(5), whole: Duration::from_secs(20) }
    }
}

/// Carries letters to one destination.
pub struct Carrier {
    http: reqwest::Client,
    destination: Destination,
    secrets: Vec<Secret>,
    patience: Patience,
    limit: DefaultDirectRateLimiter,
}

/// Letters can't be carried at all.
#[derive(Debug, thiserror::Error)]
#[error("no way out for letters: {0}")]
pub struct NoCarrier(#[from] reqwest::Error);

/// Why a try failed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Returned {
    /// In words without any address.
    pub why: String,
    /// How long to leave this letter alone, if the other end said so.
    pub wait: Option<Duration>,
    /// What the other end wants for all letters.
    pub wish: Option<Wish>,
}

/// What the other end wants for all letters.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Wish {
    /// Nothing at all for that long.
    Rest(Duration),
    /// Nothing any more.
    Never,
}

/// The body of a request.
#[derive(Serialize)]
struct Payload<'a> {
    r#type: &'static str,
    timestamp: Timestamp,
    data: Data<'a>,
}

#[derive(Serialize)]
struct Data<'a> {
    to: &'a str,
    room: Option<&'a str>,
    text: &'a str,
    parts: &'a [String],
}

impl Carrier {
    /// A carrier that signs with each of these secrets, so that one can follow
    /// another without a break.
    ///
    /// # Errors
    /// The system has no certificates to trust, and the destination wants TLS.
    pub fn new(
        destination: Destination,
        secrets: Vec<Secret>,
        patience: Patience,
    ) -> Result<Arc<Carrier>, NoCarrier> {
        let trust = if destination.url.scheme() == "https" { Trust::System } else { Trust::None };
        // A proxy would look the name up where our guard doesn't stand, and a
        // redirect would go where nobody asked us to.
        let builder = tls::client(trust)
            .no_proxy()
            .redirect(reqwest::redirect::Policy::none())
            .user_agent(concat!("lapwing/", env!("CARGO_PKG_VERSION")))
            .connect_timeout(patience.connect)
            .tcp_nodelay(true);
        let http = if destination.allow_private {
            builder.build()?
        } else {
            builder.dns_resolver(PublicNames).build()?
        };
        let limit = RateLimiter::direct(Quota::per_minute(destination.per_minute));
        Ok(Arc::new(Carrier { http, destination, secrets, patience, limit }))
    }

    /// Tries a letter once.
    ///
    /// # Errors
    /// Anything but a 2xx in time.
    pub(super) async fn carry(&self, letter: &Letter, now: Timestamp) -> Result<(), Returned> {
        let body = payload(letter)?;
        let signatures: Vec<String> = self
            .secrets
            .iter()
            .map(|secret| sign(secret, letter.id.as_bytes(), now, &body))
            .collect();
        let request = self
            .http
            .post(self.destination.url.clone())
            .header(CONTENT_TYPE, "application/json")
            .header("webhook-id", &letter.id)
            .header("webhook-timestamp", now.as_second())
            .header("webhook-signature", signatures.join(" "))
            .body(body)
            .send();
        let response = match timeout(self.patience.whole, request).await {
            Err(_) => return Err(Returned::because("no answer in time")),
            Ok(Err(failed)) => return Err(Returned::because(in_words(&failed))),
            Ok(Ok(response)) => response,
        };
        let outcome = meaning(&response, now);
        // A connection whose answer was read to its end can be used again.
        let _ = timeout(BODY_PATIENCE, drain(response)).await;
        outcome
    }

    /// Returns once the destination's limit lets a letter through, and counts
    /// it.
    pub(super) async fn admitted(&self) {
        while let Err(early) = self.limit.check() {
            sleep(early.wait_time_from(DefaultClock::default().now())).await;
        }
    }
}

impl Returned {
    pub(super) fn because(why: impl Into<String>) -> Returned {
        Returned { why: why.into(), wait: None, wish: None }
    }
}

/// The same bytes for every try.
fn payload(letter: &Letter) -> Result<Vec<u8>, Returned> {
    let spoken = &letter.spoken;
    let payload = Payload {
        r#type: "reply.send",
        timestamp: letter.written,
        data: Data {
            to: &spoken.to,
            room: spoken.room.as_deref(),
            text: &spoken.text,
            parts: &spoken.parts,
        },
    };
    serde_json::to_vec(&payload).map_err(|failed| Returned::because(failed.to_string()))
}

fn meaning(response: &Response, now: Timestamp) -> Result<(), Returned> {
    let status = response.status();
    if status.is_success() {
        return Ok(());
    }
    let wait = response
        .headers()
        .get(RETRY_AFTER)
        .and_then(|field| schedule::retry_after(field.to_str().ok()?, now));
    let wish = match status {
        StatusCode::GONE => Some(Wish::Never),
        StatusCode::TOO_MANY_REQUESTS | StatusCode::SERVICE_UNAVAILABLE => wait.map(Wish::Rest),
        _ => None,
    };
    Err(Returned { why: status.to_string(), wait, wish })
}

async fn drain(mut response: Response) {
    let mut read = 0;
    while let Ok(Some(chunk)) = response.chunk().await {
        read += chunk.len();
        if read > BODY {
            return;
        }
    }
}

/// Without the URL, which may hold a token.
fn in_words(failed: &reqwest::Error) -> &'static str {
    let mut cause: Option<&dyn Error> = Some(failed);
    while let Some(error) = cause {
        if error.is::<NotPublic>() {
            return "the address is a private one";
        }
        cause = error.source();
    }
    if failed.is_timeout() {
        "no connection in time"
    } else if failed.is_connect() {
        "no connection"
    } else {
        "the connection broke"
    }
}
