//! Too much at once: slow strangers shut nobody out, what is over the brim is told to
//! come again, health always answers, and danger finds a place.

use std::io::{Read, Write};
use std::net::TcpStream;
use std::process::Command;
use std::time::{Duration, Instant};

use axum::Router;
use axum::routing::get;
use lapwing::http::{Limits, Places};
use tokio::io::AsyncWriteExt;
use tokio::sync::mpsc;

use super::program::{Running, lapwing};
use super::server::{Server, body_of, exchange};

/// Far less than the half of a request is waited for, which would make place too.
const AT_ONCE: Duration = Duration::from_secs(8);

/// 1,100 half-sent requests against a program that may open 1,024 files.
#[test]
fn half_sent_requests_shut_nobody_out() {
    let folder = tempfile::tempdir().unwrap();
    let serve = lapwing(folder.path(), &["serve", "--listen", "127.0.0.1:0"]);
    let mut limited = Command::new("sh");
    limited.args(["-c", "ulimit -Hn 1024; ulimit -n 1024; exec \"$@\"", "sh"]);
    limited.arg(serve.get_program()).args(serve.get_args()).current_dir(folder.path());
    limited.env_clear().stderr(std::process::Stdio::piped());
    let server = Running::start(limited);
    assert!(server.said.contains("768 connections at once"), "{}", server.said);
    assert!(server.said.contains("ulimit"), "{}", server.said);
    let address = server.url.strip_prefix("http://").unwrap().to_owned();
    // This process needs files too.
    raise_files();
    let mut slow = Vec::new();
    for number in 0..1_100 {
        let Ok(mut stream) = TcpStream::connect(&address) else { continue };
        let _ = stream.write_all(b"POST /v1/messages HTTP/1.1\r\nhost: a\r\ncontent-le");
        slow.push(stream);
        if number % 100 == 99 {
            std::thread::sleep(Duration::from_millis(20));
        }
    }
    // Whoever comes then is answered at once: somebody who says nothing gives way.
    std::thread::sleep(Duration::from_secs(1));
    for _ in 0..20 {
        let begun = Instant::now();
        let mut stream = TcpStream::connect(&address).unwrap();
        stream.set_read_timeout(Some(Duration::from_secs(60))).unwrap();
        stream.write_all(b"GET /health HTTP/1.1\r\nhost: a\r\nconnection: close\r\n\r\n").unwrap();
        let mut heard = String::new();
        stream.read_to_string(&mut heard).unwrap();
        assert!(heard.starts_with("HTTP/1.1 200"), "{heard}");
        assert!(begun.elapsed() < AT_ONCE, "{:?}", begun.elapsed());
    }
}

fn raise_files() {
    use rustix::process::{Resource, Rlimit, getrlimit, setrlimit};
    let limit = getrlimit(Resource::Nofile);
    setrlimit(Resource::Nofile, Rlimit { current: limit.maximum, ..limit }).unwrap();
}

/// With no place left for messages, an ordinary one is told to come again; one about
/// danger is answered.
#[tokio::test(flavor = "multi_thread")]
async fn danger_finds_a_place_where_others_do_not() {
    let limits = Limits { under_way: 0, ..Limits::default() };
    let server = Server::start_with(limits).await;
    let response = server.message("gw-1", body_of("gw-1", "200 test 3:12")).send().await.unwrap();
    assert_eq!(response.status(), 503);
    assert!(response.headers().contains_key("retry-after"));
    let response =
        server.message("gw-2", body_of("gw-2", "chest pain in the pool")).send().await.unwrap();
    assert_eq!(response.status(), 200);
    let answer: serde_json::Value = response.json().await.unwrap();
    assert_eq!(answer["result"]["kind"], "caution", "{answer}");
}

/// All places taken by requests under way: whoever comes is told so, but for health.
#[tokio::test(flavor = "multi_thread")]
async fn with_no_place_left_health_still_answers() {
    let limits = Limits { places: Places { all: 2, from_one: 2 }, ..Limits::default() };
    let (tell, mut told) = mpsc::channel(2);
    let long = async move || -> &'static str {
        tell.send(()).await.unwrap();
        std::future::pending().await
    };
    let own = Router::new().route("/long", get(long));
    let server = Server::start_beside(limits, None, own).await;
    let mut kept = [server.connect().await, server.connect().await];
    for one in &mut kept {
        one.write_all(b"GET /long HTTP/1.1\r\nhost: a\r\n\r\n").await.unwrap();
        told.recv().await.unwrap();
    }
    let whole = server.raw_message("gw-1", &body_of("gw-1", "help"));
    let heard = exchange(&mut server.connect().await, whole.as_bytes()).await;
    assert!(heard.starts_with("HTTP/1.1 503") && heard.contains("retry-after"), "{heard}");
    let health = b"GET /health HTTP/1.1\r\nhost: a\r\n\r\n";
    let heard = exchange(&mut server.connect().await, health).await;
    assert!(heard.starts_with("HTTP/1.1 200"), "{heard}");
}
