//! What any HTTP server owes those who run it: readiness, request ids, figures,
//! a description.

use std::io::{Read, Write};
use std::net::TcpStream;

use serde_json::Value;

use super::program::{Running, lapwing};
use super::server::{Server, answer, body_of};

#[tokio::test(flavor = "multi_thread")]
async fn ready_is_more_than_healthy_and_both_end_with_stopping() {
    let server = Server::start().await;
    let get = |path: &str| server.client.get(server.url(path)).send();
    let ready: Value = get("/ready").await.unwrap().json().await.unwrap();
    assert_eq!(ready["status"], "ready");
    server.stopping.cancel();
    for path in ["/ready", "/health"] {
        assert_eq!(get(path).await.unwrap().status(), 503, "{path}");
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn a_request_id_is_given_back_or_made() {
    let server = Server::start().await;
    let id = async |given: Option<&str>| {
        let request = server.client.get(server.url("/nowhere"));
        let request =
            given.into_iter().fold(request, |request, id| request.header("x-request-id", id));
        let response = request.send().await.unwrap();
        response.headers()["x-request-id"].to_str().unwrap().to_owned()
    };
    assert_eq!(id(Some("edge-7/a.b")).await, "edge-7/a.b");
    let (one, other) = (id(None).await, id(None).await);
    assert!(one.len() == 32 && one != other);
    for unfit in ["a b", &"x".repeat(129)] {
        assert_eq!(id(Some(unfit)).await.len(), 32, "{unfit}");
    }
}

/// Every path of the description is there, and what is there is described.
#[tokio::test(flavor = "multi_thread")]
async fn the_description_names_every_path() {
    let server = Server::start().await;
    let api: Value =
        server.client.get(server.url("/openapi.json")).send().await.unwrap().json().await.unwrap();
    assert!(api["openapi"].as_str().unwrap().starts_with("3.1"), "{api}");
    let paths = api["paths"].as_object().unwrap();
    let named: Vec<&str> = paths.keys().map(String::as_str).collect();
    let all = [
        "/board/{token}",
        "/board/{token}/calendar",
        "/board/{token}/live",
        "/board/{token}/swimmer/{name}",
        "/board/{token}/{file}",
        "/calendar/{file}",
        "/health",
        "/me/{token}",
        "/me/{token}/{file}",
        "/openapi.json",
        "/ready",
        "/v1/chat/{name}",
        "/v1/messages",
        "/v1/plain/{token}",
    ];
    assert_eq!(named, all);
    for (path, operations) in paths {
        for method in ["get", "post", "put"] {
            let method_in_capitals = method.to_uppercase().parse().unwrap();
            let url = server.url(&path.replace("{token}", super::server::TOKEN));
            let status =
                server.client.request(method_in_capitals, url).send().await.unwrap().status();
            assert_eq!(
                status == 405,
                operations.get(method).is_none(),
                "{method} {path}: {status}"
            );
        }
    }
    let fields = &api["components"]["schemas"]["Message"]["properties"];
    assert!(fields["from"]["maxLength"] == 128 && fields["sent_at"].is_object(), "{fields}");
    // An answer has the fields that are described and no others.
    let answered = answer(server.message("gw-1", body_of("gw-1", "help"))).await;
    let described = api["components"]["schemas"]["Answer"]["properties"].as_object().unwrap();
    assert!(answered.as_object().unwrap().keys().eq(described.keys()), "{described:?}");
}

fn fetched(url: &str, path: &str) -> String {
    let mut stream = TcpStream::connect(url.trim_start_matches("http://")).unwrap();
    write!(stream, "GET {path} HTTP/1.1\r\nhost: a\r\nconnection: close\r\n\r\n").unwrap();
    let mut said = String::new();
    stream.read_to_string(&mut said).unwrap();
    said
}

/// By a listener of its own, in OpenMetrics, and about nobody.
#[test]
fn figures_are_for_the_monitor_alone() {
    let dir = tempfile::tempdir().unwrap();
    let listen = ["serve", "--listen", "127.0.0.1:0", "--metrics", "127.0.0.1:0"];
    let mut serve = lapwing(dir.path(), &listen);
    serve.env("LAPWING_PLAIN_TOKEN", "wren-7");
    let server = Running::start(serve);
    let monitor = server.said.lines().find_map(|line| line.strip_prefix("figures at ")).unwrap();
    let monitor = monitor.strip_suffix("/metrics").unwrap();
    assert!(fetched(&server.url, "/metrics").starts_with("HTTP/1.1 404"));
    for _ in 0..3 {
        fetched(&server.url, "/v1/plain/wren-7?from=%2B15550101&text=help&id=m1");
    }
    let figures = fetched(monitor, "/metrics");
    assert!(
        figures.contains("content-type: application/openmetrics-text; version=1.0.0"),
        "{figures}"
    );
    assert!(figures.ends_with("# EOF\n"), "{figures}");
    for line in [
        "lapwing_requests_total{route=\"/v1/plain/{token}\",method=\"GET\",status=\"200\"} 3\n",
        "lapwing_messages_total{channel=\"plain\",outcome=\"answered\"} 1\n",
        "lapwing_messages_total{channel=\"plain\",outcome=\"duplicate\"} 2\n",
        "lapwing_request_seconds_count{route=\"/v1/plain/{token}\"} 3\n",
        "lapwing_letters_waiting 0\n",
        "lapwing_ready 1\n",
        "lapwing_leads 1\n",
        "lapwing_decided_again 0\n",
    ] {
        assert!(figures.contains(line), "{line} is not in\n{figures}");
    }
    assert!(!figures.contains("1555") && !figures.contains("wren"), "{figures}");
}
