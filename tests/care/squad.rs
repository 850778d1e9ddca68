//! An invented squad, talked to without any disk or socket.

use jiff::{Timestamp, ToSpan};
use lapwing::coaching::Rulebook;
use lapwing::desk::{self, Asked, Decision, Held};
use lapwing::history::{Event, Squad, StrangersAsked};
use lapwing::reply::Outcome;
use serde_json::Value;

use crate::opened::{For, GROWN_UPS, opened};

pub const COACH: &str = "+15550100";
pub const CODE: &str = "DUSKDUSK";

/// A squad that keeps what it is told, a minute a message.
#[derive(Clone)]
pub struct Talk {
    pub squad: Squad,
    pub now: Timestamp,
}

/// What one text came to.
pub struct Heard {
    pub result: Value,

    /// To the sender.
    pub text: String,
    /// To others: address, words.
    pub to_others: Vec<(String, String)>,
    pub events: Vec<Event>,
    pub private: bool,
    /// What of it waits for the morning.
    pub held: Held,
}

impl Talk {
    /// Opened as asked, with nobody in it yet.
    pub fn opened(ready: bool, minors: bool) -> Talk {
        let now: Timestamp = "2026-03-02T18:00:00Z".parse().unwrap();
        let squad = opened("Dusk", COACH, CODE, now, For { ready, minors, ..GROWN_UPS });
        Talk { squad, now }
    }

    /// Grown-ups, screened: heron and teal.
    pub fn of_grown_ups() -> Talk {
        let mut talk = Talk::opened(true, false);
        talk.hears("heron", &format!("join {CODE} heron"));
        talk.hears("teal", &format!("join {CODE} teal"));
        talk
    }

    pub fn hears(&mut self, who: &str, text: &str) -> Heard {
        self.hears_in(who, None, text)
    }

    pub fn hears_in(&mut self, who: &str, room: Option<&str>, text: &str) -> Heard {
        self.now = self.now.checked_add(1.minute()).unwrap();
        let from = address(who);
        let book = &Rulebook::default();
        let strangers_asked = StrangersAsked::default();
        let asked = Asked { room, ..Asked::alone(from, text, self.now, book, &strangers_asked) };
        let decision = desk::answer(&self.squad, &asked);
        self.squad = decision.squad.clone();
        self.squad.next_cause += 1;
        Heard::of(decision)
    }
}

impl Heard {
    fn of(decision: Decision) -> Heard {
        let (mine, others): (Vec<_>, Vec<_>) =
            decision.said.into_iter().partition(|say| say.to.is_none());
        Heard {
            result: decision.result,
            text: mine.into_iter().map(|say| say.text).collect(),
            to_others: others.into_iter().map(|say| (say.to.unwrap(), say.text)).collect(),
            events: decision.events,
            private: decision.private,
            held: decision.held,
        }
    }

    /// The caution's subject, `question`, or `none` of the kind.
    pub fn kind(&self) -> String {
        let one = |value: &Value| match value["kind"].as_str().unwrap() {
            "caution" => value["about"].as_str().map(str::to_owned),
            _ => None,
        };
        if self.result["kind"] == "question" {
            return "question".into();
        }
        let results = self.result["results"].as_array().cloned().unwrap_or_default();
        one(&self.result).or_else(|| results.iter().find_map(one)).unwrap_or("none".into())
    }
}

/// Where someone texts from, by name; an address is its own.
pub fn address(who: &str) -> &str {
    match who {
        "coach" => COACH,
        "heron" => "+15550101",
        "teal" => "+15550102",
        "wren" => "+15550103",
        "robin" => "+15550104",
        address if address.starts_with('+') => address,
        other => panic!("nobody knows {other}"),
    }
}

/// What someone in no squad is answered.
pub fn stranger(text: &str, opted_out: bool) -> (Outcome, Option<Event>) {
    let now: Timestamp = "2026-03-02T18:00:00Z".parse().unwrap();
    let book = &Rulebook::default();
    let strangers_asked = StrangersAsked::default();
    let asked = Asked { opted_out, ..Asked::alone("+15550199", text, now, book, &strangers_asked) };
    let (_, outcome, event) = desk::answer_stranger(&asked);
    (outcome, event)
}
