//! Help, why, and the rest of a long reply.

use super::answer::{Desk, Stopped, refused};
use crate::coaching;
use crate::language::Language;
use crate::profile::Event;
use crate::reply::{HelpReply, OkReply, Outcome, RefusedWhy, Topic};

/// `help`, `help test`
pub fn help(desk: &Desk<'_>, topic: Option<&str>) -> Outcome {
    let topic = topic.and_then(named);
    Outcome::Help(match topic {
        Some(topic) => HelpReply::Topic(topic),
        None if desk.is_coach() => HelpReply::Coach,
        None => HelpReply::Swimmer,
    })
}

fn named(word: &str) -> Option<Topic> {
    Some(match word {
        "test" | "tests" => Topic::Test,
        "set" | "sets" => Topic::Set,
        "done" | "session" | "rpe" => Topic::Done,
        "plan" | "next" | "week" => Topic::Plan,
        "pain" | "ill" | "hurt" => Topic::Pain,
        "pool" | "profile" | "days" => Topic::Profile,
        "squad" | "coach" => Topic::Squad,
        "undo" | "fix" => Topic::Fix,
        _ => return None,
    })
}

/// `why`: the rules that decided the session or week suggested last.
pub fn why(desk: &mut Desk<'_>) -> Result<Outcome, Stopped> {
    let nothing = || refused("nothing", RefusedWhy::Nothing);
    let me = desk.me().cloned().ok_or_else(nothing)?;
    let swimmer = desk.swimmer(&me).ok_or_else(nothing)?;
    let session = swimmer.suggested.as_of(desk.now()).next_back().ok_or_else(nothing)?;
    let language = desk.language();
    let lines: Vec<String> = session
        .what
        .rules
        .iter()
        .filter_map(|id| coaching::rule(id))
        .map(|rule| match language {
            Language::English => rule.reason.en.to_owned(),
            Language::Spanish => rule.reason.es.to_owned(),
        })
        .collect();
    if lines.is_empty() {
        return Err(nothing());
    }
    Ok(Outcome::Help(HelpReply::Why(lines)))
}

/// `more`: the lines that did not fit into the last reply.
pub fn more(desk: &mut Desk<'_>) -> Result<Outcome, Stopped> {
    let lines = desk.member().map(|member| member.more.clone()).unwrap_or_default();
    if lines.is_empty() {
        return Err(refused("nothing", RefusedWhy::Nothing));
    }
    desk.record(Event::MoreKept { address: desk.asked.from.to_owned(), lines: vec![] });
    Ok(Outcome::Ok(OkReply::More { lines }))
}
