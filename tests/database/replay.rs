//! Whether every reply is the one that the history implies: all that was said is said
//! again, one after the other in the order of the log, to a service that is alone.

use std::collections::BTreeMap;
use std::sync::Arc;

use jiff::Timestamp;
use lapwing::clock::{ClockMode, WallClock};
use lapwing::journal::{DatabaseUrl, Journal, PostgresJournal, SledJournal, StreamId};
use lapwing::service::{Body, Incoming, NewSquad, Service, Spoken, Via};
use regex::Regex;
use serde_json::Value;

/// Says all of a database's log again, and gives how many texts those were.
pub fn verify(url: &str) -> usize {
    let runtime = tokio::runtime::Builder::new_multi_thread().enable_all().build().unwrap();
    runtime.block_on(said_again(url.parse().unwrap()))
}

async fn said_again(url: DatabaseUrl) -> usize {
    let folder = tempfile::tempdir().unwrap();
    let clock = || Arc::new(WallClock);
    let log = PostgresJournal::open_to_read(url, clock()).unwrap();
    let alone = Arc::new(SledJournal::open(folder.path().join("journal")).unwrap());
    let service = Service::open(alone, clock(), ClockMode::Message).unwrap();
    let (mut codes, mut texts) = (BTreeMap::new(), 0);
    for placed in log.entries_of(&StreamId::all(), 0) {
        let body = placed.unwrap().entry.body;
        // What became of a letter is no text.
        let Ok(record) = serde_json::from_slice::<Value>(&body) else { continue };
        let opened = record["events"].as_array().unwrap().iter();
        for event in opened.filter(|event| event["event"] == "squad_opened") {
            let word = |name: &str| event[name].as_str().unwrap().to_owned();
            let squad = NewSquad {
                timezone: word("timezone"),
                ..NewSquad::of_grown_ups(word("name"), word("coach"))
            };
            codes.insert(word("code"), service.add_squad(squad).await.unwrap().code);
        }
        let Some(text) = record["body"]["text"].as_str().filter(|text| !text.is_empty()) else {
            continue;
        };
        texts += 1;
        let mut text = text.to_owned();
        for (there, here) in &codes {
            text = text.replace(there, here);
        }
        let now: Timestamp = record["now"].as_str().unwrap().parse().unwrap();
        let incoming = Incoming {
            channel: "plain".into(),
            id: Some(format!("again-{texts}")),
            from: record["from"].as_str().unwrap().to_owned(),
            room: None,
            sent_at: Some(now),
            body: Body::Text(text),
        };
        let again = service.receive(incoming).await.unwrap();
        let said: Vec<String> = record["replies"]
            .as_array()
            .unwrap()
            .iter()
            .filter(|reply| reply["via"] == "answer")
            .map(|reply| plain(reply["text"].as_str().unwrap()))
            .collect();
        let is_answer = |reply: &&Spoken| reply.via == Via::Answer;
        let implied: Vec<String> =
            again.replies.iter().filter(is_answer).map(|reply| plain(&reply.text)).collect();
        assert_eq!(said, implied, "{record}");
    }
    service.close().await;
    texts
}

/// Without the codes, which are drawn.
fn plain(text: &str) -> String {
    Regex::new("[A-Z0-9-]{6,12}").unwrap().replace_all(text, "CODE").into_owned()
}
