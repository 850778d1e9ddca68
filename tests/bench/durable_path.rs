//! What a durable answer costs: `200 test …` through the whole service, beside
//! a bare handler that checks the same signature and answers at once. Both in
//! one run, 64 connections each; read the ratio, not the figures.
//!
//! `cargo bench --bench durable_path`, or with a number of seconds each after
//! `--`.
#![expect(clippy::unwrap_used, reason = "a benchmark that can't go on has failed")]

use std::net::SocketAddr;
use std::sync::Arc;
use std::time::{Duration, Instant};

use axum::Router;
use axum::body::Bytes;
use axum::extract::State;
use axum::http::{HeaderMap, StatusCode};
use axum::routing::post;
use jiff::Timestamp;
use lapwing::clock::{ClockMode, WallClock};
use lapwing::http::{self, Door, Limits, Reception};
use lapwing::journal::SledJournal;
use lapwing::service::{Body, Incoming, NewSquad, Service};
use lapwing::signing::{Secret, sign};
use lapwing::units::Course;
use tokio::net::TcpListener;
use tokio_util::sync::CancellationToken;

const CONNECTIONS: usize = 64;
const SQUADS: usize = 8;

fn main() {
    let seconds = std::env::args().filter_map(|word| word.parse().ok()).next().unwrap_or(5);
    let runtime = tokio::runtime::Builder::new_multi_thread().enable_all().build().unwrap();
    runtime.block_on(compare(Duration::from_secs(seconds)));
}

async fn compare(span: Duration) {
    let secret = Secret::generate().unwrap();
    let bare = serve_bare(secret.clone()).await;
    let (durable, _folder) = serve_durable(secret.clone()).await;
    let bare = load(bare, &secret, span, "bare handler").await;
    let durable = load(durable, &secret, span, "durable path").await;
    println!("bare / durable: {:.1} x the requests", bare / durable);
}

/// Checks the signature, reads the JSON, answers 200.
async fn serve_bare(secret: Secret) -> SocketAddr {
    async fn handler(State(secret): State<Secret>, headers: HeaderMap, body: Bytes) -> StatusCode {
        let word =
            |name: &str| headers.get(name).and_then(|value| value.to_str().ok()).unwrap_or("");
        let at =
            word("webhook-timestamp").parse().ok().and_then(|s| Timestamp::from_second(s).ok());
        let signed = at.map(|at| sign(&secret, word("webhook-id").as_bytes(), at, &body));
        let read: Result<serde_json::Value, _> = serde_json::from_slice(&body);
        match (signed, read) {
            (Some(signed), Ok(_)) if signed == word("webhook-signature") => StatusCode::OK,
            _ => StatusCode::UNAUTHORIZED,
        }
    }
    let listener = TcpListener::bind("127.0.0.1:0").await.unwrap();
    let address = listener.local_addr().unwrap();
    let router = Router::new().route("/v1/messages", post(handler)).with_state(secret);
    tokio::spawn(async { axum::serve(listener, router).await.unwrap() });
    address
}

/// The real thing, with a swimmer on each connection.
async fn serve_durable(secret: Secret) -> (SocketAddr, tempfile::TempDir) {
    let folder = tempfile::tempdir_in("target").unwrap();
    let journal = SledJournal::open(folder.path().join("journal")).unwrap();
    let service = Service::open(Arc::new(journal), Arc::new(WallClock), ClockMode::Wall).unwrap();
    for squad in 0..SQUADS {
        let added = service
            .add_squad(NewSquad {
                name: format!("Dusk {squad}"),
                coach: format!("coach{squad}"),
                timezone: "UTC".into(),
                course: Course::Short25m,
                expires_days: None,
                minors: false,
                ready: true,
            })
            .await
            .unwrap();
        for connection in (squad..CONNECTIONS).step_by(SQUADS) {
            let join = Incoming {
                channel: "chat".into(),
                id: None,
                from: format!("swimmer{connection}"),
                room: None,
                sent_at: None,
                body: Body::Text(format!("join {} heron{connection}", added.code)),
            };
            service.receive(join).await.unwrap();
        }
    }
    let limits = Limits::default();
    let door = Door {
        reception: Reception::new(service, limits, CancellationToken::new()),
        secrets: [secret].into(),
        inlets: [].into(),
        chats: [].into(),
        limit: None,
        clock: Arc::new(WallClock),
    };
    let listener = TcpListener::bind("127.0.0.1:0").await.unwrap();
    let address = listener.local_addr().unwrap();
    tokio::spawn(http::serve(listener, http::router(door), limits, CancellationToken::new()));
    (address, folder)
}

/// Requests a second from all connections together; prints latencies.
async fn load(address: SocketAddr, secret: &Secret, span: Duration, name: &str) -> f64 {
    let begun = Instant::now();
    let tasks: Vec<_> = (0..CONNECTIONS)
        .map(|connection| tokio::spawn(one(address, secret.clone(), span, connection)))
        .collect();
    let mut times = Vec::new();
    for task in tasks {
        times.extend(task.await.unwrap());
    }
    let a_second = times.len() as f64 / begun.elapsed().as_secs_f64();
    times.sort_unstable();
    let at = |share: f64| times[((times.len() - 1) as f64 * share) as usize].as_secs_f64() * 1e3;
    println!(
        "{name}: {a_second:.0} requests/s, p50 {:.2} ms, p99 {:.2} ms, {CONNECTIONS} connections",
        at(0.5),
        at(0.99)
    );
    a_second
}

async fn one(
    address: SocketAddr,
    secret: Secret,
    span: Duration,
    connection: usize,
) -> Vec<Duration> {
    let client = lapwing::tls::client(lapwing::tls::Trust::None).no_proxy().build().unwrap();
    let begun = Instant::now();
    let mut times = Vec::new();
    while begun.elapsed() < span {
        let id = format!("{connection}-{}", times.len());
        // Around 3:12, never the same twice running.
        let text = format!("200 test 3:{:02}.{}", 10 + times.len() % 5, times.len() % 10);
        let body = serde_json::json!({
            "id": id, "from": format!("swimmer{connection}"), "text": text,
        })
        .to_string();
        let now = Timestamp::now();
        let sent = Instant::now();
        let response = client
            .post(format!("http://{address}/v1/messages"))
            .header("content-type", "application/json")
            .header("webhook-id", &id)
            .header("webhook-timestamp", now.as_second())
            .header("webhook-signature", sign(&secret, id.as_bytes(), now, body.as_bytes()))
            .body(body)
            .send()
            .await
            .unwrap();
        assert_eq!(response.status(), 200);
        response.bytes().await.unwrap();
        times.push(sent.elapsed());
    }
    times
}
