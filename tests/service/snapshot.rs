//! Past a snapshot: what is rebuilt from it and the tail says the same as what
//! was in memory, and a start reads no more than the tail.

use std::sync::Arc;

use jiff::{Timestamp, ToSpan};
use lapwing::clock::{Clock, ClockMode};
use lapwing::journal::{Journal, JournalError, SledJournal, State};
use lapwing::service::{Body, Incoming, NewSquad, Service};
use lapwing::units::Course;
use serde_json::Value;

struct Noon;

impl Clock for Noon {
    fn now(&self) -> Timestamp {
        "2026-03-02T12:00:00Z".parse().unwrap()
    }
}

const SWIMMERS: usize = 7;
const MESSAGES: usize = 1200;

async fn say(service: &Arc<Service>, from: String, at: Timestamp, text: &str) -> Value {
    let incoming = Incoming {
        channel: "chat".into(),
        id: None,
        from,
        room: None,
        sent_at: Some(at),
        body: Body::Text(text.to_owned()),
    };
    service.receive(incoming).await.unwrap().result
}

async fn all_that_is_known(service: &Arc<Service>, at: Timestamp) -> Vec<Value> {
    let mut known = vec![say(service, "coach".into(), at, "squad").await];
    for swimmer in 0..SWIMMERS {
        for text in ["me", "targets", "why", "more"] {
            known.push(say(service, format!("s{swimmer}"), at, text).await);
        }
    }
    known
}

#[tokio::test(flavor = "multi_thread")]
async fn rebuilt_from_a_snapshot_and_its_tail() {
    let folder = tempfile::tempdir().unwrap();
    let open = || {
        let journal = Arc::new(SledJournal::open(folder.path().join("journal")).unwrap());
        let kept: Arc<dyn Journal> = journal.clone();
        (Service::open(kept, Arc::new(Noon), ClockMode::Message).unwrap(), journal)
    };
    let (service, journal) = open();
    let squad = NewSquad {
        name: "Dusk".into(),
        coach: "coach".into(),
        timezone: "UTC".into(),
        course: Course::Short25m,
        expires_days: None,
        minors: false,
        ready: true,
    };
    let code = service.add_squad(squad).await.unwrap().code;
    let start = Noon.now();
    for swimmer in 0..SWIMMERS {
        let join = format!("join {code} heron{swimmer}");
        assert_eq!(say(&service, format!("s{swimmer}"), start, &join).await["kind"], "ok");
    }
    let texts = [
        "200 test 3:12",
        "next",
        "8x50 on 1:15 held 48 48 48 49 49 50 50 51",
        "done 1200 45min rpe 5",
        "undo",
        "400 test 6:52",
        "plan",
        "knee hurts 2",
        "better",
        "pool 50m",
        "undo",
        "fix 6:50",
    ];
    let mut at = start;
    for number in 0..MESSAGES {
        at = start.checked_add((number as i64 * 3).hours()).unwrap();
        let swimmer = number * 31 % SWIMMERS;
        say(&service, format!("s{swimmer}"), at, texts[number * 17 % texts.len()]).await;
    }
    let before = all_that_is_known(&service, at).await;
    let streams = journal.streams().unwrap();
    let squad = streams.iter().find(|stream| stream.0.starts_with("s/")).unwrap();
    let (through, last) = (journal.snapshot(squad).unwrap().through, journal.last().unwrap());
    assert!((600..last.number()).contains(&through), "{through}");
    service.close().await;
    assert_eq!(service.state(), State::Stopped(JournalError::Closed));
    drop((service, journal));
    let (service, _journal) = open();
    // `more` was emptied by the first look, so it is not the same twice.
    let after = all_that_is_known(&service, at).await;
    for (index, (one, other)) in before.iter().zip(&after).enumerate() {
        if index == 0 || (index - 1) % 4 != 3 {
            assert_eq!(one, other);
        }
    }
}
