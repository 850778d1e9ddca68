//! A person in a squad, by address.

use jiff::Timestamp;
use serde::{Deserialize, Serialize};

use super::setting::Setting;
use super::unasked::take_back;
use super::{DigestWish, QuestionKept, Reasons, Right, Role, Told};
use crate::language::Language;
use crate::message::Name;

/// A person in a squad.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Member {
    /// What they are.
    pub role: Role,
    /// Their handle, if they swim.
    pub name: Option<Name>,
    /// The handles of others who swim and text from the same telephone.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub others: Vec<Name>,
    /// What their invitation called them, whether they swim or not.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub called: Option<Name>,
    /// They want no texts.
    pub opted_out: bool,
    /// Asked to be told of danger, where nobody else is reached.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub stands_by: bool,
    /// What is asked and not yet answered.
    pub question: Option<QuestionKept>,
    /// What is to be asked once that is settled, in this order.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub waiting: Vec<QuestionKept>,
    /// What did not fit into the last reply.
    pub more: Vec<String>,
    /// What the last answer rests on.
    #[serde(default)]
    pub reasons: Option<Reasons>,
    /// Their last text, where it was a question, and when it came.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub asked: Option<(Timestamp, String)>,
    /// What they said of the digest.
    #[serde(default, skip_serializing_if = "DigestWish::is_unsaid")]
    pub digest: DigestWish,
    /// What they wished before, and the messages that changed it, the last ones.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub digest_before: Vec<(u64, DigestWish)>,
    /// The language of what they are told, where they don't swim: a swimmer's is theirs.
    #[serde(default, skip_serializing_if = "Setting::is_unset")]
    pub language: Setting<Language>,
    /// What they were told unasked.
    #[serde(default, skip_serializing_if = "Told::is_empty")]
    pub told: Told,
    /// Their latest message that stopped somebody: it is not undone.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub no_undo_of: Option<u64>,
    /// The numbers of their latest messages that stored something, oldest first.
    pub undoable: Vec<u64>,
}

impl Member {
    /// How many messages back `undo` reaches.
    pub const UNDO_DEPTH: usize = 20;
    /// How many questions wait their turn.
    const MOST_WAITING: usize = 30;

    /// A new member.
    pub fn new(role: Role, name: Option<Name>) -> Self {
        Self {
            role,
            name,
            others: Vec::new(),
            called: None,
            opted_out: false,
            stands_by: false,
            question: None,
            waiting: Vec::new(),
            more: Vec::new(),
            reasons: None,
            asked: None,
            digest: DigestWish::default(),
            digest_before: Vec::new(),
            language: Setting::default(),
            told: Told::default(),
            no_undo_of: None,
            undoable: Vec::new(),
        }
    }

    /// True for whoever is told unasked who comes: the coach, and an assistant
    /// who asked for the digest.
    pub fn hears_counts(&self) -> bool {
        self.role == Role::Coach || self.hears_digest()
    }

    /// True for whoever is told unasked of the squad's week: the coach unless they
    /// declined, an assistant if they asked.
    pub fn hears_digest(&self) -> bool {
        self.role.may(Right::SeeSquad) && self.digest.wanted.unwrap_or(self.role == Role::Coach)
    }

    /// Takes a question that waits its turn; one about the same swimmer gives
    /// way to it.
    pub(super) fn queue(&mut self, question: QuestionKept) {
        let stays = |other: &QuestionKept| other.is_of_health() && other.asks != question.asks;
        self.waiting.retain(|other| other.about != question.about || stays(other));
        self.waiting.push(question);
        let over = self.waiting.len().saturating_sub(Self::MOST_WAITING);
        self.waiting.drain(..over);
    }

    /// Forgets the open question, or what is asked about one swimmer; the next
    /// that waits is then open.
    pub(super) fn close_question(&mut self, about: Option<&Name>) {
        let is_about = |question: &QuestionKept| match (&question.about, about) {
            // A result answers nothing about danger.
            (_, Some(_)) if question.asks_of_danger() => false,
            (Some(asked), Some(settled)) => asked == settled,
            _ => true,
        };
        if about.is_some() {
            self.waiting.retain(|question| question.about.as_ref() != about);
        }
        if self.question.as_ref().is_none_or(is_about) {
            self.question =
                if self.waiting.is_empty() { None } else { Some(self.waiting.remove(0)) };
        }
    }

    /// Takes in what message `cause` says of the digest.
    pub(super) fn wish(&mut self, cause: u64, wish: &DigestWish) {
        self.digest_before.push((cause, self.digest.clone()));
        let over = self.digest_before.len().saturating_sub(Self::UNDO_DEPTH);
        self.digest_before.drain(..over);
        self.digest.take(wish);
        self.can_undo(cause);
    }

    /// True if message `cause` said something of the digest.
    pub fn wished_in(&self, cause: u64) -> bool {
        self.digest_before.iter().any(|(said, _)| *said == cause)
    }

    /// What held before message `cause` holds again.
    pub(super) fn unwish(&mut self, cause: u64) {
        take_back(&mut self.digest_before, &mut self.digest, cause);
    }

    /// Takes note that nothing up to message `cause` can be undone any more.
    pub(super) fn stops_undo(&mut self, cause: u64) {
        self.undoable.clear();
        self.no_undo_of = Some(cause);
    }

    /// Remembers that message `cause` can be undone.
    pub(super) fn can_undo(&mut self, cause: u64) {
        if self.no_undo_of == Some(cause) {
            return;
        }
        if self.undoable.last() != Some(&cause) {
            self.undoable.push(cause);
            let over = self.undoable.len().saturating_sub(Self::UNDO_DEPTH);
            self.undoable.drain(..over);
        }
    }
}
