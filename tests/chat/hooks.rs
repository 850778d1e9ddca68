//! A chat server's pair of webhooks, in the form of each of the three servers
//! that can't be run here. Fields: Mattermost
//! `server/public/model/outgoing_webhook.go`, Rocket.Chat `triggerHandler.ts`,
//! Zulip `api_docs/outgoing-webhooks.md`.

use lapwing::service::LetterState;
use serde_json::{Value, json};

use super::club::Club;
use super::server::{DIRECT_TOKEN, Server, TOKEN};

const COACH: &str = "chat:club:u0000000000000000000000000";
const HERON: &str = "u1111111111111111111111111";

/// As Mattermost posts by default: a form, seconds, an id.
fn mattermost<'a>(id: &'a str, text: &'a str) -> Vec<(&'a str, &'a str)> {
    vec![
        ("token", TOKEN),
        ("team_id", "t1"),
        ("team_domain", "dusk"),
        ("channel_id", "c1"),
        ("channel_name", "lanes"),
        ("timestamp", "1772478300"),
        ("user_id", HERON),
        ("user_name", "heron"),
        ("post_id", id),
        ("text", text),
        ("trigger_word", "lapwing"),
        ("file_ids", ""),
    ]
}

/// As Rocket.Chat posts: JSON, a date, an id, whether it is a bot.
fn rocket(id: &str, user: &str, text: &str) -> Value {
    json!({ "token": TOKEN, "bot": false, "channel_id": "GENERAL", "channel_name": "general",
        "message_id": id, "timestamp": "2026-03-02T19:05:00.000Z", "user_id": user,
        "user_name": user, "text": text, "siteUrl": "http://localhost:3000" })
}

/// As Zulip posts in the borrowed format: a form, no id, the full name.
fn zulip<'a>(user: &'a str, time: &'a str, text: &'a str) -> Vec<(&'a str, &'a str)> {
    vec![
        ("token", TOKEN),
        ("team_id", "T1"),
        ("team_domain", "localhost"),
        ("channel_id", "C7"),
        ("channel_name", "lanes"),
        ("thread_ts", "1772478300"),
        ("timestamp", time),
        ("user_id", user),
        ("user_name", "Wren of the Lake"),
        ("text", text),
        ("trigger_word", "mention"),
        ("service_id", "3"),
    ]
}

fn text(answer: &Value) -> &str {
    answer["text"].as_str().unwrap_or_default()
}

async fn club() -> (Club, Server) {
    let club = Club::coached_by(COACH).await;
    let server = Server::start(&club.service, true).await;
    let join = format!("join {} heron", club.code);
    server.json(&json!({ "token": DIRECT_TOKEN, "text": join, "user_id": HERON })).await;
    // The coach has spoken once, so the chat has told a name.
    let coach = COACH.strip_prefix("chat:club:").unwrap();
    let hello =
        json!({ "token": TOKEN, "text": "lapwing hi", "user_id": coach, "user_name": "coach" });
    server.json(&hello).await;
    // That heron has joined.
    assert_eq!(server.posted().await.len(), 1);
    (club, server)
}

#[tokio::test(flavor = "multi_thread")]
async fn each_server_is_read_and_finds_its_answer() {
    let (club, server) = club().await;
    for (user, name) in [("r1", "teal"), ("U9", "wren")] {
        let join = format!("join {} {name}", club.code);
        let body = json!({ "token": DIRECT_TOKEN, "text": join, "user_id": user });
        assert!(text(&server.json(&body).await).contains(name));
    }
    let answers = [
        server.form(&mattermost("p1", "Lapwing 200 test 3:12")).await,
        server.json(&rocket("m1", "r1", "@lapwing 200 test 3:12")).await,
        server.form(&zulip("U9", "1772478300", "@**Lapwing** 200 test 3:12")).await,
    ];
    for answer in answers {
        assert!(text(&answer).starts_with("200 free 3:12 stored"), "{answer}");
        assert_eq!(answer["text"], answer["content"]);
        assert_eq!(answer["response_type"], "comment");
    }
}

/// Zulip's own format, and a message in a thread.
#[tokio::test(flavor = "multi_thread")]
async fn a_message_within_a_message_is_read_and_a_thread_kept() {
    let (_club, server) = club().await;
    let own = json!({ "token": TOKEN, "bot_email": "lapwing@localhost", "data": "@**lapwing** help",
        "trigger": "mention", "message": { "id": 7, "sender_id": 12, "type": "stream",
        "stream_id": 3, "timestamp": 1_772_478_300, "content": "@**lapwing** help" } });
    assert!(text(&server.json(&own).await).contains("JOIN"));
    let mut threaded = rocket("m1", HERON, "lapwing help");
    threaded["tmid"] = json!("t9");
    assert_eq!(server.json(&threaded).await["tmid"], "t9");
}

#[tokio::test(flavor = "multi_thread")]
async fn what_is_not_for_us_is_met_with_silence() {
    let (_club, server) = club().await;
    let silent = |change: Value| {
        let mut body = rocket("m1", HERON, "200 test 3:12");
        let change = change.as_object().unwrap().clone();
        body.as_object_mut().unwrap().extend(change);
        body
    };
    for change in [
        json!({}),
        json!({ "text": "lapwings are birds" }),
        json!({ "text": "my chest strap slipped" }),
        json!({ "text": "lapwing help", "bot": true }),
        json!({ "text": "lapwing help", "bot": { "i": "x" } }),
        json!({ "text": "lapwing help", "user_name": "Lapwing" }),
    ] {
        assert_eq!(server.json(&silent(change.clone())).await, json!({}), "{change}");
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn private_matters_go_to_the_sender_alone() {
    let (_club, server) = club().await;
    for said in ["lapwing shoulder hurts 4", "lapwing next", "lapwing me"] {
        let answer = server.json(&rocket(said, HERON, said)).await;
        assert_eq!(text(&answer), "Answered privately.");
        let posted = server.posted().await;
        assert_eq!(posted.len(), 1, "{posted:?}");
        assert_eq!(posted[0]["channel"], format!("@{HERON}"));
        assert!(!text(&posted[0]).is_empty());
    }
    let alone = json!({ "token": DIRECT_TOKEN, "text": "knee hurts 4", "user_id": HERON });
    assert!(text(&server.json(&alone).await).starts_with("Knee pain"));
    assert!(server.posted().await.is_empty());
}

#[tokio::test(flavor = "multi_thread")]
async fn a_chat_that_reaches_nobody_asks_for_a_private_text() {
    let club = Club::coached_by(COACH).await;
    let server = Server::start(&club.service, false).await;
    let join = json!({ "token": DIRECT_TOKEN, "text": format!("join {} heron", club.code),
        "user_id": HERON });
    server.json(&join).await;
    let answer = server.json(&rocket("m1", HERON, "lapwing shoulder hurts 7")).await;
    assert_eq!(text(&answer), "That is for a private text, not for this room.");
    // The coach's alert waits for a way, which is none to a room.
    let mut waiting = club.service.undelivered().unwrap();
    // That heron has joined waits before it.
    waiting.remove(0);
    assert_eq!((waiting.len(), waiting[0].to.as_str()), (1, COACH));
    assert!(matches!(waiting[0].state, LetterState::Waiting(_)));
}

/// Whoever is spoken to: a danger word is answered in the room, and the coach
/// is told alone; words of harm are answered to the sender alone.
#[tokio::test(flavor = "multi_thread")]
async fn danger_does_not_pass_in_silence() {
    let (_club, server) = club().await;
    let answer = server.json(&rocket("m1", HERON, "feeling dizzy, see you at the wall")).await;
    assert!(text(&answer).starts_with("Out of the water now"), "{answer}");
    assert!(!text(&answer).contains("heron"));
    let posted = server.posted().await;
    assert_eq!(posted[0]["channel"], "@coach");
    assert!(text(&posted[0]).starts_with("ALERT heron"), "{posted:?}");
    let answer = server.json(&rocket("m2", HERON, "i'm scared of my coach")).await;
    assert_eq!(answer, json!({}));
    let posted = server.posted().await;
    assert_eq!((posted.len(), &posted[0]["channel"]), (1, &json!(format!("@{HERON}"))));
    assert!(text(&posted[0]).contains("believed"));
}

/// A grave word in a harmless phrase, said to us, is asked about; the answer
/// needs no name, and is for us alone of all that is asked.
#[tokio::test(flavor = "multi_thread")]
async fn a_bare_answer_about_danger_is_heard() {
    let (_club, server) = club().await;
    assert_eq!(server.json(&rocket("m1", HERON, "yes")).await, json!({}));
    let answer = server.json(&rocket("m2", HERON, "lapwing my chest strap slipped")).await;
    assert_eq!(text(&answer), "Answered privately.");
    let asked = server.posted().await;
    assert!(text(&asked[0]).starts_with("Any chest pain"), "{asked:?}");
    assert_eq!(server.json(&rocket("m3", HERON, "yes that is what he said")).await, json!({}));
    assert_eq!(server.json(&rocket("m4", "u2", "yes")).await, json!({}));
    let answer = server.json(&rocket("m5", HERON, "yes")).await;
    assert!(text(&answer).contains("ut of the water now"), "{answer}");
    assert_eq!(server.json(&rocket("m6", HERON, "yes")).await, json!({}));
    // Any other question is answered to us.
    server.json(&rocket("m7", HERON, "lapwing forget me")).await;
    assert_eq!(server.json(&rocket("m8", HERON, "yes")).await, json!({}));
}

#[tokio::test(flavor = "multi_thread")]
async fn a_repeat_is_answered_again_and_done_once() {
    let (_club, server) = club().await;
    let said = rocket("m1", HERON, "lapwing shoulder hurts 8");
    let first = server.json(&said).await;
    assert_eq!(server.json(&said).await, first);
    assert_eq!(server.posted().await.len(), 2, "one to heron, one to the coach");
    // Edited: what was said first counts.
    assert_eq!(server.json(&rocket("m1", HERON, "lapwing help")).await, json!({}));
    // Without an id: who said what, where and when.
    let said = |time| zulip(HERON, time, "lapwing shoulder hurts 8");
    let first = server.form(&said("1772478301")).await;
    assert_eq!(server.form(&said("1772478301")).await, first);
    assert_eq!(server.posted().await.len(), 2);
    server.form(&said("1772478302")).await;
    assert_eq!(server.posted().await.len(), 2);
}

#[tokio::test(flavor = "multi_thread")]
async fn people_are_known_by_their_ids() {
    let (_club, server) = club().await;
    let mut said = rocket("m1", HERON, "lapwing 200 test 3:12");
    said["user_name"] = json!("Grey Heron");
    assert!(text(&server.json(&said).await).contains("stored"));
    // Another person of the same name, and the same id in another chat.
    let other = rocket("m2", "u2", "lapwing targets");
    assert!(text(&server.json(&other).await).contains("JOIN"));
    let named = json!({ "token": TOKEN, "text": "lapwing targets", "user_name": HERON });
    assert!(text(&server.json(&named).await).contains("JOIN"));
}

#[tokio::test(flavor = "multi_thread")]
async fn errors_are_problems() {
    let (_club, server) = club().await;
    let status = async |request: reqwest::RequestBuilder, status: u16| {
        let response = request.send().await.unwrap();
        assert_eq!(response.status(), status);
        assert_eq!(response.headers()["content-type"], "application/problem+json");
    };
    let good = rocket("m1", HERON, "lapwing help");
    let without = |field: &str| {
        let mut body = good.clone();
        body.as_object_mut().unwrap().remove(field);
        body
    };
    status(server.post("other").json(&good), 404).await;
    let mut wrong = good.clone();
    wrong["token"] = json!("k8w1qx3z5t7n9b2m4v6c8l0p1");
    status(server.post("club").json(&wrong), 401).await;
    status(server.post("club").json(&without("token")), 422).await;
    status(server.post("club").json(&without("text")), 422).await;
    status(server.post("club").json(&json!({ "token": TOKEN, "text": "lapwing hi" })), 422).await;
    status(server.post("club").json(&json!([])), 422).await;
    let bad = server.post("club").header("content-type", "application/json").body("{");
    status(bad, 400).await;
    status(server.post("club").header("content-type", "text/plain").body("hi"), 415).await;
    let long = "x".repeat(65 * 1024);
    status(server.post("club").json(&json!({ "token": TOKEN, "text": long })), 413).await;
}
