//! The desk that one message is decided at: a working copy of the squad that each
//! statement changes for the next, and what the message did so far.

use std::cell::OnceCell;

use jiff::civil::Date;
use jiff::{Timestamp, ToSpan};

use super::asked::Asked;
use super::decided::Say;
use super::matter::Matter;
use super::refusing::{Stopped, refused};
use crate::language::Language;
use crate::message::{Danger, Name, Statement, Typed, Whom};
use crate::profile::{Event, Member, Right, Squad, Stamped, Swimmer, Touched};
use crate::reply::RefusedWhy;
use crate::units::Course;

/// How long a question stays open.
const QUESTION_HOURS: i64 = 24;

/// What one message is decided with: a working copy of the squad that each
/// statement changes for the next.
pub struct Desk<'a> {
    /// What is asked.
    pub asked: &'a Asked<'a>,
    /// The squad, with what this message did folded in.
    pub squad: Squad,
    /// The number of this message.
    pub cause: u64,
    /// What this message did.
    pub events: Vec<Event>,
    /// The squad's local day.
    pub today: Date,
    /// The sender has confirmed what was read: don't ask about it again.
    pub confirmed: bool,
    /// The text was the answer to a question, which is closed by now.
    pub answered: bool,
    /// Of several who text from one telephone, the one who speaks, once that is
    /// clear.
    pub speaker: Option<Name>,
    /// The danger that the text names.
    pub danger: Option<Danger>,
    /// Whom that danger is about.
    pub danger_to: Whom,
    /// Words of harm are of what somebody beside the sender may do to themselves.
    pub harm_of_another: bool,
    /// The sender's words are not to be kept.
    pub private: bool,
    /// What was read of the text and applied.
    pub read: Vec<Statement>,
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
    /// The language of the text, once it was asked for.
    pub(super) tongue: OnceCell<Language>,
    /// The text, and what was made of it so far.
    pub(super) typed: Typed<'a>,
}

impl<'a> Desk<'a> {
    /// A desk for one message: nothing is done yet.
    pub fn new(squad: &Squad, asked: &'a Asked<'a>) -> Self {
        Self {
            asked,
            cause: squad.next_cause,
            events: Vec::new(),
            today: squad.local_day(asked.now),
            confirmed: false,
            answered: false,
            speaker: None,
            danger: None,
            danger_to: Whom::Unsaid,
            harm_of_another: false,
            private: false,
            read: Vec::new(),
            matter: None,
            unreached: false,
            uncalled: false,
            to_others: Vec::new(),
            touched: Vec::new(),
            tongue: OnceCell::new(),
            typed: Typed::new(asked.text.trim()),
            squad: squad.clone(),
        }
    }
}

impl Desk<'_> {
    /// Looks at a text taken apart: mostly the one that came, which is taken apart once.
    pub fn typed<O>(&self, text: &str, look: impl FnOnce(&Typed<'_>) -> O) -> O {
        match text == self.typed.text() {
            true => look(&self.typed),
            false => look(&Typed::new(text)),
        }
    }

    /// Records that something happened, and folds it in at once.
    pub fn record(&mut self, event: Event) {
        let stamped = Stamped {
            cause: self.cause,
            at: self.asked.now,
            by: self.asked.from.to_owned(),
            event,
        };
        self.touched.push(self.squad.apply(&stamped));
        self.events.push(stamped.event);
    }

    /// The sender as a member.
    pub fn member(&self) -> Option<&Member> {
        self.squad.members.get(self.asked.from).map(AsRef::as_ref)
    }

    /// True if the sender has `right`.
    pub fn may(&self, right: Right) -> bool {
        self.squad.may(self.asked.from, right)
    }

    /// Refuses who has not `right`.
    pub fn demand(&self, right: Right) -> Result<(), Stopped> {
        match self.may(right) {
            true => Ok(()),
            false => Err(refused("coach_only", RefusedWhy::CoachOnly)),
        }
    }

    /// A swimmer of the squad.
    pub fn swimmer(&self, name: &Name) -> Option<&Swimmer> {
        self.squad.swimmers.get(name).map(AsRef::as_ref)
    }

    /// What counts as now.
    pub fn now(&self) -> Timestamp {
        self.asked.now
    }

    /// The sender wants no texts.
    pub fn is_opted_out(&self) -> bool {
        self.asked.opted_out || self.member().is_some_and(|member| member.opted_out)
    }

    /// The pool a swimmer swims in.
    pub fn course_of(&self, name: &Name) -> Course {
        self.swimmer(name)
            .and_then(|swimmer| swimmer.course.at(self.now()))
            .copied()
            .unwrap_or(self.squad.course)
    }

    /// When a question asked now stops waiting.
    pub fn question_until(&self) -> Timestamp {
        self.asked.wall.checked_add(QUESTION_HOURS.hours()).unwrap_or(Timestamp::MAX)
    }

    /// The day whose evening it is.
    pub fn evening(&self) -> Date {
        self.squad.evening_of(self.now())
    }
}
