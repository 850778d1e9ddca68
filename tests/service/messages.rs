//! `POST /v1/messages`: answers, duplicates, and each error of the contract
//! with its status and media type.

use std::num::NonZeroU32;
use std::sync::Arc;

use jiff::{SignedDuration, Timestamp};
use lapwing::http::{Limit, Limits};
use lapwing::signing::sign;
use reqwest::header::CONTENT_TYPE;
use serde_json::json;

use super::server::{Server, answer, body_of, problem};

#[tokio::test(flavor = "multi_thread")]
async fn a_signed_message_is_answered_whole() {
    let server = Server::start().await;
    let body = json!({ "id": "gw-1", "from": "+15550101", "text": "help", "room": null,
        "sent_at": "2026-03-02T19:05:00Z", "unknown": { "field": [1] } });
    let answered = answer(server.message("gw-1", body.to_string())).await;
    assert_eq!(answered["id"], "gw-1");
    assert_eq!(answered["duplicate"], false);
    assert!(answered["understood"].is_array(), "{answered}");
    assert!(answered["result"]["kind"].is_string(), "{answered}");
    let reply = &answered["replies"][0];
    assert_eq!((&reply["to"], &reply["via"]), (&json!("+15550101"), &json!("answer")));
    assert!(reply["text"].as_str().is_some_and(|text| !text.is_empty()), "{answered}");
    assert!(reply["parts"].is_array(), "{answered}");
}

#[tokio::test(flavor = "multi_thread")]
async fn the_media_type_may_carry_parameters() {
    let server = Server::start().await;
    for (id, media_type) in [
        ("gw-1", "application/json; charset=utf-8"),
        ("gw-2", "Application/JSON;charset=\"UTF-8\""),
    ] {
        let mut request = server.message(id, body_of(id, "help")).build().unwrap();
        request.headers_mut().insert(CONTENT_TYPE, media_type.parse().unwrap());
        assert_eq!(server.client.execute(request).await.unwrap().status(), 200, "{media_type}");
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn a_repeat_is_a_duplicate_and_another_message_a_conflict() {
    let server = Server::start().await;
    let first = answer(server.message("gw-1", body_of("gw-1", "help"))).await;
    // Other bytes and another signature, the same message.
    let spaced = body_of("gw-1", "help").replace(':', ": ");
    let later = Timestamp::now() + SignedDuration::from_secs(2);
    let again = answer(server.message_at("gw-1", spaced, later)).await;
    assert_eq!(again["duplicate"], true);
    for part in ["id", "replies", "understood", "result"] {
        assert_eq!(again[part], first[part], "{part}");
    }
    let other = |field: &str, value| {
        let mut body = json!({ "id": "gw-1", "from": "+15550101", "text": "help" });
        body[field] = json!(value);
        server.message("gw-1", body.to_string()).send()
    };
    for (field, value) in [("text", "squad"), ("from", "+15550102"), ("room", "r1")] {
        problem(other(field, value).await.unwrap(), 409).await;
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn unsigned_and_wrongly_signed_messages_are_401() {
    let server = Server::start().await;
    let body = body_of("gw-1", "help");
    let good = || server.message("gw-1", body.clone()).build().unwrap();

    for header in ["webhook-id", "webhook-timestamp", "webhook-signature"] {
        let mut request = good();
        request.headers_mut().remove(header);
        let detail = problem(server.client.execute(request).await.unwrap(), 401).await;
        assert!(detail.contains(header), "{detail}");
    }
    for (header, value) in [
        ("webhook-timestamp", "hello"),
        ("webhook-timestamp", "1"),
        ("webhook-signature", "v1,"),
        ("webhook-signature", "v1,g0hM9SsE+OTPJTGt/tmIKtSyZlE3uFJELVlNIOLJ1OE="),
        ("webhook-id", "gw-2"),
    ] {
        let mut request = good();
        request.headers_mut().insert(header, value.parse().unwrap());
        problem(server.client.execute(request).await.unwrap(), 401).await;
    }
    let mut request = good();
    *request.body_mut() = Some(body_of("gw-1", "squad").into());
    problem(server.client.execute(request).await.unwrap(), 401).await;
}

#[tokio::test(flavor = "multi_thread")]
async fn the_clock_may_be_five_minutes_off() {
    let server = Server::start().await;
    let body = body_of("gw-1", "help");
    for (seconds, status) in [(-310, 401), (310, 401), (-290, 200), (290, 200)] {
        let at = Timestamp::now() + SignedDuration::from_secs(seconds);
        let response = server.message_at("gw-1", body.clone(), at).send().await.unwrap();
        assert_eq!(response.status(), status, "{seconds} s");
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn one_good_signature_among_others_is_enough() {
    let server = Server::start().await;
    let body = body_of("gw-1", "help");
    let now = Timestamp::now();
    let good = sign(&server.old_secret, b"gw-1", now, body.as_bytes());
    let mut request = server.message_at("gw-1", body, now).build().unwrap();
    let several = format!("v1,AAAA v2,zzz {good} v1,");
    request.headers_mut().insert("webhook-signature", several.parse().unwrap());
    assert_eq!(server.client.execute(request).await.unwrap().status(), 200);
}

#[tokio::test(flavor = "multi_thread")]
async fn bad_bodies_are_400_and_bad_fields_422_where_signed() {
    let server = Server::start().await;
    let cases: [(&[u8], u16); 12] = [
        (b"", 400),
        (b"hello", 400),
        (b"{\"id\":\"gw-1\",", 400),
        (b"{\"id\":\"gw-1\",\"from\":\"a\",\"text\":\"\xFF\"}", 400),
        (b"{\"id\":\"gw-2\",\"from\":\"a\",\"text\":\"hi\"}", 400),
        (b"[]", 422),
        (b"{}", 422),
        (b"{\"id\":\"gw-1\",\"from\":\"a\"}", 422),
        (b"{\"id\":\"gw-1\",\"from\":\"\",\"text\":\"hi\"}", 422),
        (b"{\"id\":\"gw-1\",\"from\":5,\"text\":\"hi\"}", 422),
        (b"{\"id\":\"gw-1\",\"from\":\"a\",\"text\":\"hi\",\"room\":5}", 422),
        (b"{\"id\":\"gw-1\",\"from\":\"a\",\"text\":\"hi\",\"sent_at\":\"soon\"}", 422),
    ];
    for (body, status) in cases {
        let response = server.message("gw-1", body).send().await.unwrap();
        problem(response, status).await;
    }
    for id in ["gw.1", "g w", &"x".repeat(257)] {
        problem(server.message(id, body_of(id, "help")).send().await.unwrap(), 422).await;
    }
}

/// Where several things are wrong: size, media type, signature, JSON, fields.
#[tokio::test(flavor = "multi_thread")]
async fn the_first_of_several_errors_is_told() {
    let server = Server::start().await;
    let long = "x".repeat(64 * 1024 + 1);
    for (body, media_type, signed, status) in [
        (long.as_str(), "text/plain", false, 413),
        ("hello", "text/plain", false, 415),
        ("hello", "application/json", false, 401),
        ("hello", "application/json", true, 400),
    ] {
        let mut request = server.message("gw-1", body).build().unwrap();
        request.headers_mut().insert(CONTENT_TYPE, media_type.parse().unwrap());
        if !signed {
            request.headers_mut().remove("webhook-signature");
        }
        problem(server.client.execute(request).await.unwrap(), status).await;
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn other_media_types_are_415() {
    let server = Server::start().await;
    for media_type in
        ["text/plain", "application/jsonp", "application/x-www-form-urlencoded", "json", ""]
    {
        let mut request = server.message("gw-1", body_of("gw-1", "help")).build().unwrap();
        request.headers_mut().insert(CONTENT_TYPE, media_type.parse().unwrap());
        problem(server.client.execute(request).await.unwrap(), 415).await;
    }
    let mut request = server.message("gw-1", body_of("gw-1", "help")).build().unwrap();
    request.headers_mut().remove(CONTENT_TYPE);
    problem(server.client.execute(request).await.unwrap(), 415).await;
    let packed = server.message("gw-1", body_of("gw-1", "help")).header("content-encoding", "gzip");
    problem(packed.send().await.unwrap(), 415).await;
}

#[tokio::test(flavor = "multi_thread")]
async fn a_body_of_64_kib_is_taken_and_no_longer_one() {
    let server = Server::start().await;
    let room = 64 * 1024 - body_of("gw-1", "").len();
    let body = body_of("gw-1", &"x".repeat(room));
    assert_eq!(server.message("gw-1", body).send().await.unwrap().status(), 200);
    let body = body_of("gw-2", &"x".repeat(room + 1));
    problem(server.message("gw-2", body).send().await.unwrap(), 413).await;
}

#[tokio::test(flavor = "multi_thread")]
async fn other_paths_and_methods_are_problems_too() {
    let server = Server::start().await;
    let client = &server.client;
    problem(client.get(server.url("/nowhere")).send().await.unwrap(), 404).await;
    let response = client.get(server.url("/v1/messages")).send().await.unwrap();
    assert_eq!(response.headers()["allow"], "POST");
    problem(response, 405).await;
    problem(client.post(server.url("/health")).send().await.unwrap(), 405).await;
}

#[tokio::test(flavor = "multi_thread")]
async fn a_sender_may_be_limited() {
    let three = Limit::per_minute(NonZeroU32::new(3).unwrap());
    let server = Server::start_limited(Limits::default(), Some(Arc::new(three))).await;
    let plain = || server.client.get(server.plain_url("?from=%2B15550101&text=help")).send();
    for id in ["gw-1", "gw-2"] {
        answer(server.message(id, body_of(id, "help"))).await;
    }
    assert_eq!(plain().await.unwrap().status(), 200);
    let refused = server.message("gw-3", body_of("gw-3", "help")).send().await.unwrap();
    let wait: u64 = refused.headers()["retry-after"].to_str().unwrap().parse().unwrap();
    assert!((1..=20).contains(&wait), "{wait}");
    problem(refused, 429).await;
    let refused = plain().await.unwrap();
    assert_eq!(refused.status(), 429);
    assert_eq!(refused.headers()[CONTENT_TYPE], "text/plain; charset=utf-8");
    // Others are free to speak.
    let other = server.client.get(server.plain_url("?from=%2B15550102&text=help"));
    assert_eq!(other.send().await.unwrap().status(), 200);
}

#[tokio::test(flavor = "multi_thread")]
async fn a_stopping_server_says_so_and_when_to_come_back() {
    let server = Server::start().await;
    let health = server.client.get(server.url("/health")).send().await.unwrap();
    assert_eq!(health.text().await.unwrap(), r#"{"status":"ok"}"#);
    server.stopping.cancel();
    let response = server.message("gw-1", body_of("gw-1", "help")).send().await.unwrap();
    assert!(response.headers().contains_key("retry-after"));
    problem(response, 503).await;
    problem(server.client.get(server.url("/health")).send().await.unwrap(), 503).await;
    let plain = server.client.get(server.plain_url("?from=a&text=help")).send().await.unwrap();
    assert_eq!(plain.status(), 503);
    assert_eq!(plain.headers()[CONTENT_TYPE], "text/plain; charset=utf-8");
}
