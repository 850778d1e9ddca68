//! What is known when a text is decided: the squad, the sender, the clock, the text.
//! It is only looked at; what is done is for [`Desk`](super::desk::Desk).

use std::cell::OnceCell;

use jiff::civil::Date;
use jiff::{Timestamp, ToSpan};

use super::asked::Asked;
use super::refusing::{Stopped, refused};
use crate::history::{Member, Right, Squad, Swimmer};
use crate::language::Language;
use crate::message::{Name, Typed};
use crate::reply::RefusedWhy;
use crate::units::Course;

/// How long a question stays open.
const QUESTION_HOURS: i64 = 24;

/// What is known, as of what was done so far.
pub struct View<'a> {
    /// What is asked.
    pub asked: &'a Asked<'a>,
    /// The squad, with what was done so far folded in.
    pub squad: Squad,
    /// The number of this message.
    pub cause: u64,
    /// The squad's local day.
    pub today: Date,
    /// The sender has confirmed what was read: don't ask about it again.
    pub confirmed: bool,
    /// The text was the answer to a question, which is closed by now.
    pub answered: bool,
    /// Of several who text from one telephone, the one who speaks, once that is
    /// clear.
    pub speaker: Option<Name>,
    /// The language of the text, once it was asked for.
    pub(super) text_language: OnceCell<Language>,
    /// The text, and what was made of it so far.
    pub(super) typed: Typed<'a>,
}

impl<'a> View<'a> {
    /// What is known as a text comes in.
    pub fn new(squad: &Squad, asked: &'a Asked<'a>) -> Self {
        Self {
            asked,
            cause: squad.next_cause,
            today: squad.local_day(asked.now),
            confirmed: false,
            answered: false,
            speaker: None,
            text_language: OnceCell::new(),
            typed: Typed::new(asked.text.trim()),
            squad: squad.clone(),
        }
    }
}

impl View<'_> {
    /// Looks at a text taken apart: mostly the one that came, which is taken apart once.
    pub fn typed<O>(&self, text: &str, look: impl FnOnce(&Typed<'_>) -> O) -> O {
        match text == self.typed.text() {
            true => look(&self.typed),
            false => look(&Typed::new(text)),
        }
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
