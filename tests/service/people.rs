//! Who belongs to which squad, and which one is meant, before and after a start
//! from the log and from a snapshot.

use std::path::Path;
use std::sync::Arc;

use jiff::Timestamp;
use lapwing::clock::{Clock, ClockMode};
use lapwing::journal::SledJournal;
use lapwing::service::{Body, Incoming, NewSquad, Service};
use serde_json::Value;

struct Noon;

impl Clock for Noon {
    fn now(&self) -> Timestamp {
        "2026-03-02T12:00:00Z".parse().unwrap()
    }
}

const COACH: &str = "+15550100";
const HERON: &str = "+15550101";
const KESTREL: &str = "+15550150";

fn open(folder: &Path) -> Arc<Service> {
    let journal = Arc::new(SledJournal::open(folder.join("journal")).unwrap());
    Service::open(journal, Arc::new(Noon), ClockMode::Wall).unwrap()
}

async fn squad(service: &Arc<Service>, name: &str) -> String {
    let squad = NewSquad::of_grown_ups(name, COACH);
    service.add_squad(squad).await.unwrap().code
}

async fn say(service: &Arc<Service>, from: &str, text: &str) -> Value {
    let incoming = Incoming {
        channel: "messages".into(),
        id: None,
        from: from.into(),
        room: None,
        sent_at: None,
        body: Body::Text(text.to_owned()),
    };
    service.receive(incoming).await.unwrap().result
}

/// The names in the squad that a coach's text goes to.
async fn swimmers(service: &Arc<Service>, text: &str) -> Vec<String> {
    let squad = say(service, COACH, text).await;
    let rows = squad["swimmers"].as_array().unwrap();
    rows.iter().map(|row| row["swimmer"].as_str().unwrap().to_owned()).collect()
}

#[tokio::test(flavor = "multi_thread")]
async fn a_coach_of_two_squads_is_asked_once() {
    let folder = tempfile::tempdir().unwrap();
    let service = open(folder.path());
    let (dusk, dawn) = (squad(&service, "Dusk").await, squad(&service, "Dawn swim").await);
    say(&service, HERON, &format!("join {dusk} heron")).await;
    say(&service, "+15550102", &format!("join {dawn} teal")).await;
    let asked = say(&service, COACH, "squad").await;
    assert_eq!(asked["kind"], "question");
    assert_eq!(asked["options"], serde_json::json!(["Dusk", "Dawn swim"]));
    // The text that waited is answered once the squad is named, by its first word.
    assert_eq!(swimmers(&service, "dawn").await, ["teal"]);
    assert_eq!(swimmers(&service, "squad").await, ["teal"]);
    assert_eq!(swimmers(&service, "dusk: squad").await, ["heron"]);
    assert_eq!(swimmers(&service, "squad").await, ["heron"]);
    // Danger waits for no question, and finds the squad that it speaks of.
    let elsewhere = tempfile::tempdir().unwrap();
    let fresh = open_two(elsewhere.path()).await;
    assert_eq!(say(&fresh, COACH, "teal fainted").await["kind"], "caution");
}

async fn open_two(folder: &Path) -> Arc<Service> {
    let service = open(folder);
    squad(&service, "Dusk").await;
    let dawn = squad(&service, "Dawn").await;
    say(&service, "+15550102", &format!("join {dawn} teal")).await;
    service
}

#[tokio::test(flavor = "multi_thread")]
async fn all_of_it_outlives_a_snapshot() {
    let folder = tempfile::tempdir().unwrap();
    let service = open(folder.path());
    let dusk = squad(&service, "Dusk").await;
    let dawn = squad(&service, "Dawn").await;
    say(&service, HERON, &format!("join {dusk} heron")).await;
    say(&service, "+15550102", &format!("join {dusk} teal")).await;
    say(&service, HERON, &format!("join {dawn} heron")).await;
    say(&service, HERON, "dusk 200 test 3:12").await;
    say(&service, COACH, "dusk").await;
    say(&service, COACH, &format!("invite {KESTREL} assistant kestrel")).await;
    let claim = say(&service, COACH, "add robin 2:20").await["claim"].as_str().unwrap().to_owned();
    say(&service, "+15550102", "200 test 2:58").await;
    for text in ["leave", "yes"] {
        say(&service, "+15550102", text).await;
    }
    service.close().await;
    drop(service);
    let service = open(folder.path());
    assert_eq!(swimmers(&service, "squad").await, ["heron", "robin"]);
    assert_eq!(say(&service, HERON, "squads").await["here"], "Dusk");
    assert_eq!(say(&service, HERON, "best").await["last_test"]["time_s"], 192.0);
    assert_eq!(say(&service, KESTREL, "yes").await["role"], "assistant");
    assert_eq!(say(&service, "+15550153", &format!("claim {claim}")).await["swimmer"], "robin");
    assert_eq!(say(&service, "+15550102", "me").await["rule"], "not_a_member");
    // Whoever comes back finds what they left; nobody else can take their name.
    let again = format!("join {dusk} teal");
    assert_eq!(say(&service, "+15550177", &again).await["rule"], "name_taken");
    assert_eq!(say(&service, "+15550102", &again).await["kind"], "ok");
    assert_eq!(say(&service, "+15550102", "best").await["last_test"]["time_s"], 178.0);
}

/// Whoever gets such a text can't tell one squad from another, so all squads are
/// counted together; a fresh start does not begin the count anew.
#[tokio::test(flavor = "multi_thread")]
async fn squads_together_ask_nobody_more_than_three_times() {
    let folder = tempfile::tempdir().unwrap();
    let service = open_two(folder.path()).await;
    let invite = |squad: &str| format!("{squad}: invite {KESTREL}");
    for squad in ["dusk", "dawn", "dusk"] {
        assert_eq!(say(&service, COACH, &invite(squad)).await["kind"], "ok", "{squad}");
    }
    assert_eq!(say(&service, COACH, &invite("dawn")).await["rule"], "asked_often");
    service.close().await;
    drop(service);
    let service = open(folder.path());
    let contact = format!("dawn: second contact {KESTREL}");
    assert_eq!(say(&service, COACH, &contact).await["rule"], "asked_often");
    let another = "dawn: second contact +15550151";
    assert_eq!(say(&service, COACH, another).await["kind"], "ok");
}
