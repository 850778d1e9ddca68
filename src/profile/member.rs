//! A person in a squad, by address.

use serde::{Deserialize, Serialize};

use super::{QuestionKept, Reasons, Role};
use crate::message::Name;

/// A person in a squad.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Member {
    /// What she is.
    pub role: Role,
    /// Her handle, if she swims.
    pub name: Option<Name>,
    /// She wants no texts.
    pub opted_out: bool,
    /// What is asked and not yet answered.
    pub question: Option<QuestionKept>,
    /// What did not fit into the last reply.
    pub more: Vec<String>,
    /// What the last answer rests on.
    #[serde(default)]
    pub reasons: Option<Reasons>,
    /// The numbers of her latest messages that stored something, oldest first.
    pub undoable: Vec<u64>,
}

impl Member {
    /// How many messages back `undo` reaches.
    pub const UNDO_DEPTH: usize = 20;

    /// A new member.
    pub fn new(role: Role, name: Option<Name>) -> Self {
        Self {
            role,
            name,
            opted_out: false,
            question: None,
            more: Vec::new(),
            reasons: None,
            undoable: Vec::new(),
        }
    }

    /// Remembers that message `cause` can be undone.
    pub(super) fn can_undo(&mut self, cause: u64) {
        if self.undoable.last() != Some(&cause) {
            self.undoable.push(cause);
            let over = self.undoable.len().saturating_sub(Self::UNDO_DEPTH);
            self.undoable.drain(..over);
        }
    }
}
