//! Many connections, slow ones, long bodies, and stopping with work under way.

use std::sync::Arc;
use std::time::Duration;

use axum::Router;
use axum::routing::{get, post};
use lapwing::http::{self, Limits};
use rustix::process::{Resource, Rlimit, getrlimit, setrlimit};
use tokio::io::AsyncWriteExt;
use tokio::net::{TcpListener, TcpStream};
use tokio_util::sync::CancellationToken;

use super::server::{
    PATIENCE, Server, answers, begin, body_of, closes, exchange, is_silent, problem,
};

/// Longer than any of these tests waits, for limits that are not the one at hand.
const NEVER: Duration = Duration::from_secs(3600);

#[tokio::test(flavor = "multi_thread")]
async fn a_thousand_connections_may_be_open_and_each_is_answered() {
    // Each takes a file at both ends here; the program raises its limit too.
    let limit = getrlimit(Resource::Nofile);
    setrlimit(Resource::Nofile, Rlimit { current: limit.maximum, ..limit }).unwrap();
    let server = Server::start().await;
    let mut open = Vec::new();
    for _ in 0..1100 {
        open.push(server.connect().await);
    }
    assert_eq!(open.len(), 1100);
    let last = open.len() - 1;
    for at in [0, last / 2, last] {
        let request =
            server.raw_message(&format!("gw-{at}"), &body_of(&format!("gw-{at}"), "help"));
        let heard = exchange(&mut open[at], request.as_bytes()).await;
        assert!(heard.starts_with("HTTP/1.1 200"), "{heard}");
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn one_connection_carries_many_messages() {
    let server = Server::start().await;
    let mut stream = server.connect().await;
    let several: String = (0..3)
        .map(|at| format!("gw-{at}"))
        .map(|id| server.raw_message(&id, &body_of(&id, "help")))
        .collect();
    let heard = answers(&mut stream, several.as_bytes(), 3).await;
    assert_eq!(heard.matches("HTTP/1.1 200").count(), 3, "{heard}");
}

#[tokio::test(flavor = "multi_thread")]
async fn a_client_that_closes_its_half_is_still_answered() {
    let server = Server::start().await;
    let mut stream = server.connect().await;
    stream
        .write_all(server.raw_message("gw-1", &body_of("gw-1", "help")).as_bytes())
        .await
        .unwrap();
    stream.shutdown().await.unwrap();
    let heard = exchange(&mut stream, b"").await;
    assert!(heard.starts_with("HTTP/1.1 200"), "{heard}");
}

#[tokio::test(flavor = "multi_thread")]
async fn slow_heads_and_slow_bodies_are_not_waited_for() {
    let limit = Duration::from_millis(500);
    let limits = Limits { head: limit, body: limit, half: NEVER, ..Limits::default() };
    let server = Server::start_with(limits).await;

    let mut slow_head = server.connect().await;
    let mut slow_body = server.connect().await;
    let whole = server.raw_message("gw-1", &body_of("gw-1", "help"));
    slow_head.write_all(&whole.as_bytes()[..40]).await.unwrap();
    // One byte at a time, each well within the limit, the whole not.
    slow_body.write_all(&whole.as_bytes()[..whole.len() - 20]).await.unwrap();
    let drip = async {
        for byte in whole.as_bytes()[whole.len() - 20..].chunks(1).take(19) {
            tokio::time::sleep(Duration::from_millis(50)).await;
            if slow_body.write_all(byte).await.is_err() {
                break;
            }
        }
    };
    drip.await;
    let heard = exchange(&mut slow_body, b"").await;
    assert!(heard.starts_with("HTTP/1.1 408"), "{heard}");
    assert!(heard.contains("application/problem+json"), "{heard}");
    assert!(closes(&mut slow_head).await);
}

/// A client that writes its whole body before it reads sees the 413.
#[tokio::test(flavor = "multi_thread")]
async fn the_answer_to_a_long_body_arrives() {
    let server = Server::start().await;
    for (id, length) in [("gw-1", 100_000), ("gw-2", 1024 * 1024), ("gw-3", 3 * 1024 * 1024)] {
        let response = server.message(id, vec![b'x'; length]).send().await.unwrap();
        problem(response, 413).await;
    }
    // A length that is announced and never comes costs nothing either.
    let mut stream = server.connect().await;
    let head = "POST /v1/messages HTTP/1.1\r\nhost: a\r\ncontent-length: 99999999999\r\n\r\n";
    stream.write_all(head.as_bytes()).await.unwrap();
    assert!(is_silent(&mut stream, Duration::from_millis(400)).await);
    let after = server.message("gw-4", body_of("gw-4", "help")).send().await.unwrap();
    assert_eq!(after.status(), 200);
}

#[tokio::test(flavor = "multi_thread")]
async fn what_was_begun_is_ended_and_nothing_else_is_taken() {
    let server = Server::start().await;
    let (mut begun, mut idle) = (server.connect().await, server.connect().await);
    let whole = server.raw_message("gw-1", &body_of("gw-1", "help"));
    let body = begin(&mut begun, &whole).await;

    server.stopping.cancel();
    server.closing.cancel();
    assert!(closes(&mut idle).await);
    // The door and the open connections hear of the end each in their own time.
    let refused = async { while TcpStream::connect(server.address).await.is_ok() {} };
    tokio::time::timeout(PATIENCE, refused).await.unwrap();
    let heard = exchange(&mut begun, body).await;
    assert!(heard.starts_with("HTTP/1.1 200"), "{heard}");
    tokio::time::timeout(PATIENCE, server.serving).await.unwrap().unwrap();
}

#[tokio::test(flavor = "multi_thread")]
async fn what_does_not_end_is_cut_when_its_time_is_up() {
    let drain = Duration::from_millis(300);
    let limits = Limits { drain, body: NEVER, half: NEVER, ..Limits::default() };
    let server = Server::start_with(limits).await;
    let mut begun = server.connect().await;
    let whole = server.raw_message("gw-1", &body_of("gw-1", "help"));
    let body = begin(&mut begun, &whole).await;
    begun.write_all(&body[..body.len() - 9]).await.unwrap();
    server.closing.cancel();
    tokio::time::timeout(PATIENCE, server.serving).await.unwrap().unwrap();
    assert!(closes(&mut begun).await);
}

#[tokio::test(flavor = "multi_thread")]
async fn a_panic_is_a_problem_and_no_end() {
    let listener = TcpListener::bind("127.0.0.1:0").await.unwrap();
    let address = listener.local_addr().unwrap();
    let boom: fn() -> std::future::Ready<()> = || panic!("heron fell in");
    let router =
        http::guarded(Router::new().route("/boom", get(boom)), Router::new(), Arc::default());
    tokio::spawn(http::serve(listener, router, Limits::default(), CancellationToken::new()));
    let client = lapwing::tls::client(lapwing::tls::Trust::None).no_proxy().build().unwrap();
    for _ in 0..2 {
        let response = client.get(format!("http://{address}/boom")).send().await.unwrap();
        assert!(!problem(response, 500).await.contains("heron"));
    }
}

/// Whoever has said all waits as long as the answer takes: a check of a large store.
#[tokio::test(flavor = "multi_thread")]
async fn a_long_answer_is_no_half_said_request() {
    let listener = TcpListener::bind("127.0.0.1:0").await.unwrap();
    let address = listener.local_addr().unwrap();
    let slow = |body: String| async move {
        tokio::time::sleep(Duration::from_secs(5)).await;
        body
    };
    let router =
        http::guarded(Router::new().route("/slow", post(slow)), Router::new(), Arc::default());
    let limits = Limits { half: Duration::from_secs(2), ..Limits::default() };
    tokio::spawn(http::serve(listener, router, limits, CancellationToken::new()));
    let client = lapwing::tls::client(lapwing::tls::Trust::None).no_proxy().build().unwrap();
    let response = client.post(format!("http://{address}/slow")).body("all").send().await;
    assert_eq!(response.unwrap().text().await.unwrap(), "all");
}
