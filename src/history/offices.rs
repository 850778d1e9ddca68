//! What a squad knows of offices beside who holds one: what waits for a code, who
//! is stopped though they were forgotten.

use std::sync::Arc;

use jiff::Timestamp;
use serde::{Deserialize, Serialize};

use super::{Event, Squad, Stamped, Swimmer, Touched, TroubleKind};
use crate::digest;
use crate::message::Name;

/// What waits for a code.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Confirmation {
    /// Whoever asked for it, and may text the code.
    pub by: String,
    /// What is done then.
    pub pending: Pending,
    /// The code's digest.
    pub digest: String,
    /// The code is no use after this.
    pub until: Timestamp,
}

/// What is done once a code has come back.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Pending {
    /// Somebody is asked in as another coach.
    NewCoach {
        /// At which address.
        address: String,
        /// As whom.
        name: Option<Name>,
    },
    /// The coach gives the squad to another.
    HandOver {
        /// At which address.
        address: String,
        /// Who goes by this name.
        to: Name,
    },
    /// A coach or a welfare officer goes.
    Goes {
        /// From which address.
        address: String,
    },
}

impl Pending {
    /// The address that it is about.
    pub fn address(&self) -> &str {
        match self {
            Pending::NewCoach { address, .. }
            | Pending::HandOver { address, .. }
            | Pending::Goes { address } => address,
        }
    }
}

/// An address as it is known though it was forgotten: by a digest, keyed by the
/// id of the squad that it was forgotten in, which is random.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct Unnamed {
    /// The squad's id.
    key: String,
    /// The digest.
    digest: String,
}

/// A stop of somebody who was forgotten.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct StopKept {
    /// Since when.
    pub since: Timestamp,
    /// There was a knock to the head.
    pub knock: bool,
    /// Held by the coach, as against stopped by danger.
    pub held: bool,
}

impl Unnamed {
    /// The digest of an address in a squad.
    pub fn of(squad: &str, address: &str) -> Self {
        let digest = digest::hex(&digest::of([squad, "address", address]));
        Self { key: squad.to_owned(), digest }
    }

    /// True if it is this address.
    pub fn is(&self, address: &str) -> bool {
        *self == Unnamed::of(&self.key, address)
    }
}

impl Swimmer {
    /// What of their stops outlives them: danger before a hold.
    pub fn stop_kept(&self, now: Timestamp) -> Option<StopKept> {
        let open = |kind: &TroubleKind| {
            let mut open = self.open_troubles(now).filter(|kept| kept.what.kind == *kind);
            open.next_back().map(|kept| kept.at)
        };
        let knocked = self.knocks.as_of(now).next_back().map(|kept| kept.at);
        if let Some(since) = open(&TroubleKind::Faint) {
            let knock = knocked.is_some_and(|at| at >= since);
            return Some(StopKept { since, knock, held: false });
        }
        open(&TroubleKind::Held).map(|since| StopKept { since, knock: false, held: true })
    }
}

impl Squad {
    /// The stop of somebody at this address who was forgotten.
    pub fn stop_outliving(&self, address: &str) -> Option<StopKept> {
        self.stops.iter().find(|(of, _)| of.is(address)).map(|(_, kept)| *kept)
    }

    /// Takes in what happened to offices; `None` for all other events, and for
    /// those that mean more than this.
    pub(super) fn apply_offices(&mut self, stamped: &Stamped) -> Option<Touched> {
        match &stamped.event {
            Event::SecondContactNamed { address } => {
                self.safe.second_contact.clone_from(address);
                Some(Touched::Head)
            }
            Event::StandsBy { address, wanted } => {
                if let Some(member) = self.members.get_mut(address).map(Arc::make_mut) {
                    member.stands_by = *wanted;
                }
                Some(Touched::Head)
            }
            Event::CodeRenewed { code } => {
                self.code.clone_from(code);
                self.expires = None;
                Some(Touched::Head)
            }
            Event::SquadRenamed { name } => {
                self.name.clone_from(name);
                Some(Touched::Head)
            }
            Event::SquadClosed => {
                self.closed = true;
                self.code.clear();
                self.claims.clear();
                self.invitations.clear();
                self.confirmation = None;
                self.boards.clear();
                self.calendars.clear();
                Some(Touched::Head)
            }
            Event::ConfirmationAsked { confirmation } => {
                self.confirmation = Some(confirmation.clone());
                Some(Touched::Head)
            }
            Event::ConfirmationClosed => {
                self.confirmation = None;
                Some(Touched::Head)
            }
            Event::StopOutlives { of, stop } => {
                self.stops.retain(|(kept, _)| kept != of);
                self.stops.push((of.clone(), *stop));
                Some(Touched::Head)
            }
            Event::StopTakenUp { of } => {
                self.stops.retain(|(kept, _)| kept != of);
                Some(Touched::Head)
            }
            Event::AccessEnded { address } => {
                self.safe.officers.retain(|officer| officer != address);
                if self.safe.second_contact.as_ref() == Some(address) {
                    self.safe.second_contact = None;
                }
                None
            }
            Event::AlarmRaised { .. }
            | Event::AlarmUnheard { .. }
            | Event::AlarmTold { .. }
            | Event::StrangerAsked { .. }
            | Event::SilenceOutlives { .. } => Some(Touched::Head),
            _ => None,
        }
    }
}
