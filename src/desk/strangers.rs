//! Those who are in no squad: only joining, help and opting out do anything.

use serde_json::{Value, json};

use super::Asked;
use crate::language::Language;
use crate::message::{self, Danger, Kind, Message, Reading, Whom};
use crate::profile::Event;
use crate::reply::{
    CautionKind, CautionReply, HelpReply, NotUnderstoodReply, OkReply, Outcome, RefusedReply,
    RefusedWhy, Unread,
};

/// The code in a text that asks to join, upper case.
pub fn join_code(text: &str) -> Option<String> {
    // Every text comes by here, few join.
    if !text.trim_start().get(..4).is_some_and(|word| word.eq_ignore_ascii_case("join")) {
        return None;
    }
    match message::parse(text.trim(), Language::English) {
        Reading::Understood(Message { statements }) => match statements.as_slice() {
            [one] => match &one.kind {
                Kind::Join { code, .. } => Some(code.to_uppercase()),
                _ => None,
            },
            _ => None,
        },
        _ => None,
    }
}

/// What was read, what it came to, and what to store.
pub fn answer_stranger(asked: &Asked<'_>) -> (Vec<Value>, Outcome, Option<Event>) {
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
    let beside = message::danger_to(asked.text, |_| false) == Whom::Another;
    let danger = match message::danger(asked.text) {
        _ if message::welfare(asked.text) => Some(CautionKind::Welfare),
        Some(danger) if beside && danger != Danger::Unclear => {
            Some(CautionKind::Beside { grave: danger == Danger::Emergency, unnamed: false })
        }
        Some(Danger::Emergency) => Some(CautionKind::Danger),
        Some(Danger::HeadKnock) => Some(CautionKind::HeadKnock),
        Some(Danger::Dizzy) => Some(CautionKind::Dizzy),
        Some(Danger::Unclear) | None => None,
    };
    if let Some(kind) = danger {
        let read = if kind == CautionKind::Welfare { "welfare" } else { "faint" };
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
