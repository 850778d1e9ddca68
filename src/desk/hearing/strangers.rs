//! Those who are in no squad: only joining, help and opting out do anything.

use serde_json::{Value, json};

use crate::desk::decision::asked::Asked;
use crate::desk::hearing::understood::with_stores;
use crate::history::Event;
use crate::language::Language;
use crate::message::{self, Kind, Message, People, Reading, Statement, Whom};
use crate::reading::health::{Alarm, alarms};
use crate::reply::{
    CautionKind, CautionReply, HelpReply, NotUnderstoodReply, OkReply, Outcome, RefusedReply,
    RefusedWhy, Unread,
};

/// What a text begins with that asks to join or claims a guest's history.
const OPENING: [(&str, Language); 4] = [
    ("join", Language::English),
    ("claim", Language::English),
    ("unir", Language::Spanish),
    ("reclama", Language::Spanish),
];

/// The code in a text that asks to join or claims a guest's history, upper case.
pub fn opening_code(text: &str) -> Option<String> {
    // Every text comes by here, few join.
    let begins = |word: &str| {
        text.trim_start().get(..word.len()).is_some_and(|start| start.eq_ignore_ascii_case(word))
    };
    let (_, language) = OPENING.into_iter().find(|(word, _)| begins(word))?;
    match message::parse(text.trim(), language) {
        Reading::Understood(Message { statements }) => match statements.as_slice() {
            [one] => match &one.kind {
                Kind::Join { code, .. } | Kind::People(People::Claim { code }) => {
                    Some(code.to_uppercase())
                }
                _ => None,
            },
            _ => None,
        },
        _ => None,
    }
}

/// True for a bare `yes` or `no`.
pub fn is_answer(text: &str) -> bool {
    said_yes(text).is_some()
}

/// Whether a text is a bare yes or no.
pub fn said_yes(text: &str) -> Option<bool> {
    const LONGEST: usize = 20;
    if text.len() > LONGEST {
        return None;
    }
    match message::parse(text.trim(), Language::English) {
        Reading::Understood(Message { statements }) => match statements.as_slice() {
            [Statement { who: None, kind: Kind::Yes }] => Some(true),
            [Statement { who: None, kind: Kind::No }] => Some(false),
            _ => None,
        },
        _ => None,
    }
}

/// True for what waits for no question: opting out, danger, harm, help.
pub fn is_urgent(text: &str) -> bool {
    message::is_worried(text)
        || message::is_opt_out(text)
        || message::is_opt_in(text)
        || message::is_help(text)
        || {
            let alarms = alarms(text, &|_| false);
            alarms.harm.is_some() || alarms.danger.is_some()
        }
}

/// What was read, what it came to, and what to store.
pub fn answer_stranger(asked: &Asked<'_>) -> (Vec<Value>, Outcome, Option<Event>) {
    let (read, outcome, event) = answered(asked);
    (with_stores(read, event.is_some()), outcome, event)
}

fn answered(asked: &Asked<'_>) -> (Vec<Value>, Outcome, Option<Event>) {
    let address = asked.from.to_owned();
    let out = asked.opted_out;
    if message::is_opt_out(asked.text) {
        let read = vec![json!({ "kind": "stop" })];
        // It was confirmed once: nothing more is said.
        return match out {
            true => (read, Outcome::Ok(OkReply::Silent), None),
            false => (read, Outcome::Ok(OkReply::OptedOut), Some(Event::OptedOut { address })),
        };
    }
    if out && (message::is_opt_in(asked.text) || message::is_yes(asked.text)) {
        return (
            vec![json!({ "kind": "start" })],
            Outcome::Ok(OkReply::OptedIn),
            Some(Event::OptedIn { address }),
        );
    }
    // Whoever it is, danger is answered.
    let alarms = alarms(asked.text, &|_| false);
    let danger = match alarms.danger {
        _ if alarms.harm.is_some() || message::is_worried(asked.text) => {
            let of_another = alarms.harm_of_another;
            Some(CautionKind::Welfare { officer: false, of_another, call: None, helpline: None })
        }
        Some(Alarm { danger, sure: true, whom: Whom::Another, .. }) => {
            Some(CautionKind::Beside { danger, unnamed: false, call: None })
        }
        Some(Alarm { danger, sure: true, .. }) => Some(CautionKind::Danger { danger, call: None }),
        _ => None,
    };
    if let Some(kind) = danger {
        let is_welfare = kind.is_welfare();
        let read = if is_welfare { "welfare" } else { "faint" };
        let outcome = Outcome::Caution(CautionReply { kind, about: None });
        return (vec![json!({ "kind": read })], outcome, None);
    }
    if out && asked.text.trim().is_empty() {
        return (vec![], Outcome::Ok(OkReply::Silent), None);
    }
    if asked.text.trim().is_empty() {
        let reply = NotUnderstoodReply {
            understood: vec![],
            rest: Unread::Empty,
            example: "join CODE heron".to_owned(),
        };
        return (vec![], Outcome::NotUnderstood(reply), None);
    }
    match message::parse(asked.text.trim(), Language::English) {
        Reading::Understood(Message { statements }) => {
            match statements.first().map(|one| &one.kind) {
                Some(Kind::Help { .. }) => {
                    let help = if out { HelpReply::OptedOut } else { HelpReply::Stranger };
                    (vec![json!({ "kind": "help" })], Outcome::Help(help), None)
                }
                Some(Kind::People(People::Claim { code })) => (
                    vec![json!({ "kind": "claim", "code": code })],
                    refused("bad_code", RefusedWhy::BadCode),
                    None,
                ),
                Some(Kind::Join { code, name }) => (
                    vec![json!({ "kind": "join", "code": code, "name": name })],
                    refused("bad_code", RefusedWhy::BadCode),
                    None,
                ),
                _ if out => (vec![], Outcome::Ok(OkReply::Silent), None),
                _ => (vec![], refused("not_a_member", RefusedWhy::NotAMember), None),
            }
        }
        _ if out => (vec![], Outcome::Ok(OkReply::Silent), None),
        _ => (vec![], refused("not_a_member", RefusedWhy::NotAMember), None),
    }
}

fn refused(rule: &str, why: RefusedWhy) -> Outcome {
    Outcome::Refused(RefusedReply { rule: rule.to_owned(), why })
}
