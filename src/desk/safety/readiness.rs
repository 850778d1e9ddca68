//! The few questions that follow joining, where the club has not screened its
//! members; and whom to call in an emergency.

use jiff::{Timestamp, ToSpan};
use serde_json::{Value, json};

use crate::desk::decision::desk::Desk;
use crate::desk::decision::view::View;
use crate::history::{Event, Readiness, Right};
use crate::message::{self, Kind, Message, Name, Reading};
use crate::reply::{Asks, OkReply, Outcome, QuestionReply};

/// How long a question waits; nothing else comes of its waiting than easy
/// swimming.
const QUESTION_DAYS: i64 = 365;

impl View<'_> {
    /// Who is asked, and the number of the question that waits for an answer. In a
    /// squad with minors nobody is asked: the coach hears it from a grown-up.
    fn question_of_readiness(&self) -> Option<(Name, u8)> {
        // Of several on one telephone: of the one who joined last, as they were asked
        // last.
        let asked = self.all_of_me().into_iter().filter_map(|name| {
            let swimmer = self.swimmer(&name)?;
            let answered = swimmer.readiness.at(self.now()).map_or(0, |ready| ready.answered);
            let waits = !self.is_cleared(swimmer) && answered < Readiness::QUESTIONS;
            waits.then_some((swimmer.joined, name, answered + 1))
        });
        let (_, name, question) = asked.max_by_key(|(joined, ..)| *joined)?;
        (!self.squad.minors).then_some((name, question))
    }
}

/// A yes or a no to the question that waits; `None` for all other texts, which
/// are answered as ever.
pub fn answer(desk: &mut Desk<'_>, text: &str) -> Option<(Vec<Value>, Outcome)> {
    let (who, question) = desk.question_of_readiness()?;
    let text = desk.without_own_name(text);
    if desk.open_question().is_some() || desk.asked.room.is_some() {
        return None;
    }
    let (read, concern) = match desk.parse(text) {
        _ if message::is_unclear(text) => ("unclear", true),
        Reading::Understood(Message { statements }) => match statements.as_slice() {
            [one] if one.kind == Kind::Yes => ("yes", true),
            [one] if one.kind == Kind::No => ("no", false),
            _ => return None,
        },
        _ => return None,
    };
    desk.record(Event::ReadinessAnswered { who: who.clone(), question, concern });
    let understood = vec![json!({ "kind": read })];
    if question < Readiness::QUESTIONS {
        let days = (QUESTION_DAYS * 24).hours();
        let asked = QuestionReply {
            asks: Asks::Readiness { question: question + 1 },
            options: vec!["yes".to_owned(), "no".to_owned()],
            until: desk.asked.wall.checked_add(days).unwrap_or(Timestamp::MAX),
        };
        return Some((understood, Outcome::Question(asked)));
    }
    let clear = desk.swimmer(&who).is_some_and(|swimmer| desk.is_cleared(swimmer));
    if !clear {
        desk.tell(Right::Release, |voice| voice.not_ready_alert(&who));
    }
    Some((understood, Outcome::Ok(OkReply::ReadinessAnswered { clear })))
}

/// `contact +15550123`: whom to call if they are in danger.
pub fn contact(desk: &mut Desk<'_>, text: &str) -> Option<(Vec<Value>, Outcome)> {
    let contact = message::contact(desk.without_own_name(text))?;
    let read = vec![json!({ "kind": "contact" })];
    if desk.is_unclear_who() {
        return Some((read, desk.say_who()));
    }
    let who = desk.me().cloned()?;
    desk.record(Event::ContactSet { who, contact });
    Some((read, Outcome::Ok(OkReply::ContactKept)))
}
