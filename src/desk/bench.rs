//! The bench a message is decided on: a working copy of the squad that each
//! statement changes for the next, and who stands at it.

use std::cell::OnceCell;

use jiff::Timestamp;
use jiff::civil::Date;

use super::hearing::Matter;
use super::{Asked, Say};
use crate::language::Language;
use crate::message::{Danger, Name, Statement, Typed, Whom};
use crate::profile::{Event, Member, ReadWhat, Right, Squad, Stamped, Swimmer, Touched};
use crate::reading;
use crate::reply::{
    self, Alert, Asks, CautionKind, Outcome, QuestionReply, RefusedReply, RefusedWhy, Voice,
};
use crate::units::Course;

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
    /// A question whether what was read is meant and can be was answered: don't
    /// ask again.
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
    tongue: OnceCell<Language>,
    /// The text, and what was made of it so far.
    typed: Typed<'a>,
}

impl<'a> Desk<'a> {
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

    /// The sender's own handle; of several who text from one telephone, that of
    /// the one who speaks, and none where that is not clear; a guardian's is that
    /// of her one ward.
    pub fn me(&self) -> Option<&Name> {
        let member = self.member()?;
        let own = if member.is_shared() { self.speaker.as_ref() } else { member.name.as_ref() };
        own.or_else(|| self.ward().filter(|_| !member.is_shared()))
    }

    /// A swimmer's name, where it is not the sender's own.
    pub fn not_me(&self, who: &Name) -> Option<Name> {
        (self.me() != Some(who)).then(|| who.clone())
    }

    /// True if someone who swims texts from the sender's telephone.
    pub fn swims(&self) -> bool {
        self.member().is_some_and(|member| member.name.is_some())
    }

    /// True for the handle of one who texts from the sender's telephone, or of
    /// one whose guardian does.
    pub fn is_mine(&self, name: &Name) -> bool {
        self.member().is_some_and(|member| member.names().any(|mine| mine == name))
            || self.is_ward(name)
    }

    /// Every handle of the sender's telephone that may be meant.
    pub fn all_of_me(&self) -> Vec<Name> {
        match self.me() {
            Some(me) => vec![me.clone()],
            None => {
                self.member().map(|member| member.names().cloned().collect()).unwrap_or_default()
            }
        }
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

    /// The sender's language: as chosen, else that of the text.
    pub fn language(&self) -> Language {
        self.chosen_language().unwrap_or_else(|| *self.tongue.get_or_init(|| self.text_language()))
    }

    /// The language that the sender has chosen.
    pub fn chosen_language(&self) -> Option<Language> {
        let me = self.all_of_me();
        let swimmer = self.swimmer(me.first()?)?;
        swimmer.language.at(self.now()).copied()
    }

    fn text_language(&self) -> Language {
        let is_name =
            |word: &str| Name::new(word).is_ok_and(|name| self.squad.swimmers.contains_key(&name));
        reading::language_of(self.typed.lexed(), Language::default(), is_name)
    }

    /// The pool a swimmer swims in.
    pub fn course_of(&self, name: &Name) -> Course {
        self.swimmer(name)
            .and_then(|swimmer| swimmer.course.at(self.now()))
            .copied()
            .unwrap_or(self.squad.course)
    }

    /// The language's words.
    pub fn voice(&self) -> Voice {
        reply::voice(self.language())
    }

    /// Warns those on deck, other than the sender.
    pub fn warn(&mut self, who: Option<Name>, kind: CautionKind) {
        let by = self.me().cloned().filter(|me| who.as_ref() != Some(me));
        let contact = who.as_ref().and_then(|who| self.swimmer(who));
        let contact = contact.and_then(|swimmer| swimmer.contact.at(self.now()).cloned());
        let named = who.clone();
        let calls = kind.is_danger();
        let of_another = who.as_ref().is_none_or(|who| !self.all_of_me().contains(who));
        let known = of_another && self.may(Right::BeWarned);
        let alert = Alert { who, by, contact, kind };
        let text = reply::voice(Language::English).alert(&alert);
        match calls {
            true => self.call_help(&text, known),
            false => self.tell(Right::BeWarned, &text),
        }
        for reader in self.holders_but_sender(Right::BeWarned) {
            let who = named.iter().cloned().collect::<Vec<_>>();
            if !who.is_empty() {
                self.record(Event::HealthSeen { who, by: reader, what: ReadWhat::Alert });
            }
        }
    }

    fn holders_but_sender(&self, right: Right) -> Vec<String> {
        let holders = self.squad.holders(right);
        holders.filter(|holder| *holder != self.asked.from).map(str::to_owned).collect()
    }

    /// Tells those who have `right`, other than the sender.
    pub fn tell(&mut self, right: Right, text: &str) {
        let holders = self.holders_but_sender(right);
        let silent = |holder: &String| self.squad.members.get(holder).is_some_and(|m| m.opted_out);
        let (silent, reached): (Vec<String>, Vec<String>) = holders.into_iter().partition(silent);
        self.unreached |= reached.is_empty() && !silent.is_empty();
        for holder in reached {
            let say = Say::to(holder, text);
            if !self.to_others.contains(&say) {
                self.to_others.push(say);
            }
        }
    }

    /// Writes to an address.
    pub fn write_to(&mut self, to: impl Into<String>, text: impl Into<String>) {
        self.to_others.push(Say::to(to, text));
    }

    /// Whom a statement is about: the one named, if the sender may speak for
    /// her, else the sender.
    pub fn subject(&self, statement: &Statement) -> Result<Name, Stopped> {
        match &statement.who {
            None => {
                self.me().cloned().ok_or_else(|| refused("not_a_swimmer", RefusedWhy::NotASwimmer))
            }
            Some(name) if self.is_mine(name) => Ok(name.clone()),
            Some(name) => {
                self.demand(Right::SpeakForOthers)?;
                match self.squad.swimmers.contains_key(name) {
                    true => Ok(name.clone()),
                    false => Err(self.who_is(name)),
                }
            }
        }
    }

    pub fn who_is(&self, name: &Name) -> Stopped {
        Box::new(Outcome::Question(QuestionReply {
            asks: Asks::WhoIs { name: name.clone() },
            options: self.like(name).iter().map(Name::to_string).collect(),
            until: self.question_until(),
        }))
    }

    /// The swimmers with names like this one, the likest first.
    pub fn like(&self, name: &Name) -> Vec<Name> {
        let mut near: Vec<(usize, &Name)> = self
            .squad
            .swimmers
            .keys()
            .map(|known| (strsim::osa_distance(known.as_str(), name.as_str()), known))
            .filter(|(distance, _)| *distance <= 2)
            .collect();
        near.sort();
        near.into_iter().take(3).map(|(_, known)| known.clone()).collect()
    }
}

/// What a request comes to where it stops short: a question or a refusal.
pub type Stopped = Box<Outcome>;

/// A refusal.
pub fn refused(rule: impl Into<String>, why: RefusedWhy) -> Stopped {
    Box::new(Outcome::Refused(RefusedReply { rule: rule.into(), why }))
}
