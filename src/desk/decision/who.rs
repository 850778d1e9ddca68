//! Who is meant: the sender, the one they may speak for, the one a text names.

use super::refusing::{Stopped, refused};
use super::view::View;
use crate::history::{AgeGroup, Guard, Right, Swimmer};
use crate::message::{self, Name, Statement};
use crate::reply::{Asks, Outcome, QuestionReply, RefusedWhy};

impl View<'_> {
    /// The sender's own handle; of several who text from one telephone, that of
    /// the one who speaks, and none where that is not clear; a guardian's is that
    /// of their one ward.
    pub fn me(&self) -> Option<&Name> {
        let member = self.member()?;
        let own = if member.is_shared() { self.speaker.as_ref() } else { member.name.as_ref() };
        own.or_else(|| self.ward().filter(|_| !member.is_shared()))
    }

    /// A swimmer's name, where it is not the sender's own.
    pub fn not_me(&self, who: &Name) -> Option<Name> {
        (self.me() != Some(who)).then(|| who.clone())
    }

    /// What the sender is called here, or where they text from.
    pub fn goes_by_here(&self) -> String {
        let called = self.member().and_then(|member| member.goes_by());
        called.map_or_else(|| self.asked.from.to_owned(), Name::to_string)
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

    /// Whom a statement is about: the one named, if the sender may speak for
    /// them, else the sender.
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

    /// The question who is meant by a name of nobody here.
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

    /// The swimmer of this squad whom a text names, if not the sender.
    pub fn named_in(&self, text: &str) -> Option<Name> {
        let known = |name: &Name| self.squad.swimmers.contains_key(name);
        // `larks breathing` is lark's.
        let of = |name: Name| {
            let bare = name.as_str().strip_suffix('s').and_then(|bare| Name::new(bare).ok());
            if known(&name) { Some(name) } else { bare.filter(known) }
        };
        message::names_in(text).filter_map(of).find(|name| !self.all_of_me().contains(name))
    }

    /// How old a swimmer is taken to be.
    pub fn age_group(&self, swimmer: &Swimmer) -> AgeGroup {
        self.squad.age_group(swimmer, self.now())
    }

    /// True for a minor.
    pub fn is_minor(&self, name: &Name) -> bool {
        self.swimmer(name).is_some_and(|swimmer| self.age_group(swimmer) != AgeGroup::Adult)
    }

    /// The sender, if they are a minor who texts from a telephone of their own.
    pub fn minor_sender(&self) -> Option<&Swimmer> {
        let name = self.member()?.name.as_ref()?;
        let swimmer = self.swimmer(name)?;
        let own = swimmer.guard.as_ref().is_none_or(|guard| guard.address != self.asked.from);
        (own && self.age_group(swimmer) != AgeGroup::Adult).then_some(swimmer)
    }

    /// The guardian who agreed and still reads along.
    pub fn guardian_of(&self, name: &Name) -> Option<&Guard> {
        let guard = self.swimmer(name)?.guard.as_ref()?;
        (guard.agreed.is_some() && !guard.of_age).then_some(guard)
    }

    /// The one swimmer the sender is guardian of.
    pub fn ward(&self) -> Option<&Name> {
        let mut wards = self.squad.wards(self.asked.from);
        let only = wards.next()?;
        let agreed = only.guard.as_ref().is_some_and(|guard| guard.agreed.is_some());
        (agreed && wards.next().is_none()).then_some(&only.name)
    }

    /// True if the sender is a guardian of this swimmer, and agreed.
    pub fn is_ward(&self, name: &Name) -> bool {
        self.guardian_of(name).is_some_and(|guard| guard.address == self.asked.from)
    }
}

/// The swimmer that someone with `right` names.
pub fn coached(view: &View<'_>, right: Right, statement: &Statement) -> Result<Name, Stopped> {
    view.demand(right)?;
    view.subject(statement)
}
