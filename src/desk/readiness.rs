//! The few questions that follow joining, where the club has not screened its
//! members; and whom to call in an emergency.

use jiff::{Timestamp, ToSpan};
use serde_json::{Value, json};

use super::bench::Desk;
use crate::language::Language;
use crate::message::{self, Kind, Message, Reading};
use crate::profile::{Event, Readiness, Right, Swimmer};
use crate::reply::{self, Asks, OkReply, Outcome, QuestionReply};

/// How long a question waits; nothing else comes of its waiting than easy
/// swimming.
const QUESTION_DAYS: i64 = 365;

impl Desk<'_> {
    /// True if she may swim hard.
    pub fn is_cleared(&self, swimmer: &Swimmer) -> bool {
        self.squad.ready || swimmer.readiness.at(self.now()).is_some_and(|ready| ready.cleared)
    }

    /// The number of the question that waits for the sender's answer. In a
    /// squad with minors none does: the coach hears it from a grown-up.
    fn question_of_readiness(&self) -> Option<u8> {
        let swimmer = self.swimmer(self.me()?)?;
        if self.is_cleared(swimmer) || self.squad.minors {
            return None;
        }
        let answered = swimmer.readiness.at(self.now()).map_or(0, |ready| ready.answered);
        (answered < Readiness::QUESTIONS).then_some(answered + 1)
    }
}

/// A yes or a no to the question that waits; `None` for all other texts, which
/// are answered as ever.
pub fn answer(desk: &mut Desk<'_>, text: &str) -> Option<(Vec<Value>, Outcome)> {
    let question = desk.question_of_readiness()?;
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
    let who = desk.me().cloned()?;
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
        desk.tell(Right::Release, &reply::voice(Language::English).not_ready_alert(&who));
    }
    Some((understood, Outcome::Ok(OkReply::ReadinessAnswered { clear })))
}

/// `contact +15550123`: whom to call if she is in danger.
pub fn contact(desk: &mut Desk<'_>, text: &str) -> Option<(Vec<Value>, Outcome)> {
    let contact = message::contact(text)?;
    let who = desk.me().cloned()?;
    desk.record(Event::ContactSet { who, contact });
    Some((vec![json!({ "kind": "contact" })], Outcome::Ok(OkReply::ContactKept)))
}
