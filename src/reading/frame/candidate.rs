//! One thing that a stretch of text may say.

use crate::message::{Doubt, Kind, Name, Statement};
use crate::reading::piece::Used;

/// A reading of a stretch of text by one frame.
#[derive(Debug, Clone, PartialEq)]
pub struct Candidate {
    /// Which frame gave it.
    pub frame: &'static str,
    /// What it says; empty where it says nothing to keep or answer.
    pub says: Vec<Statement>,
    /// Which of the stretch's pieces it explains.
    pub used: Used,
    /// What speaks against it, in nats or so; what is left unexplained comes on
    /// top.
    pub cost: f32,
    /// What has to be asked before anything of it is kept.
    pub asks: Option<Question>,
}

/// What is to be asked, and what each answer would say.
#[derive(Debug, Clone, PartialEq)]
pub struct Question {
    /// What is asked.
    pub about: Doubt,
    /// Each answer and what it says; none where only more words settle it.
    pub options: Vec<(String, Vec<Statement>)>,
}

impl Candidate {
    /// A candidate that explains nothing yet.
    pub fn new(frame: &'static str, pieces: usize) -> Self {
        Self { frame, says: Vec::new(), used: Used::none(pieces), cost: 0.0, asks: None }
    }

    /// The same, saying this too, of the sender.
    #[must_use]
    pub fn says(self, kind: Kind) -> Self {
        self.says_of(None, kind)
    }

    /// The same, saying this too, of someone.
    #[must_use]
    pub fn says_of(mut self, who: Option<Name>, kind: Kind) -> Self {
        self.says.push(Statement { who, kind });
        self
    }

    /// The same, with a question before anything is kept.
    #[must_use]
    pub fn asking(mut self, about: Doubt, options: Vec<(String, Vec<Statement>)>) -> Self {
        self.asks = Some(Question { about, options });
        self
    }

    /// The same, asking first whether this is meant.
    #[must_use]
    pub fn asking_whether(self, says: Vec<Statement>) -> Self {
        let options = vec![("yes".to_owned(), says.clone())];
        self.asking(Doubt::Meant { says }, options)
    }

    /// The same at another cost.
    #[must_use]
    pub fn at_cost(mut self, cost: f32) -> Self {
        self.cost = cost;
        self
    }
}
