//! The demo's history: every text of it can be read, none is asked about, and
//! the same day gives the same history.
#![expect(clippy::unwrap_used, reason = "a test that can't go on has failed")]

use std::sync::Arc;

use jiff::Timestamp;
use jiff::tz::TimeZone;
use lapwing::clock::{Clock, ClockMode};
use lapwing::demo;
use lapwing::journal::SledJournal;
use lapwing::service::{Body, Incoming, NewSquad, Service};

struct Fixed;

impl Clock for Fixed {
    fn now(&self) -> Timestamp {
        "2026-06-01T12:00:00Z".parse().unwrap()
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn every_text_is_read_and_stored() {
    let folder = tempfile::tempdir().unwrap();
    let journal = SledJournal::open(folder.path().join("journal")).unwrap();
    let service = Service::open(Arc::new(journal), Arc::new(Fixed), ClockMode::Message).unwrap();
    let squad = NewSquad::of_grown_ups("Dusk", demo::COACH);
    let code = service.add_squad(squad).await.unwrap().code;
    let history = demo::history(Fixed.now(), &TimeZone::UTC, &code);
    assert!(history.len() > 400, "{} texts", history.len());
    assert_eq!(history, demo::history(Fixed.now(), &TimeZone::UTC, &code));
    let mut odd = Vec::new();
    for text in history {
        let incoming = Incoming {
            channel: "demo".into(),
            id: None,
            from: text.from,
            room: None,
            sent_at: Some(text.at),
            body: Body::Text(text.text.clone()),
        };
        let result = service.receive(incoming).await.unwrap().result;
        if ["question", "refused", "not_understood"].contains(&result["kind"].as_str().unwrap()) {
            odd.push((text.text, result));
        }
    }
    // A test at a faster pace than a shorter one within eight weeks is asked
    // about, as it should be; nothing else is.
    odd.retain(|(_, result)| !result["asks"].as_str().unwrap_or("").contains("faster pace"));
    assert!(odd.is_empty(), "{odd:?}");
}
