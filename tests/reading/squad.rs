//! The squad of a dozen, in the state of each context.

use std::collections::HashMap;
use std::sync::LazyLock;

use jiff::Timestamp;
use jiff::civil::{Date, Time, date};
use jiff::tz::TimeZone;
use lapwing::coaching::Rulebook;
use lapwing::desk::{self, Asked, Decision};
use lapwing::history::{Squad, StrangersAsked};
use lapwing::reading::frame::Clause;

use crate::opened::{For, opened};

pub const COACH: &str = "+15550100";
pub const HERON: &str = "+15550101";
pub const GUARDIAN: &str = "+15550160";
pub const ROBIN: &str = "+15550150";
const OFFICER: &str = "+15550180";
const CODE: &str = "DUSKDUSK";

const OTHERS: [&str; 11] = [
    "teal", "wren", "robin", "dunnock", "finch", "kite", "lark", "swift", "plover", "rook",
    "puffin",
];
const BESTS: &str = "heron 3:12 teal 2:58 wren 3:41 robin 4:05 dunnock 3:30 finch 2:50 kite 3:05 \
                     lark 3:55 swift 2:44 plover 4:20 rook 3:20 puffin 4:40";

/// A context: who writes, where the evening stands, in which country.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Context {
    pub kind: char,
    pub country: Option<char>,
    pub before: Option<String>,
    pub spanish: bool,
}

impl Context {
    pub fn of(typed: &str, spanish: bool) -> Context {
        if let Some(before) = typed.strip_prefix("T:") {
            return Context { kind: 'T', country: None, before: Some(before.to_owned()), spanish };
        }
        let mut letters = typed.chars();
        let kind = letters.next().unwrap_or('P');
        Context { kind, country: letters.next(), before: None, spanish }
    }

    fn zone(&self) -> (&'static str, &'static str) {
        match self.country {
            Some('U') => ("America/New_York", "25yd"),
            Some('A') => ("Australia/Sydney", "25m"),
            _ => ("Europe/London", "25m"),
        }
    }

    pub fn sender(&self) -> &'static str {
        match self.kind {
            'B' | 'E' | 'A' => COACH,
            'G' => GUARDIAN,
            'Y' => ROBIN,
            _ => HERON,
        }
    }

    /// The local instant at which its texts are sent.
    pub fn at(&self) -> Timestamp {
        let (hour, minute) = match self.kind {
            'M' | 'A' => (8, 0),
            'B' => (14, 0),
            'E' => (19, 30),
            'T' => (20, 40),
            _ => (20, 30),
        };
        let day = if self.kind == 'A' { 5 } else { 4 };
        self.local(date(2026, 3, day), Time::constant(hour, minute, 0, 0))
    }

    pub fn local(&self, day: Date, time: Time) -> Timestamp {
        let zone = TimeZone::get(self.zone().0).unwrap();
        zone.to_timestamp(day.to_datetime(time)).unwrap()
    }
}

/// Nobody was asked in.
static STRANGERS_ASKED: LazyLock<StrangersAsked> = LazyLock::new(StrangersAsked::default);

/// A text as the desk gets it.
fn asked<'a>(from: &'a str, text: &'a str, at: Timestamp, book: &'a Rulebook) -> Asked<'a> {
    Asked::alone(from, text, at, book, &STRANGERS_ASKED)
}

/// Something of a text in pieces.
pub fn in_its_pieces<O>(
    squad: &Squad,
    context: &Context,
    text: &str,
    f: impl FnOnce(&Clause<'_, '_>) -> O,
) -> O {
    let book = Rulebook::default();
    let asked = asked(context.sender(), text, context.at(), &book);
    lapwing::reading::in_its_pieces(text, &desk::situation(squad, &asked), f)
}

/// What the doubt about a text's reading is judged by.
pub fn doubts(squad: &Squad, context: &Context, text: &str) -> Option<Vec<String>> {
    let book = Rulebook::default();
    let asked = asked(context.sender(), text, context.at(), &book);
    lapwing::reading::doubts(text, &desk::situation(squad, &asked))
}

/// How one text is read, to be looked at.
pub fn traced(squad: &Squad, from: &str, text: &str, at: Timestamp) -> String {
    let book = Rulebook::default();
    let trace = desk::traced(squad, &asked(from, text, at, &book));
    format!("  {text}\n    {}", trace.to_string().replace('\n', "\n    "))
}

/// What one text came to.
pub fn say(squad: &mut Squad, from: &str, text: &str, at: Timestamp) -> Decision {
    let book = Rulebook::default();
    let asked = asked(from, text, at, &book);
    let decision = desk::answer(squad, &asked);
    *squad = decision.squad.clone();
    squad.next_cause += 1;
    decision
}

/// The squad as it is in a context, before its text.
pub fn squad(context: &Context) -> Squad {
    let young = matches!(context.kind, 'G' | 'Y');
    let at = context.local(date(2026, 3, 1), Time::constant(11, 0, 0, 0));
    let whom = For { minors: young, ready: !young, at: context.zone() };
    let mut squad = opened("Tarn", COACH, CODE, at, whom);
    let mut tell = |from: &str, text: &str, day: i8, hour: i8, minute: i8| {
        let at = context.local(date(2026, 3, day), Time::new(hour, minute, 0, 0).unwrap());
        drop(say(&mut squad, from, text, at));
    };
    if young {
        tell(COACH, &format!("welfare officer {OFFICER}"), 1, 11, 59);
    }
    tell(COACH, "slot mon wed 1900-2000 4 lanes", 1, 12, 0);
    if young {
        tell(ROBIN, &format!("join {CODE} robin"), 1, 12, 1);
        tell(ROBIN, "born 2012", 1, 12, 2);
        tell(COACH, &format!("guardian robin {GUARDIAN}"), 1, 12, 3);
        tell(GUARDIAN, "yes", 1, 12, 4);
    }
    tell(HERON, &format!("join {CODE} heron"), 1, 12, 5);
    for (number, name) in
        OTHERS.iter().enumerate().filter(|(_, name)| !(young && **name == "robin"))
    {
        tell(&format!("+1555011{number:02}"), &format!("join {CODE} {name}"), 1, 12, 6);
    }
    if !young {
        tell(COACH, &format!("200s {BESTS}"), 2, 19, 30);
    }
    if context.spanish {
        tell(HERON, "idioma es", 3, 19, 0);
    }
    match context.kind {
        'F' => tell(COACH, "set 200 easy, 8x50 on 1:05 hold 48, 200 easy", 4, 18, 30),
        'B' => tell(COACH, "set 200 easy, 8x50 on 1:05, 200 easy", 4, 13, 50),
        'E' => {
            tell(COACH, "set 200 easy, 8x50 on 1:05, 200 easy", 4, 18, 50);
            tell(COACH, "all here", 4, 19, 2);
            tell(COACH, "lanes 4", 4, 19, 3);
        }
        'A' => tell(COACH, &format!("200s {BESTS}"), 4, 19, 40),
        _ => {}
    }
    if let Some(before) = &context.before {
        tell(HERON, before, 4, 20, 30);
    }
    squad
}

/// Squads by context, each made once.
#[derive(Default)]
pub struct Squads(HashMap<Context, Squad>);

impl Squads {
    pub fn of(&mut self, context: &Context) -> Squad {
        self.0.entry(context.clone()).or_insert_with(|| squad(context)).clone()
    }
}
