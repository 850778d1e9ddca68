//! The desk that one message is decided at: what is known, and what is done about it.

use std::ops::Deref;

use super::asked::Asked;
use super::decided::Say;
use super::view::View;
use crate::history::{Event, Squad, Stamped, Touched};
use crate::message::{Danger, Matter, Statement, Whom};

/// A decision in the making. What it records is folded into its [`View`] at once, so
/// that the next statement sees it; whatever can be asked of the view can be asked of
/// the desk.
pub struct Desk<'a> {
    /// What is known.
    pub view: View<'a>,
    /// What this message did.
    pub events: Vec<Event>,
    /// The danger that the text names.
    pub danger: Option<Danger>,
    /// Whom that danger is about.
    pub danger_to: Whom,
    /// The text's words of harm are about what somebody other than the sender may do to
    /// themselves.
    pub harm_of_another: bool,
    /// The sender's words are not to be kept.
    pub private: bool,
    /// What was read of the text and applied.
    pub read: Vec<Statement>,
    /// The question that the text asks, where it goes on from the one before.
    pub again: Option<String>,
    /// The text is to be answered with care, though no rule says why.
    pub cares: bool,
    /// What the text is about, where no statement says it.
    pub matter: Option<Matter>,
    /// Someone should have been warned, and all who could be want no texts.
    pub unreached: bool,
    /// Someone is in danger, and there is nobody else to be called.
    pub uncalled: bool,
    /// What goes to others.
    pub to_others: Vec<Say>,
    /// What of the squad it changed.
    pub touched: Vec<Touched>,
}

impl<'a> Deref for Desk<'a> {
    type Target = View<'a>;

    fn deref(&self) -> &View<'a> {
        &self.view
    }
}

impl<'a> Desk<'a> {
    /// A desk for one message: nothing is done yet.
    pub fn new(squad: &Squad, asked: &'a Asked<'a>) -> Self {
        Self {
            view: View::new(squad, asked),
            events: Vec::new(),
            danger: None,
            danger_to: Whom::Unsaid,
            harm_of_another: false,
            private: false,
            again: None,
            cares: false,
            read: Vec::new(),
            matter: None,
            unreached: false,
            uncalled: false,
            to_others: Vec::new(),
            touched: Vec::new(),
        }
    }
}

impl Desk<'_> {
    /// Records that something happened, and folds it in at once.
    pub fn record(&mut self, event: Event) {
        let stamped = Stamped {
            cause: self.cause,
            at: self.asked.now,
            by: self.asked.from.to_owned(),
            event,
        };
        self.touched.push(self.view.squad.apply(&stamped));
        self.events.push(stamped.event);
    }

    /// Where the decision stands, to go back to.
    pub fn mark(&self) -> Mark {
        let (events, touched) = (self.events.len(), self.touched.len());
        Mark { squad: self.view.squad.clone(), events, touched }
    }

    /// Goes back to where it stood: what was recorded since never happened, and is given back.
    pub fn back_to(&mut self, mark: Mark) -> Vec<Event> {
        self.view.squad = mark.squad;
        self.touched.truncate(mark.touched);
        self.events.split_off(mark.events)
    }
}

/// Where a decision stood.
pub struct Mark {
    squad: Squad,
    events: usize,
    touched: usize,
}
