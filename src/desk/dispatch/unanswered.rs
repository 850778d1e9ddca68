//! A question about what may ail somebody was left without an answer: what ails them in
//! every reading of it is kept.

use crate::desk::decision::desk::Desk;
use crate::desk::decision::view::View;
use crate::history::{Event, QuestionKept, TroubleKind};
use crate::message::{Kind, Message, Reading, Statement};
use crate::reply::Outcome;

impl Desk<'_> {
    /// Keeps the pain and illness that stand in every answer to the sender's question, where
    /// their next text answers something else: when in doubt it lowers what follows.
    pub(super) fn keep_what_ails(&mut self, text: &str) -> Option<Outcome> {
        let question = self.member()?.question.clone()?;
        let ails: Vec<Statement> = question.what_ails().into_iter().cloned().collect();
        if ails.is_empty() || question.passes() < self.asked.wall || self.says_no(text) {
            return None;
        }
        let open = self.open_question().is_some();
        let left = without(question, &ails);
        match left.choices.iter().any(|choice| choice.message.statements.is_empty()) {
            false if open => {
                let address = self.asked.from.to_owned();
                self.record(Event::QuestionAsked { address, question: left });
            }
            _ => self.close_question(),
        }
        // What this text tells of it anew is kept with this text.
        let told = self.statements_of(text);
        let new = |one: &Statement| !told.contains(one) && !self.is_open(one);
        let statements: Vec<_> = ails.into_iter().filter(new).collect();
        (!statements.is_empty()).then(|| self.apply(&Message { statements }).1)
    }
}

impl View<'_> {
    /// True of what is kept already, and isn't over.
    fn is_open(&self, one: &Statement) -> bool {
        let who = one.who.as_ref().or(self.me());
        who.and_then(|who| self.swimmer(who)).is_some_and(|swimmer| {
            swimmer.open_troubles(self.now()).any(|kept| match (&kept.what.kind, &one.kind) {
                (TroubleKind::Pain { place, .. }, Kind::Pain(pain)) => *place == pain.place,
                (TroubleKind::Ill { .. }, Kind::Ill { .. }) => true,
                _ => false,
            })
        })
    }

    /// True of `no` and of what takes back.
    fn says_no(&self, text: &str) -> bool {
        let Reading::Understood(said) = self.parse(text) else { return false };
        matches!(said.statements.as_slice(), [Statement { kind: Kind::No | Kind::Undo, .. }])
    }
}

/// The question without what was kept.
fn without(mut question: QuestionKept, kept: &[Statement]) -> QuestionKept {
    for choice in &mut question.choices {
        choice.message.statements.retain(|one| !kept.contains(one));
    }
    question
}
