//! One try of one letter: a request, and what its answer means. Knows nothing
//! of other letters or of later tries; what a request looks like is its
//! [`Manner`]'s.

use std::error::Error;
use std::sync::Arc;
use std::time::Duration;

use governor::clock::{Clock as _, DefaultClock};
use governor::{DefaultDirectRateLimiter, Quota, RateLimiter};
use jiff::Timestamp;
use reqwest::header::RETRY_AFTER;
use reqwest::{Response, StatusCode};
use tokio::time::{sleep, timeout};

use super::guard::{NotPublic, PublicNames};
use super::{Destination, Manner, schedule};
use crate::service::Letter;
use crate::tls::{self, Trust};

/// How much of an answer's body is read before the connection is given up: only
/// a refusal's first words can mean something. Ours, in bytes.
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

/// How long a try of an alarm's letter may take at most: a slow other end may
/// still take it, and another way is tried meanwhile. Ours.
const URGENT: Duration = Duration::from_secs(10);

/// How long we listen whether the other end is there. Ours.
const KNOCK: Duration = Duration::from_millis(1500);

impl Default for Patience {
    /// Standard Webhooks 1.0.0 has a sender wait 15 to 30 s.
    fn default() -> Patience {
        Patience { connect: Duration::from_secs(5), whole: Duration::from_secs(20) }
    }
}

/// Carries letters to one destination.
pub struct Carrier {
    http: reqwest::Client,
    /// For alarms alone: no other letter is on its connections.
    urgent: reqwest::Client,
    destination: Destination,
    manner: Box<dyn Manner>,
    patience: Patience,
    limit: DefaultDirectRateLimiter,
}

/// Letters can't be carried at all.
#[derive(Debug, thiserror::Error)]
#[error("no way out for letters: {0}")]
pub struct NoCarrier(#[from] reqwest::Error);

/// Why a try failed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Returned {
    /// In words without any address.
    pub why: String,
    /// How long to leave this letter alone, if the other end said so.
    pub wait: Option<Duration>,
    /// What the other end wants from now on.
    pub wish: Option<Wish>,
}

/// What the other end wants from now on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Wish {
    /// Nothing at all for that long.
    Rest(Duration),
    /// Not this letter; the next may be another matter.
    NotThis,
    /// Nothing any more.
    Never,
    /// Nothing any more for this letter's recipient, who has opted out there.
    OptedOut,
}

/// What comes of a knock at the other end.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Knocked {
    /// It answers, with this status.
    Answers(StatusCode),
    /// No connection, or it breaks.
    Broken,
    /// A connection, and no word.
    Silent,
}

impl Carrier {
    /// A carrier to this destination, whose requests look as `manner` says.
    ///
    /// # Errors
    /// The system has no certificates to trust, and the destination wants TLS.
    pub fn new(
        destination: Destination,
        manner: impl Manner,
        patience: Patience,
    ) -> Result<Arc<Carrier>, NoCarrier> {
        let http = client(&destination, patience)?;
        let urgent = client(&destination, patience)?;
        let limit = RateLimiter::direct(Quota::per_minute(destination.per_minute));
        Ok(Arc::new(Carrier {
            http,
            urgent,
            destination,
            manner: Box::new(manner),
            patience,
            limit,
        }))
    }

    /// Tries a letter once.
    ///
    /// # Errors
    /// Anything but a 2xx in time.
    pub(super) async fn carry(&self, letter: &Letter, now: Timestamp) -> Result<(), Returned> {
        self.carry_by(&self.http, self.patience.whole, letter, now).await
    }

    /// Tries a letter of an alarm once, on connections of its own and whatever
    /// the destination's limit is.
    ///
    /// # Errors
    /// Anything but a 2xx in time.
    pub(super) async fn cry(&self, letter: &Letter, now: Timestamp) -> Result<(), Returned> {
        let patience = self.patience.whole.min(URGENT);
        // What the manner asks the other end first may hang as well.
        let tried = timeout(patience, self.carry_by(&self.urgent, patience, letter, now));
        tried.await.unwrap_or_else(|_| Err(Returned::because("no answer in time")))
    }

    /// Whether the other end is there: asks for the head of its address, which
    /// changes nothing there (RFC 9110, section 9.3.2).
    pub(super) async fn knock(&self) -> Knocked {
        let request = self.urgent.head(self.destination.url.clone());
        match timeout(KNOCK, request.send()).await {
            Err(_) => Knocked::Silent,
            Ok(Err(_)) => Knocked::Broken,
            Ok(Ok(response)) => Knocked::Answers(response.status()),
        }
    }

    async fn carry_by(
        &self,
        http: &reqwest::Client,
        patience: Duration,
        letter: &Letter,
        now: Timestamp,
    ) -> Result<(), Returned> {
        let request = self.manner.request(http, &self.destination.url, letter, now).await?;
        let response = match timeout(patience, request.send()).await {
            Err(_) => return Err(Returned::because("no answer in time")),
            Ok(Err(failed)) => return Err(Returned::because(in_words(&failed))),
            Ok(Ok(response)) => response,
        };
        let (status, wait) = (response.status(), wait_asked(&response, now));
        // A connection whose answer was read to its end can be used again.
        let mut said = Vec::new();
        let _ = timeout(BODY_PATIENCE, head_of(response, &mut said)).await;
        if status.is_success() {
            return Ok(());
        }
        let wish = self.manner.wish(status, &said).or_else(|| wish(status, wait));
        Err(Returned { why: status.to_string(), wait, wish })
    }

    /// Returns once the destination's limit lets a letter through, and counts
    /// it.
    pub(super) async fn admitted(&self) {
        while let Err(early) = self.limit.check() {
            sleep(early.wait_time_from(DefaultClock::default().now())).await;
        }
    }
}

/// A client for this destination and no other.
///
/// # Errors
/// The system has no certificates to trust, and the destination wants TLS.
pub fn client(destination: &Destination, patience: Patience) -> Result<reqwest::Client, NoCarrier> {
    let trust = if destination.url.scheme() == "https" { Trust::System } else { Trust::None };
    // A proxy would look the name up where our guard doesn't stand, and a
    // redirect would go where nobody asked us to.
    let builder = tls::client(trust)
        .no_proxy()
        .redirect(reqwest::redirect::Policy::none())
        .user_agent(concat!("lapwing/", env!("CARGO_PKG_VERSION")))
        .connect_timeout(patience.connect)
        .tcp_nodelay(true);
    Ok(if destination.allow_private {
        builder.build()?
    } else {
        builder.dns_resolver(PublicNames).build()?
    })
}

impl Returned {
    /// For this reason, to be tried again when the schedule says.
    pub fn because(why: impl Into<String>) -> Returned {
        Returned { why: why.into(), wait: None, wish: None }
    }
}

fn wait_asked(response: &Response, now: Timestamp) -> Option<Duration> {
    let field = response.headers().get(RETRY_AFTER)?;
    schedule::retry_after(field.to_str().ok()?, now)
}

/// What a status asks for in any manner.
fn wish(status: StatusCode, wait: Option<Duration>) -> Option<Wish> {
    match status {
        StatusCode::GONE => Some(Wish::Never),
        StatusCode::TOO_MANY_REQUESTS | StatusCode::SERVICE_UNAVAILABLE => wait.map(Wish::Rest),
        // These two say that it is only too early (RFC 9110, RFC 8470).
        StatusCode::REQUEST_TIMEOUT | StatusCode::TOO_EARLY => None,
        refusal if refusal.is_client_error() => Some(Wish::NotThis),
        _ => None,
    }
}

async fn head_of(mut response: Response, said: &mut Vec<u8>) {
    while let Ok(Some(chunk)) = response.chunk().await {
        said.extend_from_slice(&chunk);
        if said.len() > BODY {
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
