//! A squad talked to without disk or socket, and what a session's JSON says.

use jiff::{Timestamp, ToSpan};
use lapwing::coaching::Rulebook;
use lapwing::desk::{self, Asked};
use lapwing::export::{self, File, Whose};
use lapwing::history::{Squad, StrangersAsked};
use lapwing::message::Name;
use serde_json::Value;

use crate::opened::{GROWN_UPS, opened};

const COACH: &str = "+15550100";
const HERON: &str = "+15550101";

/// One swimmer's talk with the service.
#[derive(Clone)]
pub struct Talk {
    squad: Squad,
    pub now: Timestamp,
}

/// What one text came to.
#[derive(Debug, Clone)]
pub struct Heard {
    pub text: String,
    pub result: Value,
}

impl Talk {
    /// heron, grown up and screened, in a 25 m pool, on a Monday evening.
    pub fn of_heron() -> Talk {
        let now: Timestamp = "2026-03-02T18:00:00Z".parse().unwrap();
        let squad = opened("Dusk", COACH, "DUSKDUSK", now, GROWN_UPS);
        let mut talk = Talk { squad, now };
        talk.says("join DUSKDUSK heron");
        talk
    }

    pub fn says(&mut self, text: &str) -> Heard {
        self.heard(HERON, text)
    }

    pub fn coach_says(&mut self, text: &str) -> Heard {
        self.heard(COACH, text)
    }

    /// heron's calendar as it is to take along now.
    pub fn calendar(&self) -> String {
        let whose = Whose::One(Name::new("heron").unwrap());
        export::written(&self.squad, &whose, File::Calendar, self.now).unwrap()
    }

    fn heard(&mut self, from: &str, text: &str) -> Heard {
        self.now = self.now.checked_add(1.minute()).unwrap();
        let book = &Rulebook::default();
        let strangers_asked = StrangersAsked::default();
        let asked = Asked::alone(from, text, self.now, book, &strangers_asked);
        let decided = desk::answer(&self.squad, &asked);
        self.squad = decided.squad;
        self.squad.next_cause += 1;
        let own = decided.said.into_iter().filter(|say| say.to.is_none());
        let mut text: String = own.map(|say| say.text).collect::<Vec<_>>().join("\n");
        // What waits for `more` belongs to the reply.
        while text.to_lowercase().contains("more") && from == HERON {
            let more = self.more();
            if more.is_empty() {
                break;
            }
            text.push('\n');
            text.push_str(&more);
        }
        Heard { text, result: decided.result }
    }

    /// The lines that wait, read off the squad without asking for them.
    fn more(&mut self) -> String {
        let member = std::sync::Arc::make_mut(self.squad.members.get_mut(HERON).unwrap());
        std::mem::take(&mut member.more).join("\n")
    }

    pub fn days_later(&mut self, days: i64) {
        self.now = self.now.checked_add((24 * days).hours()).unwrap();
    }

    pub fn today(&self) -> jiff::civil::Date {
        jiff::tz::TimeZone::UTC.to_datetime(self.now).date()
    }
}

/// The sessions that a result tells.
pub fn sessions(result: &Value) -> Vec<Value> {
    match result["kind"].as_str().unwrap_or_default() {
        "session" => vec![result.clone()],
        "plan" => result["weeks"][0]["sessions"].as_array().unwrap().clone(),
        "test" if result["next"].is_object() => vec![result["next"].clone()],
        _ => vec![],
    }
}

/// The hardest level of a session.
pub fn hardness(session: &Value) -> u64 {
    lines(session).map(|(_, line)| line["level"].as_u64().unwrap()).max().unwrap()
}

pub fn is_hard(session: &Value) -> bool {
    hardness(session) >= 3
}

pub fn is_test(session: &Value) -> bool {
    session["blocks"].as_array().unwrap().iter().any(|block| block["part"] == "test")
}

/// Every line with how often its block is swum.
pub fn lines(session: &Value) -> impl Iterator<Item = (u64, &Value)> {
    session["blocks"].as_array().unwrap().iter().flat_map(|block| {
        let rounds = block["rounds"].as_u64().unwrap();
        block["repeats"].as_array().unwrap().iter().map(move |line| (rounds, line))
    })
}

/// The lines of the main set.
pub fn main_lines(session: &Value) -> impl Iterator<Item = (u64, &Value)> {
    session["blocks"].as_array().unwrap().iter().filter(|block| block["part"] == "main").flat_map(
        |block| {
            let rounds = block["rounds"].as_u64().unwrap();
            block["repeats"].as_array().unwrap().iter().map(move |line| (rounds, line))
        },
    )
}
