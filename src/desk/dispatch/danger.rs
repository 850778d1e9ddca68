//! Texts with a grave word: answered as one, and what else they say is stored
//! after.

use serde_json::Value;

use crate::desk::decision::desk::Desk;
use crate::desk::decision::view::View;
use crate::message::{Choice, Kind, Message, Name, Statement, Whom};
use crate::reading::health::Alarm;
use crate::reply::{Asks, Outcome, QuestionReply};

impl Desk<'_> {
    /// A text that names a danger: first what to do, then what else it says.
    /// Words of harm beside it go their own way too, and are not kept.
    pub fn danger(&mut self, alarm: &Alarm, harm: bool, text: &str) -> (Vec<Value>, Outcome) {
        self.danger_to = alarm.whom;
        self.danger = Some(alarm.danger);
        self.private |= harm;
        let said = self.said_beside(text);
        let faint = Statement { who: self.endangered(&said, text), kind: Kind::Faint };
        let harm = harm.then_some(Statement { who: None, kind: Kind::Welfare });
        let statements = said.into_iter().chain([faint]).chain(harm).collect();
        self.apply(&Message { statements })
    }

    /// A text with a grave word that may mean nothing: asked about in one word, and
    /// nothing else it says waits for the answer.
    pub fn asks_of_danger(&mut self, alarm: Option<&Alarm>, text: &str) -> (Vec<Value>, Outcome) {
        self.danger_to = alarm.map_or(Whom::Unsaid, |alarm| alarm.whom);
        let said = self.said_beside(text);
        let faint = Statement { who: self.endangered(&said, text), kind: Kind::Faint };
        let choice = |word: &str, one: Statement| Choice {
            word: word.to_owned(),
            message: Message { statements: vec![one] },
        };
        let choices =
            vec![choice("yes", faint), choice("no", Statement { who: None, kind: Kind::No })];
        let reply = QuestionReply {
            asks: Asks::AnyDanger,
            options: choices.iter().map(|choice| choice.word.clone()).collect(),
            until: self.question_until(),
        };
        self.ask(&reply, choices);
        let question = Outcome::Question(reply);
        if said.is_empty() {
            return (vec![], question);
        }
        let (understood, outcome) = self.apply(&Message { statements: said });
        let mut outcomes = match outcome {
            Outcome::Mixed(several) | Outcome::Captured(several) => several,
            single => vec![single],
        };
        outcomes.push(question);
        (understood, Outcome::of_all(outcomes))
    }

    /// Whom a danger text is about, if not the sender: a swimmer it names; from
    /// a coach who does not swim, whoever stands first in it.
    pub fn endangered(&self, said: &[Statement], text: &str) -> Option<Name> {
        let of_another = match self.danger_to {
            // `heron me he desmayado`: a coach hands on what they texted.
            Whom::Sender => !self.swims() && self.begins_with_name(text),
            Whom::Unsaid => !self.swims(),
            Whom::Another => true,
        };
        self.named_in(text).filter(|_| of_another).or_else(|| {
            let first = said.iter().find(|one| one.kind == Kind::Faint)?.who.clone();
            first.filter(|_| !self.swims())
        })
    }
}

impl View<'_> {
    /// What a text says beside its words of danger.
    pub fn said_beside(&self, text: &str) -> Vec<Statement> {
        // A knock to the head is read as pain too; it is more than that. And a
        // word that the grammar took for a name may be anything.
        let is_it = |one: &Statement| match &one.kind {
            Kind::Faint | Kind::Welfare | Kind::Swimmer => true,
            // Nor is a danger the place for what nobody knows.
            kind if kind.is_past_answering() => true,
            Kind::Pain(pain) => ["head", "chest"].contains(&pain.place.as_str()),
            _ => false,
        };
        self.statements_of(text).into_iter().filter(|one| !is_it(one)).collect()
    }

    /// True where a swimmer's name stands first.
    fn begins_with_name(&self, text: &str) -> bool {
        let first = text.split_whitespace().next().unwrap_or_default();
        Name::new(first.trim_end_matches([':', ',']))
            .is_ok_and(|name| self.squad.swimmers.contains_key(&name))
    }
}
