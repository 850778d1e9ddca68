//! Texts with a grave word: answered as one, and what else they say is stored
//! after.

use serde_json::Value;

use super::bench::Desk;
use crate::message::{self, Choice, Danger, Kind, Message, Name, Reading, Statement, Whom};
use crate::reply::{Asks, Outcome, QuestionReply};

impl<'a> Desk<'a> {
    /// A text with a grave word: answered as one, and what else it says is
    /// stored after. Inside a harmless phrase it is asked about in one word.
    pub fn danger(&mut self, danger: Danger, text: &str) -> (Vec<Value>, Outcome) {
        self.danger_to = message::danger_to(text, |word| {
            Name::new(word).is_ok_and(|name| {
                self.swimmer(&name).is_some() && !self.all_of_me().contains(&name)
            })
        });
        let said = match self.parse(text) {
            Reading::Understood(Message { statements }) => statements,
            Reading::NotUnderstood { understood, .. } => understood,
            Reading::Unsure { .. } => vec![],
        };
        // A knock to the head is read as pain too; it is more than that. And a
        // word that the grammar took for a name may be anything.
        let is_it = |one: &Statement| match &one.kind {
            Kind::Faint => true,
            Kind::Pain(pain) => ["head", "chest"].contains(&pain.place.as_str()),
            Kind::Swimmer => true,
            _ => false,
        };
        let without: Vec<Statement> = said.iter().filter(|one| !is_it(one)).cloned().collect();
        let faint = Statement { who: self.endangered(&said, text), kind: Kind::Faint };
        let with = Message { statements: [without.clone(), vec![faint]].concat() };
        if danger != Danger::Unclear {
            self.danger = Some(danger);
            return self.apply(&with);
        }
        let without = match without.is_empty() {
            true => vec![Statement { who: None, kind: Kind::No }],
            false => without,
        };
        let choices = vec![
            Choice { word: "yes".into(), message: with },
            Choice { word: "no".into(), message: Message { statements: without } },
        ];
        let reply = QuestionReply {
            asks: Asks::AnyDanger,
            options: choices.iter().map(|choice| choice.word.clone()).collect(),
            until: self.question_until(),
        };
        self.ask(&reply, choices);
        (vec![], Outcome::Question(reply))
    }

    /// Whom a danger text is about, if not the sender: a swimmer it names; from
    /// a coach who does not swim, whoever stands first in it.
    pub fn endangered(&self, said: &[Statement], text: &str) -> Option<Name> {
        let of_another = match self.danger_to {
            Whom::Sender => false,
            Whom::Unsaid => !self.swims(),
            Whom::Another => true,
        };
        self.named_in(text).filter(|_| of_another).or_else(|| {
            let first = said.iter().find(|one| one.kind == Kind::Faint)?.who.clone();
            first.filter(|_| !self.swims())
        })
    }

    /// The swimmer of this squad whom a text names, if not the sender.
    pub fn named_in(&self, text: &str) -> Option<Name> {
        message::names_in(text)
            .find(|name| self.squad.swimmers.contains_key(name) && !self.all_of_me().contains(name))
    }
}
