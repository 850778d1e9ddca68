//! Two squads with a secret in everything of theirs, and someone in each role.

use jiff::Timestamp;
use lapwing::coaching::Rulebook;
use lapwing::desk::board::{Board, BoardDoor, look};
use lapwing::desk::{self, Asked, Decision};
use lapwing::history::BoardOpen;
use lapwing::history::{Event, Role, Squad, Stamped, StrangersAsked};
use lapwing::reply::{Outcome, result, voice};

use crate::opened::{GROWN_UPS, opened};

/// Those who ask.
pub const ROLES: [&str; 9] = [
    "stranger",
    "swimmer",
    "shared",
    "guardian",
    "assistant",
    "coach",
    "officer",
    "far-coach",
    "left-coach",
];

/// What is whose: a time, a place that hurts, a number, the coach's words.
const SECRETS: [(&str, &str); 20] = [
    ("wren", "1:51.9"),
    ("wren", "111.9"),
    ("wren", "3:33.3"),
    // Between that and what the lane is told to have swum.
    ("wren", "+6.7"),
    ("wren", "213.3"),
    ("wren", "groin"),
    ("wren", "zebra"),
    ("number", "15557777"),
    ("number", "5558888"),
    ("number", "15550101"),
    ("number", "15550102"),
    ("plover", "2:23.3"),
    ("plover", "143.3"),
    ("plover", "calf"),
    ("number", "15556666"),
    ("number", "5556661"),
    ("swimmer", "4:44.4"),
    ("swimmer", "284.4"),
    ("shared", "5:05.5"),
    ("shared", "5:25.5"),
];

pub struct Squads {
    pub dusk: Squad,
    dawn: Squad,
    now: Timestamp,
}

/// What a request came to.
pub struct Heard {
    /// `+` answered, `-` not done, `?` asked about.
    pub mark: char,
    /// What the room hears.
    pub aloud: String,
    /// All that the sender is given, as words and as data.
    pub all: String,
    /// To others: address, words.
    pub letters: Vec<(String, String)>,
}

pub fn address(who: &str) -> &'static str {
    match who {
        "coach" => "+15550100",
        "swimmer" => "+15550101",
        "shared" => "+15550102",
        "guardian" => "+15550103",
        "assistant" => "+15550104",
        "officer" => "+15550105",
        "left-coach" => "+15550106",
        "far-coach" => "+15550200",
        "wren" => "+15557777",
        "plover" => "+15556666",
        "stranger" => "+15550900",
        other => panic!("nobody knows {other}"),
    }
}

impl Squads {
    pub fn open() -> Squads {
        let now = "2026-03-02T19:00:00Z".parse().unwrap();
        let mut squads = Squads {
            dusk: opened("dusk", address("coach"), "DUSKDUSK", now, GROWN_UPS),
            dawn: opened("dawn", address("far-coach"), "DAWNDAWN", now, GROWN_UPS),
            now,
        };
        let role = |address: &str, role| Event::RoleGiven {
            address: address.to_owned(),
            role,
            called: None,
        };
        for (who, office) in [
            ("guardian", Role::Guardian),
            ("assistant", Role::Assistant),
            ("officer", Role::WelfareOfficer),
            ("left-coach", Role::Coach),
        ] {
            squads.happens(role(address(who), office));
        }
        squads.happens(Event::AccessEnded { address: address("left-coach").to_owned() });
        for (who, text) in [
            ("swimmer", "join DUSKDUSK heron"),
            ("swimmer", "200 test 4:44.4"),
            ("shared", "join DUSKDUSK siskin"),
            ("shared", "200 test 5:05.5"),
            ("shared", "join DUSKDUSK dunnock"),
            ("shared", "yes"),
            ("shared", "dunnock 200 test 5:25.5"),
            ("wren", "join DUSKDUSK wren"),
            ("wren", "200 test 3:33.3"),
            ("wren", "groin hurts 3"),
            ("wren", "contact +1 555 8888"),
            ("coach", "note wren: zebra"),
            ("coach", "focus wren: zebra"),
            ("coach", "add robin 2:20"),
            ("coach", "entry wren 100 back 1:51.9"),
            // A lane of wren's alone: what it swam tells their best.
            ("coach", "here wren heron"),
            ("coach", "wren lane 1"),
            ("coach", "lanes 2"),
            ("plover", "join DAWNDAWN plover"),
            ("plover", "200 test 2:23.3"),
            ("plover", "calf hurts 3"),
            ("plover", "contact +1 555 6661"),
        ] {
            squads.tell(who, text);
        }
        squads
    }

    fn happens(&mut self, event: Event) {
        let cause = self.dusk.next_cause;
        self.dusk.apply(&Stamped { cause, at: self.now, by: address("coach").into(), event });
    }

    /// Says something that stays said.
    pub fn tell(&mut self, who: &str, text: &str) {
        let from = address(who);
        let far = self.is_far(from, text);
        let squad = if far { &mut self.dawn } else { &mut self.dusk };
        let mut after = desk::answer(squad, &asked(from, None, text, self.now)).squad;
        after.next_cause += 1;
        *squad = after;
    }

    fn is_far(&self, from: &str, text: &str) -> bool {
        text.contains("DAWNDAWN")
            || self.dawn.members.contains_key(from) && !text.contains("DUSKDUSK")
    }

    /// What a text from `who` comes to, which is then forgotten.
    pub fn ask(&self, who: &str, room: Option<&str>, text: &str) -> Heard {
        let from = address(who);
        let asked = asked(from, room, text, self.now);
        let squad = if self.is_far(from, text) { &self.dawn } else { &self.dusk };
        if squad.members.contains_key(from) || desk::opening_code(text).is_some() {
            return Heard::of(desk::answer(squad, &asked), room.is_some());
        }
        let (understood, outcome, _) = desk::answer_stranger(&asked);
        let voice = voice(lapwing::language::Language::English);
        let words = voice.lines(&outcome).join("\n");
        let all = format!("{words}\n{}\n{understood:?}", result(&outcome, voice));
        Heard { mark: mark(&outcome), aloud: words, all, letters: vec![] }
    }

    /// The squad's page as `who` would see it who had it opened before.
    pub fn page(&self, who: &str) -> Option<Board> {
        let asked = asked(address(who), None, "", self.now);
        look(&self.dusk, &asked, &open(address(who), self.now)).map(|look| look.shown)
    }

    /// What `role` was told in answer to `text` that is not for them.
    pub fn leaks(&self, role: &str, text: &str, room: bool, heard: &Heard) -> Vec<&'static str> {
        let on_deck = ["coach", "assistant"].contains(&role);
        let may = |owner: &str| match owner {
            "number" => false,
            "plover" => role == "far-coach",
            owner => owner == role || on_deck,
        };
        let aloud = |owner: &str| owner == role;
        // Who else is there: known to whoever named them.
        let named = ["wren", "plover"].into_iter().filter(|name| !text.contains(name));
        let secrets = SECRETS.into_iter().chain(named.map(|name| (name, name)));
        secrets
            .filter(|(owner, needle)| {
                let told = heard.all.contains(needle) && !may(owner);
                told || room && heard.aloud.contains(needle) && !aloud(owner)
            })
            .map(|(_, needle)| needle)
            .collect()
    }
}

fn asked<'a>(from: &'a str, room: Option<&'a str>, text: &'a str, now: Timestamp) -> Asked<'a> {
    static DOOR: std::sync::LazyLock<BoardDoor> = std::sync::LazyLock::new(|| BoardDoor {
        base: "https://squad.example.org".into(),
        token: "token".into(),
    });
    static BOOK: std::sync::LazyLock<Rulebook> = std::sync::LazyLock::new(Rulebook::default);
    static STRANGERS_ASKED: std::sync::LazyLock<StrangersAsked> =
        std::sync::LazyLock::new(StrangersAsked::default);
    Asked { room, board: Some(&DOOR), ..Asked::alone(from, text, now, &BOOK, &STRANGERS_ASKED) }
}

impl Heard {
    fn of(decision: Decision, room: bool) -> Heard {
        let (mine, others): (Vec<_>, Vec<_>) =
            decision.said.into_iter().partition(|say| say.to.is_none());
        let aloud: String = mine.into_iter().map(|say| say.text).collect();
        let aside = decision.aside.map(|aside| aside.text).unwrap_or_default();
        // In a room the data goes to the gateway that asked, which is the sender's.
        let all = format!("{aloud}\n{aside}\n{}\n{:?}", decision.result, decision.understood);
        Heard {
            mark: mark(&decision.outcome),
            aloud: if room { aloud } else { String::new() },
            all,
            letters: others.into_iter().map(|say| (say.to.unwrap(), say.text)).collect(),
        }
    }
}

fn mark(outcome: &Outcome) -> char {
    match outcome {
        Outcome::Refused(_) | Outcome::NotUnderstood(_) => '-',
        Outcome::Question(_) => '?',
        Outcome::Mixed(several) => several.iter().map(mark).min().unwrap(),
        _ => '+',
    }
}

/// The squad's page as it was opened to somebody.
fn open(address: &str, at: Timestamp) -> BoardOpen {
    BoardOpen {
        address: address.to_owned(),
        of: None,
        token: String::new(),
        opened: at,
        until: at,
        language: None,
    }
}
