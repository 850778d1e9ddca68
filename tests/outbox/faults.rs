//! One letter and an other end that does one thing wrong.

use std::time::{Duration, Instant};

use lapwing::service::{LetterState, Undelivered};
use lapwing::signing::Secret;
use tokio::io::AsyncReadExt;

use super::peer::{Peer, Reserved, Way};
use super::squads::{TestClock, courier, hasty, letter, open, squad};

/// Sends one letter to a peer that behaves like this on each try; gives what
/// is left of it, and the peer.
async fn one(ways: &'static [Way]) -> (Vec<Undelivered>, Peer) {
    let dir = tempfile::tempdir().unwrap();
    let (clock, secret) = (TestClock::new(), Secret::generate().unwrap());
    let service = open(dir.path(), &clock);
    squad(&service, 1).await;
    assert_eq!(letter(&service, 1).await, 1);
    let peer =
        Peer::start(&secret, clock.clone(), |_, tries| ways[(tries as usize).min(ways.len() - 1)])
            .await;
    let courier = match ways.contains(&Way::Silence) {
        true => hasty(&service, &clock, &peer.url(), &secret),
        false => courier(&service, &clock, &peer.url(), true, &secret),
    };
    for _ in ways {
        courier.deliver_due().await;
        clock.forward(30 * 3600);
    }
    (service.undelivered().unwrap(), peer)
}

async fn why(way: &'static [Way]) -> String {
    let (left, peer) = one(way).await;
    assert_eq!((left.len(), left[0].tries, peer.seen().taken.len()), (1, 1, 0));
    assert!(matches!(left[0].state, LetterState::Waiting(Some(_))));
    left[0].why.clone().unwrap()
}

#[tokio::test]
async fn any_success_is_a_delivery() {
    for ways in [&[Way::Take(200)], &[Way::Take(202)], &[Way::Take(204)]] {
        let (left, peer) = one(ways).await;
        assert!(left.is_empty());
        let seen = peer.seen();
        assert_eq!(seen.taken.len(), 1);
        let payload: serde_json::Value = serde_json::from_slice(&seen.taken[0].body).unwrap();
        assert_eq!(payload["timestamp"], "2026-03-02T19:00:00Z");
        assert_eq!(payload["data"]["to"], "+1555000100");
        assert_eq!(payload["data"]["room"], serde_json::Value::Null);
        assert!(payload["data"]["text"].as_str().unwrap().contains("heron"));
        assert_eq!(payload["data"]["parts"][0], payload["data"]["text"]);
    }
}

#[tokio::test]
async fn anything_else_is_none() {
    assert_eq!(why(&[Way::Refuse(500)]).await, "500 Internal Server Error");
    assert_eq!(why(&[Way::Refuse(404)]).await, "404 Not Found");
    assert_eq!(why(&[Way::Refuse(304)]).await, "304 Not Modified");
    assert_eq!(why(&[Way::Break]).await, "the connection broke");
    assert_eq!(why(&[Way::Silence]).await, "no answer in time");
}

#[tokio::test]
async fn a_redirect_is_not_followed() {
    let (left, peer) = one(&[Way::Redirect, Way::Redirect]).await;
    assert_eq!(left[0].why.as_deref(), Some("307 Temporary Redirect"));
    assert_eq!((left[0].tries, peer.seen().strayed), (2, 0));
}

#[tokio::test]
async fn a_body_without_end_holds_nothing_up() {
    for ways in [&[Way::TakeEndless], &[Way::TakeSlow]] {
        let begun = Instant::now();
        let (left, peer) = one(ways).await;
        assert!(left.is_empty() && peer.seen().taken.len() == 1);
        assert!(begun.elapsed() < Duration::from_secs(20), "{:?}", begun.elapsed());
    }
}

/// What was taken but not acknowledged comes again, the same in every byte and
/// under the same id.
#[tokio::test]
async fn a_repeat_is_the_same_to_the_byte() {
    let (left, peer) = one(&[Way::TakeAndBreak, Way::Refuse(502), Way::Take(200)]).await;
    let seen = peer.seen();
    assert!(left.is_empty());
    assert_eq!(seen.taken.len(), 2);
    assert_eq!(seen.taken[0], seen.taken[1]);
    assert_eq!(seen.tries.values().sum::<u32>(), 3);
}

#[tokio::test]
async fn a_reset_and_a_closed_port_are_failures() {
    // Nobody else gets the port when it is closed.
    let kept = Reserved::new();
    let listener = Reserved::at(kept.address()).listen();
    let url = format!("http://{}/in", kept.address());
    let dir = tempfile::tempdir().unwrap();
    let (clock, secret) = (TestClock::new(), Secret::generate().unwrap());
    let service = open(dir.path(), &clock);
    squad(&service, 1).await;
    letter(&service, 1).await;
    let courier = courier(&service, &clock, &url, true, &secret);
    let resetting = tokio::spawn(async move {
        let (mut stream, _) = listener.accept().await.unwrap();
        stream.read_exact(&mut [0; 16]).await.unwrap();
        // What was not read turns the close into a reset.
    });
    courier.deliver_due().await;
    resetting.await.unwrap();
    assert_eq!(service.undelivered().unwrap()[0].why.as_deref(), Some("the connection broke"));
    clock.forward(6);
    courier.deliver_due().await;
    assert_eq!(service.undelivered().unwrap()[0].why.as_deref(), Some("no connection"));
}

/// The schedule is kept to the second, and never shortened.
#[tokio::test]
async fn tries_come_when_the_schedule_says_and_then_no_more() {
    let dir = tempfile::tempdir().unwrap();
    let (clock, secret) = (TestClock::new(), Secret::generate().unwrap());
    let service = open(dir.path(), &clock);
    squad(&service, 1).await;
    letter(&service, 1).await;
    let peer = Peer::start(&secret, clock.clone(), |_, _| Way::Refuse(500)).await;
    let courier = courier(&service, &clock, &peer.url(), true, &secret);
    let tries = || peer.seen().tries.values().sum::<u32>();
    for (at, delay) in (0..).zip(lapwing::outbox::DELAYS) {
        let delay = i64::try_from(delay).unwrap();
        clock.forward((delay - 1).max(0));
        courier.deliver_due().await;
        assert_eq!(tries(), if delay == 0 { 1 } else { at }, "before {delay}");
        // A fifth more at most.
        clock.forward(delay / 5 + 1);
        courier.deliver_due().await;
        assert_eq!(tries(), at + 1, "after {delay}");
    }
    let left = service.undelivered().unwrap();
    assert!(matches!(left[0].state, LetterState::Dead(_)));
    assert_eq!(left[0].tries, 10);
    clock.forward(1_000_000);
    courier.deliver_due().await;
    assert_eq!(tries(), 10);
}
