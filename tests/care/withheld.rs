//! Private words are in no file of the store, and a repeat is known all the
//! same.

use std::path::Path;
use std::sync::Arc;

use jiff::Timestamp;
use lapwing::clock::{Clock, ClockMode};
use lapwing::journal::SledJournal;
use lapwing::service::{Body, Failure, Incoming, NewSquad, Service};

struct Fixed;

impl Clock for Fixed {
    fn now(&self) -> Timestamp {
        "2026-03-02T12:00:00Z".parse().unwrap()
    }
}

fn text(id: &str, text: &str) -> Incoming {
    Incoming {
        channel: "messages".into(),
        id: Some(id.to_owned()),
        from: "+15550101".into(),
        room: None,
        sent_at: None,
        body: Body::Text(text.to_owned()),
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn private_words_are_in_no_file() {
    const PRIVATE: [&str; 4] = [
        "im pregnant zebrafinch",
        "not eating zebrafinch",
        "i want to die zebrafinch",
        "200 test 3:12 i want to die zebrafinch",
    ];
    let folder = tempfile::tempdir().unwrap();
    let journal = SledJournal::open(folder.path().join("journal")).unwrap();
    let service = Service::open(Arc::new(journal), Arc::new(Fixed), ClockMode::Wall).unwrap();
    let squad = NewSquad::of_grown_ups("Dusk", "+15550100");
    let code = service.add_squad(squad).await.unwrap().code;
    service.receive(text("join", &format!("join {code} heron"))).await.unwrap();
    service.receive(text("open", "shoulder hurts 4 kingfisher")).await.unwrap();
    for (at, words) in PRIVATE.iter().enumerate() {
        let id = format!("p{at}");
        let first = service.receive(text(&id, words)).await.unwrap();
        let again = service.receive(text(&id, words)).await.unwrap();
        assert!(again.duplicate && again.replies == first.replies, "{words}");
        let other = service.receive(text(&id, "next")).await;
        assert!(matches!(other, Err(Failure::Conflict)), "{words}");
    }
    service.close().await;
    drop(service);
    assert!(holds(folder.path(), "kingfisher"), "open words are kept, so the search can find");
    assert!(!holds(folder.path(), "zebrafinch"));
}

/// True if a file below holds these bytes.
fn holds(path: &Path, words: &str) -> bool {
    if path.is_dir() {
        let entries = std::fs::read_dir(path).unwrap();
        return entries.map(|entry| entry.unwrap().path()).any(|entry| holds(&entry, words));
    }
    let bytes = std::fs::read(path).unwrap();
    bytes.windows(words.len()).any(|window| window == words.as_bytes())
}
