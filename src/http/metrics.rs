//! Figures for a monitor to fetch, as OpenMetrics writes them.
//!
//! Counted by route and gateway; nobody's number or words are in them.

use std::time::Duration;

use axum::Router;
use axum::extract::State;
use axum::http::header::CONTENT_TYPE;
use axum::response::IntoResponse;
use axum::routing::get;
use prometheus_client::encoding::EncodeLabelSet;
use prometheus_client::encoding::text::encode;
use prometheus_client::metrics::counter::Counter;
use prometheus_client::metrics::family::Family;
use prometheus_client::metrics::gauge::Gauge;
use prometheus_client::metrics::histogram::{Histogram, exponential_buckets};
use prometheus_client::registry::{Registry, Unit};

use super::router::{guarded, no_such_path};
use super::{Problem, Reception};

/// OpenMetrics 1.0.0, "Overall Structure".
const MEDIA_TYPE: &str = "application/openmetrics-text; version=1.0.0; charset=utf-8";

/// What is counted.
pub struct Metrics {
    registry: Registry,
    requests: Family<Request, Counter>,
    seconds: Family<Route, Histogram>,
    messages: Family<Message, Counter>,
    letters: Gauge,
    unheard: Gauge,
    ready: Gauge,
    leads: Gauge,
    decided_again: Gauge,
}

/// What is counted elsewhere.
struct Figures {
    letters_waiting: usize,
    unheard: usize,
    ready: bool,
    leads: bool,
    decided_again: u64,
}

#[derive(Debug, Clone, PartialEq, Eq, Hash, EncodeLabelSet)]
struct Request {
    route: String,
    method: &'static str,
    status: u16,
}

#[derive(Debug, Clone, PartialEq, Eq, Hash, EncodeLabelSet)]
struct Route {
    route: String,
}

#[derive(Debug, Clone, PartialEq, Eq, Hash, EncodeLabelSet)]
struct Message {
    channel: String,
    outcome: &'static str,
}

impl Default for Metrics {
    fn default() -> Metrics {
        // From 1 ms to 16 s, each bound twice the one before.
        let histogram: fn() -> Histogram = || Histogram::new(exponential_buckets(0.001, 2.0, 15));
        let mut metrics = Metrics {
            registry: Registry::with_prefix("lapwing"),
            requests: Family::default(),
            seconds: Family::new_with_constructor(histogram),
            messages: Family::default(),
            letters: Gauge::default(),
            unheard: Gauge::default(),
            ready: Gauge::default(),
            leads: Gauge::default(),
            decided_again: Gauge::default(),
        };
        let all = &mut metrics.registry;
        all.register("requests", "HTTP requests answered", metrics.requests.clone());
        let (seconds, help) = (metrics.seconds.clone(), "Time from a request's head to its answer");
        all.register_with_unit("request", help, Unit::Seconds, seconds);
        all.register(
            "messages",
            "Messages taken in, by what became of them",
            metrics.messages.clone(),
        );
        all.register(
            "letters_waiting",
            "Texts to others that wait for delivery",
            metrics.letters.clone(),
        );
        all.register(
            "alarms_unheard",
            "Alarms that have reached nobody who can help",
            metrics.unheard.clone(),
        );
        all.register("ready", "1 while messages are taken", metrics.ready.clone());
        all.register(
            "leads",
            "1 in the one of several processes that sends what is to be sent",
            metrics.leads.clone(),
        );
        all.register(
            "decided_again",
            "Messages decided anew, since another process had changed what they stood on",
            metrics.decided_again.clone(),
        );
        metrics
    }
}

impl Metrics {
    /// Counts a request that was answered.
    pub(super) fn answered(&self, route: &str, method: &'static str, status: u16, took: Duration) {
        let request = Request { route: route.to_owned(), method, status };
        self.requests.get_or_create(&request).inc();
        let route = Route { route: route.to_owned() };
        self.seconds.get_or_create(&route).observe(took.as_secs_f64());
    }

    /// Counts a message that came by this channel.
    pub(super) fn message(&self, channel: &str, outcome: &'static str) {
        let message = Message { channel: channel.to_owned(), outcome };
        self.messages.get_or_create(&message).inc();
    }

    fn text(&self, figures: &Figures) -> Result<String, std::fmt::Error> {
        self.unheard.set(i64::try_from(figures.unheard).unwrap_or(i64::MAX));
        self.letters.set(i64::try_from(figures.letters_waiting).unwrap_or(i64::MAX));
        self.ready.set(i64::from(figures.ready));
        self.leads.set(i64::from(figures.leads));
        self.decided_again.set(i64::try_from(figures.decided_again).unwrap_or(i64::MAX));
        let mut text = String::new();
        encode(&mut text, &self.registry)?;
        Ok(text)
    }
}

/// The one path of the monitor's own listener.
pub fn metrics_router(reception: Reception) -> Router {
    let metrics = reception.metrics();
    let paths = Router::new().route("/metrics", get(fetch)).fallback(no_such_path);
    guarded(paths.with_state(reception), Router::new(), metrics)
}

async fn fetch(State(reception): State<Reception>) -> Result<impl IntoResponse, Problem> {
    let figures = Figures {
        letters_waiting: reception.letters_waiting(),
        unheard: reception.unheard().0,
        ready: reception.ready().is_ok(),
        leads: reception.leads(),
        decided_again: reception.decided_again(),
    };
    let text = reception.metrics().text(&figures).map_err(|_| Problem::fault())?;
    Ok(([(CONTENT_TYPE, MEDIA_TYPE)], text))
}
