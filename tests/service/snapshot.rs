//! Past a snapshot: what is rebuilt from it and the tail says the same as what
//! was in memory, and a start reads no more than the tail.

use std::path::Path;
use std::sync::Arc;
use std::time::Duration;

use jiff::{Timestamp, ToSpan};
use lapwing::clock::{Clock, ClockMode};
use lapwing::journal::{Journal, JournalError, SledJournal, State, StreamId};
use lapwing::service::{Body, Incoming, NewSafeguards, NewSquad, Opening, Service};
use serde_json::Value;

struct Noon;

impl Clock for Noon {
    fn now(&self) -> Timestamp {
        "2026-03-02T12:00:00Z".parse().unwrap()
    }
}

const SWIMMERS: usize = 7;
const MESSAGES: usize = 1200;

fn open(folder: &Path) -> (Arc<Service>, Arc<SledJournal>) {
    let journal = Arc::new(SledJournal::open(folder.join("journal")).unwrap());
    let kept: Arc<dyn Journal> = journal.clone();
    (Service::open(kept, Arc::new(Noon), ClockMode::Message).unwrap(), journal)
}

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
    let (service, journal) = open(folder.path());
    let code = service.add_squad(NewSquad::of_grown_ups("Dusk", "coach")).await.unwrap().code;
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
    let (service, _journal) = open(folder.path());
    // `more` was emptied by the first look, so it is not the same twice.
    let after = all_that_is_known(&service, at).await;
    for (index, (one, other)) in before.iter().zip(&after).enumerate() {
        if index == 0 || (index - 1) % 4 != 3 {
            assert_eq!(one, other);
        }
    }
}

/// Alarms, who wants no texts though they were forgotten, who was asked in and how
/// often, which squad hears a worry, by which code a squad is joined.
#[tokio::test(flavor = "multi_thread")]
async fn what_is_known_apart_from_squads_is_in_a_snapshot() {
    let folder = tempfile::tempdir().unwrap();
    let (service, journal) = open(folder.path());
    let mut codes = Vec::new();
    for name in ["Dusk", "Dawn"] {
        let safeguards =
            NewSafeguards { welfare: Some(format!("{name} welfare")), ..NewSafeguards::default() };
        let opening =
            Opening { squad: NewSquad::of_grown_ups(name, format!("{name} coach")), safeguards };
        codes.push(service.add_squad(opening).await.unwrap().code);
    }
    let (dusk, dawn) = (&codes[0], &codes[1]);
    let at = Noon.now();
    let invite = "invite +15550102";
    for (from, text) in [
        ("heron", format!("join {dusk} heron")),
        ("heron", "chest pain".into()),
        ("teal", format!("join {dawn} teal")),
        ("teal", "leave".into()),
        ("teal", "yes".into()),
        ("wren", format!("join {dawn} wren")),
        ("wren", "stop".into()),
        ("wren", "forget me".into()),
        ("wren", "yes".into()),
        ("Dawn coach", invite.into()),
        ("Dawn coach", invite.into()),
        ("Dawn coach", invite.into()),
    ] {
        say(&service, from.into(), at, &text).await;
    }
    let renewed = say(&service, "Dawn coach".into(), at, "new code").await;
    let renewed = renewed["code"].as_str().unwrap().to_owned();
    assert!(service.erased(Duration::from_secs(30)).await);
    let unheard = service.unheard();
    assert!(unheard.len() == 1 && unheard[0].from == "heron", "{unheard:?}");
    assert!(service.is_opted_out("wren"));
    let last = journal.last().unwrap().number();
    service.close().await;
    drop((service, journal));

    let (service, journal) = open(folder.path());
    assert_eq!(journal.snapshot(&StreamId::all()).unwrap().through, last);
    assert_eq!(service.unheard(), unheard);
    assert!(service.is_opted_out("wren") && !service.is_opted_out("teal"));
    let refused = say(&service, "Dawn coach".into(), at, invite).await;
    assert!(refused.to_string().contains("asked_often"), "{refused}");
    let told = || {
        let letters = service.undelivered().unwrap();
        letters.into_iter().filter(|one| one.to.ends_with("welfare")).map(|one| one.to)
    };
    say(&service, "plover".into(), at, "worried").await;
    assert_eq!(told().count(), 0);
    say(&service, "teal".into(), at, "worried").await;
    assert_eq!(told().collect::<Vec<_>>(), ["Dawn welfare"]);
    assert_ne!(
        say(&service, "siskin".into(), at, &format!("join {dawn} siskin")).await["kind"],
        "ok"
    );
    assert_eq!(
        say(&service, "siskin".into(), at, &format!("join {renewed} siskin")).await["kind"],
        "ok"
    );
}
