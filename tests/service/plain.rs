//! `/v1/plain/{token}`: forms, queries and bare texts in two charsets; plain
//! text in every answer.

use reqwest::header::CONTENT_TYPE;
use reqwest::{Method, RequestBuilder};

use super::server::Server;

/// The text of an answer with this status, whose type must be plain text.
async fn text(request: RequestBuilder, status: u16) -> String {
    let response = request.send().await.unwrap();
    assert_eq!(response.headers()[CONTENT_TYPE], "text/plain; charset=utf-8");
    let got = response.status();
    let text = response.text().await.unwrap();
    assert_eq!(got, status, "{text}");
    text
}

fn form(server: &Server, body: &'static str) -> RequestBuilder {
    let request = server.client.post(server.plain_url(""));
    request.header(CONTENT_TYPE, "application/x-www-form-urlencoded").body(body)
}

fn bare(server: &Server, query: &str, media_type: &str, body: &'static [u8]) -> RequestBuilder {
    server.client.post(server.plain_url(query)).header(CONTENT_TYPE, media_type).body(body)
}

/// The same words by every way in get the same reply.
#[tokio::test(flavor = "multi_thread")]
async fn forms_queries_and_bare_texts_say_the_same() {
    let server = Server::start().await;
    let said = text(form(&server, "from=%2B15550101&text=help+me"), 200).await;
    assert!(!said.is_empty());
    let same = [
        server.client.get(server.plain_url("?from=%2B15550101&text=help%20me")),
        server.client.post(server.plain_url("?from=%2B15550101&text=help%20me")),
        server
            .client
            .post(server.plain_url("?from=%2B15550101"))
            .header(CONTENT_TYPE, "application/x-www-form-urlencoded; charset=UTF-8")
            .body("text=help me"),
        form(&server, "from=%2B15550101&charset=UTF-8&text=help%20me&room="),
        form(&server, "from=%2B15550101&charset=UTF-16BE&text=%00h%00e%00l%00p%00+%00m%00e"),
        bare(&server, "?from=%2B15550101", "text/plain; charset=\"UTF-8\"", b"help me"),
        bare(&server, "?from=%2B15550101", "text/plain", b"help me"),
        bare(
            &server,
            "?from=%2B15550101",
            "text/plain; charset=\"UTF-16BE\"",
            b"\0h\0e\0l\0p\0 \0m\0e",
        ),
    ];
    for request in same {
        assert_eq!(text(request, 200).await, said);
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn bytes_that_are_no_text_are_answered_so() {
    let server = Server::start().await;
    for request in [
        form(&server, "from=a&text=%FF%FE"),
        form(&server, "from=a&text=%D8&charset=UTF-16BE"),
        bare(&server, "?from=a", "text/plain; charset=UTF-16BE", b"\xD8\x3C"),
        bare(&server, "?from=a", "text/plain", b"\xFF"),
    ] {
        assert!(!text(request, 200).await.is_empty());
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn an_id_makes_a_repeat_known() {
    let server = Server::start().await;
    let get = |query: &str| server.client.get(server.plain_url(query));
    let first = text(get("?from=a&text=help&id=k1"), 200).await;
    assert_eq!(text(get("?from=a&text=help&id=k1"), 200).await, first);
    text(get("?from=a&text=squad&id=k1"), 409).await;
    text(get("?from=a&text=squad&id="), 200).await;
}

#[tokio::test(flavor = "multi_thread")]
async fn errors_are_plain_text_too() {
    let server = Server::start().await;
    let client = &server.client;
    for path in [
        "/v1/plain/wren-8?from=a&text=help",
        "/v1/plain/%FF?from=a&text=help",
        "/v1/plain/",
        "/v1/plain/wren-7/x",
    ] {
        text(client.get(server.url(path)), 404).await;
    }
    text(client.get(server.plain_url("?text=help")), 422).await;
    text(client.get(server.plain_url("?from=&text=help")), 422).await;
    text(client.get(server.plain_url("?from=a")), 422).await;
    text(client.get(server.plain_url("?from=%FF&text=help")), 422).await;
    text(client.get(server.plain_url("?from=a&text=help&id=a.b")), 422).await;
    text(client.get(server.plain_url("?from=a&text=help&charset=EBCDIC")), 415).await;
    text(bare(&server, "?from=a", "text/plain; charset=EBCDIC", b"help"), 415).await;
    text(bare(&server, "?from=a", "application/json", b"{}"), 415).await;
    let put = client.put(server.plain_url("?from=a&text=help"));
    assert_eq!(put.try_clone().unwrap().send().await.unwrap().headers()["allow"], "GET, POST");
    text(put, 405).await;
    let long = bare(&server, "?from=a", "text/plain", &[b'x'; 64 * 1024 + 1]);
    text(long, 413).await;
}

/// A HEAD would store the message and lose its reply.
#[tokio::test(flavor = "multi_thread")]
async fn a_head_is_no_message() {
    let server = Server::start().await;
    let url = server.plain_url("?from=a&text=help&id=k1");
    let head = server.client.request(Method::HEAD, &url).send().await.unwrap();
    assert_eq!(head.status(), 405);
    assert_eq!(head.headers()["allow"], "GET, POST");
    text(server.client.get(server.plain_url("?from=a&text=squad&id=k1")), 200).await;
}
