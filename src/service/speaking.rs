//! From what was decided to what is said: to whom, in which room, by whom.

use serde_json::Value;

use super::record::Record;
use super::{Spoken, Via, WayBack};
use crate::desk::{self, Aside, Held, Say};
use crate::language::Language;
use crate::reply::{self, NotUnderstoodReply, OkReply, Outcome, Unread};

/// Says what the desk worded.
pub(super) fn say_all(record: &mut Record, said: Vec<Say>, aside: Option<Aside>, back: &WayBack) {
    let (mine, others): (Vec<Say>, Vec<Say>) = said.into_iter().partition(|say| say.to.is_none());
    let mut aloud: Vec<String> = mine.into_iter().map(|say| say.text).collect();
    let alone = aside.and_then(|aside| match back.alone {
        Some(via) => {
            aloud.extend(aside.told);
            Some(to_her_alone(record, aside.text, via))
        }
        None => {
            aloud.push(aside.untold);
            None
        }
    });
    let answer = (!aloud.is_empty()).then(|| answer(record, aloud.join("\n"), back));
    record.replies =
        answer.into_iter().chain(alone).chain(others.into_iter().map(letter)).collect();
}

/// Lets wait what may not be said before the morning. A room is no minor's
/// telephone: what is said there is not held.
pub(super) fn hold(record: &mut Record, held: &Held) {
    let Some(until) = held.until else { return };
    for reply in record.replies.iter_mut().filter(|reply| reply.room.is_none()) {
        let answer = held.answer && reply.to == record.from;
        if reply.alarm.is_some() {
            continue;
        }
        if answer || (reply.via == Via::Outbox && held.to.contains(&reply.to)) {
            reply.via = Via::Outbox;
            reply.due = Some(until);
        }
    }
}

/// Says an outcome that the desk did not word: in English, the sender's
/// language not being known.
pub(super) fn say(record: &mut Record, understood: Vec<Value>, outcome: &Outcome, back: &WayBack) {
    let voice = reply::voice(Language::English);
    record.result = reply::result(outcome, voice);
    if !matches!(outcome, Outcome::Ok(OkReply::Silent)) {
        let (aloud, aside) = match &record.room {
            None => (Some(voice.lines(outcome).join("\n")), None),
            Some(_) => desk::in_a_room(outcome, &understood, voice),
        };
        let said = aloud.into_iter().map(Say::back).collect();
        say_all(record, said, aside, back);
    }
    record.understood = understood;
}

/// Says that bytes were no text.
pub(super) fn say_not_text(record: &mut Record, back: &WayBack) {
    let outcome = Outcome::NotUnderstood(NotUnderstoodReply {
        understood: vec![],
        rest: Unread::NotText,
        example: "200 test 3:12".to_owned(),
    });
    say(record, vec![], &outcome, back);
}

fn answer(record: &Record, text: String, back: &WayBack) -> Spoken {
    let thread = back.thread.clone().filter(|_| record.room.is_some());
    Spoken {
        room: record.room.clone(),
        thread,
        ..Spoken::alone(record.from.clone(), back.answers, text)
    }
}

fn to_her_alone(record: &Record, text: String, via: Via) -> Spoken {
    Spoken::alone(record.from.clone(), via, text)
}

fn letter(say: Say) -> Spoken {
    let alarm = say.alarm;
    Spoken { alarm, ..Spoken::alone(say.to.unwrap_or_default(), Via::Outbox, say.text) }
}

#[cfg(test)]
pub(super) mod tests {
    use super::*;
    use crate::history::Called;

    /// A letter of no words.
    pub fn letter_to(to: &str, alarm: Option<Called>) -> Spoken {
        Spoken { alarm, ..Spoken::alone(to.to_owned(), Via::Outbox, String::new()) }
    }
}
