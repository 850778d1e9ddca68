//! Plain gateways: letters as form fields, words of refusal, and who has opted
//! out.

use std::collections::HashMap;
use std::net::SocketAddr;
use std::sync::{Arc, Mutex};

use axum::Router;
use axum::extract::{Form, State};
use axum::http::StatusCode;
use axum::routing::post;
use lapwing::clock::Clock;
use lapwing::outbox::{Carrier, Courier, Destination, Format, Gateway, Routes, Value};
use lapwing::service::{LetterState, Service};
use tokio::net::TcpListener;

use super::squads::{PATIENCE, TestClock, coach, letter, open, say_as, squad};

type Fields = HashMap<String, String>;
type Seen = Arc<Mutex<Vec<Fields>>>;

/// A gateway that takes texts, save for one number's.
async fn gateway(refused: &'static str) -> (SocketAddr, Seen) {
    let seen = Seen::default();
    let take = move |State(seen): State<Seen>, Form(fields): Form<Fields>| async move {
        if fields["to"] == refused {
            return (StatusCode::BAD_REQUEST, "error 7: recipient has OPTED OUT");
        }
        seen.lock().unwrap().push(fields);
        (StatusCode::ACCEPTED, "0: Accepted for delivery")
    };
    let router = Router::new().route("/send", post(take)).with_state(Arc::clone(&seen));
    let listener = TcpListener::bind("127.0.0.1:0").await.unwrap();
    let address = listener.local_addr().unwrap();
    tokio::spawn(async move { axum::serve(listener, router).await.unwrap() });
    (address, seen)
}

fn courier(service: &Arc<Service>, clock: &Arc<TestClock>, at: SocketAddr) -> Arc<Courier> {
    let to = Destination::new(&format!("http://{at}/send"), true, None).unwrap();
    let field =
        |name: &str, words: &str| (name.to_owned(), Value::Template(words.parse().unwrap()));
    let gateway = Gateway {
        format: Format::Form,
        fields: vec![field("to", "{to}"), field("text", "{text}"), field("id", "{id}")],
        authorization: None,
        opted_out: vec!["opted out".to_owned()],
    };
    let carrier = Carrier::new(to, gateway, PATIENCE).unwrap();
    let routes = Routes::default().and("+", carrier);
    Courier::new(Arc::clone(service), Arc::clone(clock) as Arc<dyn Clock>, routes)
}

/// A refusal that says so sets our flag: nothing goes there again until its
/// owner asks for it, and everything else goes on.
#[tokio::test]
async fn a_gateway_that_knows_of_an_opt_out_is_believed() {
    let dir = tempfile::tempdir().unwrap();
    let clock = TestClock::new();
    let service = open(dir.path(), &clock);
    let (address, seen) = gateway("+1555000000").await;
    let courier = courier(&service, &clock, address);
    for number in [0, 1] {
        squad(&service, number).await;
        assert_eq!(letter(&service, number).await, 1);
    }
    courier.deliver_due().await;
    assert_eq!(seen.lock().unwrap().len(), 1);
    assert_eq!(seen.lock().unwrap()[0]["to"], coach(1));
    assert!(seen.lock().unwrap()[0]["text"].contains("heron"));
    assert!(service.is_opted_out(&coach(0)));
    let left = service.undelivered().unwrap();
    assert!(matches!(left[..], [ref one] if matches!(one.state, LetterState::Dead(_))));

    // Durable, and heeded: the next letter is not even written.
    service.close().await;
    let service = open(dir.path(), &clock);
    assert!(service.is_opted_out(&coach(0)));
    assert_eq!((letter(&service, 0).await, letter(&service, 1).await), (0, 1));
    assert!(say_as(&service, &coach(0), "start").await.contains("on again"));
    assert_eq!(letter(&service, 0).await, 1);
}

/// What was written before the word STOP came is not sent after it.
#[tokio::test]
async fn stop_reaches_letters_that_wait() {
    let dir = tempfile::tempdir().unwrap();
    let clock = TestClock::new();
    let service = open(dir.path(), &clock);
    let (address, seen) = gateway("nobody").await;
    squad(&service, 0).await;
    assert_eq!(letter(&service, 0).await, 1);
    assert!(!say_as(&service, &coach(0), "STOP").await.is_empty());
    let courier = courier(&service, &clock, address);
    courier.deliver_due().await;
    assert_eq!(service.retry(None).await.unwrap(), 1);
    courier.deliver_due().await;
    assert_eq!(*seen.lock().unwrap(), []);
}

/// Letters to addresses that no way leads to wait, and hold up no others.
#[tokio::test]
async fn what_has_no_way_out_waits() {
    let dir = tempfile::tempdir().unwrap();
    let clock = TestClock::new();
    let service = open(dir.path(), &clock);
    let (address, seen) = gateway("nobody").await;
    squad(&service, 0).await;
    letter(&service, 0).await;
    let to = Destination::new(&format!("http://{address}/send"), true, None).unwrap();
    let nothing =
        Gateway { format: Format::Form, fields: vec![], authorization: None, opted_out: vec![] };
    let routes = Routes::default().and("@", Carrier::new(to, nothing, PATIENCE).unwrap());
    let elsewhere =
        Courier::new(Arc::clone(&service), Arc::clone(&clock) as Arc<dyn Clock>, routes);
    elsewhere.deliver_due().await;
    assert_eq!(service.letters_waiting(), 1);
    courier(&service, &clock, address).deliver_due().await;
    assert_eq!((service.letters_waiting(), seen.lock().unwrap().len()), (0, 1));
}
