//! What is left of a squad's events once one of its swimmers is forgotten.
//!
//! Every kind of event is named here, so that none can be added without
//! deciding what becomes of it. Knows nothing of messages or stores.

use std::collections::{BTreeMap, BTreeSet};

use serde::{Deserialize, Serialize};

use super::Event;
use crate::message::{Name, names_in};

/// A swimmer who is to be gone, and what else has to be known of them.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Gone {
    /// Their handle.
    pub who: Name,
    /// The addresses that were theirs.
    pub addresses: BTreeSet<String>,
    /// Those of them that someone else in the squad still goes by: a coach
    /// who swam, a telephone that is shared.
    pub shared: BTreeSet<String>,
    /// Messages whose results were stored as theirs, and whose they really are.
    left: BTreeMap<u64, Name>,
    /// Messages whose results were moved to them, and from whom.
    came: BTreeMap<u64, Name>,
    /// What is left of the moves themselves, by the message that moved.
    moves: BTreeMap<u64, Option<Event>>,
    /// Whatever gave results to another and stands, with the message that did.
    given: Vec<(u64, Event)>,
}

impl Gone {
    /// One who has just joined.
    pub fn new(who: Name) -> Self {
        Self {
            who,
            addresses: BTreeSet::new(),
            shared: BTreeSet::new(),
            left: BTreeMap::new(),
            came: BTreeMap::new(),
            moves: BTreeMap::new(),
            given: Vec::new(),
        }
    }

    /// Takes note of an event that message `by` caused: all of them are to be
    /// shown, in order, before the first [`without`](Self::without).
    pub fn note(&mut self, by: u64, event: &Event) {
        match event {
            Event::Joined { address, name } | Event::Claimed { address, name }
                if *name == self.who =>
            {
                self.addresses.insert(address.clone());
            }
            Event::GuardianAsked { who, address } if *who == self.who => {
                self.addresses.insert(address.clone());
            }
            Event::ResultMoved { .. } | Event::ResultsSwapped { .. } => {
                self.given.push((by, event.clone()));
                self.follow(by, event);
            }
            Event::Undone { cause } => self.give_back(*cause),
            _ => {}
        }
    }

    fn follow(&mut self, by: u64, event: &Event) {
        match event {
            Event::ResultMoved { from, to, cause } if *to == self.who => {
                self.came.insert(*cause, from.clone());
                self.moves.insert(by, None);
            }
            Event::ResultsSwapped { one, other } if one.0 == self.who || other.0 == self.who => {
                let (own, others) = if one.0 == self.who { (one, other) } else { (other, one) };
                self.left.insert(own.1.cause, others.0.clone());
                self.came.insert(others.1.cause, others.0.clone());
            }
            Event::ResultMoved { from, to, cause } if *from == self.who => {
                let stays = match self.came.remove(cause) {
                    None => {
                        self.left.insert(*cause, to.clone());
                        None
                    }
                    Some(before) if before == *to => None,
                    Some(before) => {
                        Some(Event::ResultMoved { from: before, to: to.clone(), cause: *cause })
                    }
                };
                self.moves.insert(by, stays);
            }
            _ => {}
        }
    }

    /// What message `cause` had given to another is whose it was.
    fn give_back(&mut self, cause: u64) {
        let all = self.given.len();
        self.given.retain(|(by, _)| *by != cause);
        if self.given.len() == all {
            return;
        }
        self.left.clear();
        self.came.clear();
        self.moves.entry(cause).and_modify(|stays| *stays = None);
        for (by, event) in self.given.clone() {
            self.follow(by, &event);
        }
    }

    /// True for one of their addresses that is nobody else's.
    pub fn is_theirs(&self, address: &str) -> bool {
        self.addresses.contains(address) && !self.shared.contains(address)
    }

    /// True if a text names them.
    pub fn is_named_in(&self, text: &str) -> bool {
        names_in(text).any(|name| name == self.who)
    }

    /// What is left of an event that message `by` caused; `None` if nothing.
    pub fn without(&self, by: u64, event: Event) -> Option<Event> {
        match event {
            Event::SquadOpened { .. }
            | Event::Erased { .. }
            | Event::TimetableChanged { .. }
            | Event::TestNightCalled { .. }
            | Event::ApprovalSet { .. }
            | Event::NamesInRoomsSet { .. }
            | Event::LimitsSet { who: None, .. }
            | Event::MeetSet { .. }
            | Event::EmergencyNumberSet { .. }
            | Event::HelplineSet { .. }
            | Event::RecordsKept { .. }
            // Help that is called for still is.
            | Event::AlarmRaised { .. }
            | Event::AlarmUnheard { .. }
            | Event::AlarmTold { .. }
            | Event::CodeRenewed { .. }
            | Event::SquadRenamed { .. }
            | Event::SquadClosed
            | Event::ConfirmationClosed
            // These name nobody.
            | Event::StopOutlives { .. }
            | Event::StopTakenUp { .. }
            | Event::SilenceOutlives { .. }
            // The club must keep these, apart, for its stated time.
            | Event::CareRecorded { .. }
            | Event::Undone { .. } => Some(event),
            Event::EveningPut { mut evening } => {
                evening.forget(&self.who);
                Some(Event::EveningPut { evening })
            }
            Event::SquadSetPut { mut set } => {
                set.forget(&self.who);
                Some(Event::SquadSetPut { set })
            }
            Event::LanesDrawn { mut drawn } => {
                drawn.forget(&self.who);
                Some(Event::LanesDrawn { drawn })
            }
            Event::Remarked { .. } => None,
            Event::LanesParted { mut parting } => {
                parting.names.retain(|who| *who != self.who);
                (parting.names.len() > 1).then_some(Event::LanesParted { parting })
            }
            Event::Joined { ref name, .. } => (*name != self.who).then_some(event),
            Event::Forgotten { ref who } => (*who != self.who).then_some(event),
            Event::ResultMoved { .. } => match self.moves.get(&by) {
                Some(stays) => stays.clone(),
                None => Some(event),
            },
            Event::RoleGiven { address, role, called } => {
                let called = called.filter(|called| *called != self.who);
                (!self.is_theirs(&address)).then_some(Event::RoleGiven { address, role, called })
            }
            Event::Invited { ref address, ref invitation } => {
                let theirs = self.is_theirs(address) || invitation.name.as_ref() == Some(&self.who);
                (!theirs).then_some(event)
            }
            Event::GuestAdded { ref name, .. } | Event::Claimed { ref name, .. } => {
                (*name != self.who).then_some(event)
            }
            Event::AccessEnded { ref address }
            | Event::InvitationClosed { ref address }
            | Event::SquadAsked { ref address, .. }
            | Event::SquadTaken { ref address }
            | Event::SaidUnasked { ref address, .. }
            | Event::DigestWished { ref address, .. }
            | Event::LanguageChosen { ref address, .. }
            | Event::BoardOpened { ref address, .. }
            | Event::CalendarOpened { ref address, .. }
            | Event::CalendarShut { ref address, .. }
            | Event::OptedOut { ref address }
            | Event::OptedIn { ref address }
            | Event::StandsBy { ref address, .. }
            | Event::StrangerAsked { ref address }
            | Event::SecondContactNamed { address: Some(ref address) }
            | Event::QuestionsDropped { ref address } => (!self.is_theirs(address)).then_some(event),
            Event::SecondContactNamed { address: None } => Some(event),
            Event::ConfirmationAsked { ref confirmation } => {
                let (by, named) = (&confirmation.by, serde_json::to_string(&event));
                let theirs = self.is_theirs(by)
                    || named.is_ok_and(|words| self.is_named_in(&words))
                    || self.addresses.iter().any(|one| confirmation.pending.address() == one);
                (!theirs).then_some(event)
            }
            Event::QuestionClosed { ref address, ref about } => {
                let theirs = self.is_theirs(address) || about.as_ref() == Some(&self.who);
                (!theirs).then_some(event)
            }
            Event::QuestionQueued { ref address, .. } => {
                (!self.touches(address, &event)).then_some(event)
            }
            // What waits for someone else's next word goes if it names them.
            Event::QuestionAsked { ref address, .. } => match self.touches(address, &event) {
                true => Some(Event::QuestionClosed { address: address.clone(), about: None })
                    .filter(|_| !self.is_theirs(address)),
                false => Some(event),
            },
            Event::MoreKept { ref address, .. } => match self.touches(address, &event) {
                true => Some(Event::MoreKept { address: address.clone(), lines: vec![] })
                    .filter(|_| !self.is_theirs(address)),
                false => Some(event),
            },
            Event::QuestionHeard { ref address, .. } => match self.touches(address, &event) {
                true => Some(Event::QuestionHeard { address: address.clone(), text: None })
                    .filter(|_| !self.is_theirs(address)),
                false => Some(event),
            },
            Event::ReasonsKept { ref address, .. } => {
                (!self.touches(address, &event)).then_some(event)
            }
            Event::HealthSeen { mut who, by, what } => {
                who.retain(|who| *who != self.who);
                let theirs = self.is_theirs(&by);
                (!who.is_empty() && !theirs).then_some(Event::HealthSeen { who, by, what })
            }
            Event::FocusSet { ref who, .. } | Event::Noted { ref who, .. } => {
                (*who != self.who).then(|| self.unnamed(event))
            }
            Event::TestSwum { who, test } => {
                self.owner(who, by).map(|who| Event::TestSwum { who, test })
            }
            Event::SetSwum { who, set } => {
                self.owner(who, by).map(|who| Event::SetSwum { who, set })
            }
            Event::SessionSwum { who, swum } => {
                self.owner(who, by).map(|who| Event::SessionSwum { who, swum })
            }
            Event::TestFixed { who, cause, time, distance } => {
                self.owner(who, cause).map(|who| Event::TestFixed { who, cause, time, distance })
            }
            Event::SetFixed { who, cause, was, now } => {
                self.owner(who, cause).map(|who| Event::SetFixed { who, cause, was, now })
            }
            Event::ResultsTakenBack { who, cause } => {
                self.owner(who, cause).map(|who| Event::ResultsTakenBack { who, cause })
            }
            Event::TestBegun { who, cause, start, meet } => {
                self.owner(who, cause).map(|who| Event::TestBegun { who, cause, start, meet })
            }
            Event::ResultsSwapped { ref one, ref other } => {
                (one.0 != self.who && other.0 != self.who).then_some(event)
            }
            Event::AttendanceSaid { ref who, .. }
            | Event::ClearanceSaid { ref who }
            | Event::ContactSet { ref who, .. }
            | Event::CameOfAge { ref who }
            | Event::AbilitySaid { ref who, .. }
            | Event::FeltTired { ref who }
            | Event::GuardianAgreed { ref who }
            | Event::GuardianAsked { ref who, .. }
            | Event::GuardianEnded { ref who }
            | Event::GuardianReleased { ref who }
            | Event::LanePinned { ref who, .. }
            | Event::MarkedAbsent { ref who, .. }
            | Event::MarkedHere { ref who, .. }
            | Event::OtherTrained { ref who, .. }
            | Event::ProfileSet { ref who, .. }
            | Event::EntrySet { ref who, .. }
            | Event::LegSwum { ref who, .. }
            | Event::RaceSet { ref who, .. }
            | Event::ReadinessAnswered { ref who, .. }
            | Event::HeadKnocked { ref who }
            | Event::Recovered { ref who, .. }
            | Event::Released { ref who }
            | Event::SessionMissed { ref who, .. }
            | Event::Promised { ref who, .. }
            | Event::SessionSuggested { ref who, .. }
            | Event::SwimmerLeft { ref who }
            | Event::TroubleOpened { ref who, .. }
            | Event::WeekPlanned { ref who, .. }
            | Event::WeekSettled { ref who, .. }
            | Event::WeekWaits { ref who, .. }
            | Event::WeeklyNoteWished { ref who, .. }
            | Event::LimitsSet { who: Some(ref who), .. }
            | Event::KitSet { ref who, .. }
            | Event::OwnTargetsSet { ref who, .. }
            | Event::WentAway { ref who, .. } => (*who != self.who).then_some(event),
        }
    }

    /// Whose a result of message `cause` is, if anybody's.
    fn owner(&self, who: Name, cause: u64) -> Option<Name> {
        if who == self.who {
            return self.left.get(&cause).cloned();
        }
        (self.came.get(&cause) != Some(&who)).then_some(who)
    }

    fn touches(&self, address: &str, event: &Event) -> bool {
        self.is_theirs(address)
            // An event that can't be written out was never stored.
            || serde_json::to_string(event).is_ok_and(|words| self.is_named_in(&words))
    }

    /// The coach's words on someone else, if they don't name them.
    fn unnamed(&self, event: Event) -> Event {
        match event {
            Event::FocusSet { who, text } if self.is_named_in(&text) => {
                Event::FocusSet { who, text: String::new() }
            }
            Event::Noted { who, text } if self.is_named_in(&text) => {
                Event::Noted { who, text: String::new() }
            }
            other => other,
        }
    }
}

#[cfg(test)]
mod tests;
