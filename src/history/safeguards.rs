//! Who looks after whom in a squad: welfare officers, guardians, and what is
//! kept apart from training: accidents, disclosures, messages to minors, and
//! who read of anyone's health.
//!
//! Holds no rule but how old someone is taken to be.

use std::sync::Arc;

use jiff::Timestamp;
use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::{Event, Role, Squad, Stamped, Swimmer, Touched};
use crate::message::Name;

/// What a squad keeps apart from its training.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Safeguards {
    /// Welfare officers' addresses, in the order in which they were named: the
    /// later ones stand in for the first.
    pub officers: Vec<String>,
    /// Whom to call, as the club wants it told.
    pub helpline: Option<String>,
    /// The number to call for help, where the coach set another than the country's.
    pub emergency: Option<String>,
    /// Who is called when nobody on deck is reached in danger.
    pub second_contact: Option<String>,
    /// How long the records below are kept.
    pub keep_years: Option<u16>,
    /// Accidents, disclosures, messages to minors, oldest first.
    pub records: Vec<CareRecord>,
    /// Who read of anyone's health, oldest first.
    pub reads: Vec<HealthRead>,
}

/// One record that is kept apart from training, and survives `forget me`.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct CareRecord {
    /// When.
    pub at: Timestamp,
    /// Of whom, where that is known.
    pub who: Option<Name>,
    /// Of what.
    pub what: CareKind,
}

/// What a care record is of.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", tag = "of")]
pub enum CareKind {
    /// Words of danger.
    Accident {
        /// As texted.
        words: String,
    },
    /// Someone wrote of harm or fear; their words are kept nowhere.
    Disclosure {
        /// The address they came from.
        from: String,
    },
    /// A coach lifted a stop without a clinician's word.
    Overruled {
        /// The coach's address.
        by: String,
    },
    /// A minor was written to.
    ToMinor {
        /// What was said.
        words: String,
    },
}

/// Someone read of swimmers' health.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct HealthRead {
    /// When.
    pub at: Timestamp,
    /// Whose.
    pub who: Vec<Name>,
    /// The reader's address.
    pub by: String,
    /// On what occasion.
    pub what: ReadWhat,
}

/// On what occasion someone read of health.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ReadWhat {
    /// A warning was sent to them.
    Alert,
    /// They looked at the squad's page.
    Board,
    /// They asked for the swimmer's card.
    Card,
    /// They asked for the squad.
    Squad,
}

/// The grown-up responsible for a swimmer.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Guard {
    /// Where the guardian texts from.
    pub address: String,
    /// When the guardian agreed.
    pub agreed: Option<Timestamp>,
    /// When the guardian last agreed to lift a stop.
    pub released: Option<Timestamp>,
    /// Both were told that they are of age: nothing is copied any more.
    pub of_age: bool,
}

/// How old someone is taken to be.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum AgeGroup {
    /// Under 16, or of unknown age in a squad with minors.
    Younger,
    /// 16 or 17.
    Older,
    /// 18 or more.
    Adult,
}

impl AgeGroup {
    /// The group on a day of someone born in a year: the younger one, as the
    /// birthday is not known (ours).
    pub fn of(born: i16, today: Date) -> Self {
        match today.year() - born - 1 {
            ..16 => AgeGroup::Younger,
            16 | 17 => AgeGroup::Older,
            _ => AgeGroup::Adult,
        }
    }
}

impl Safeguards {
    /// How long records are kept where the club says nothing, in years (ours;
    /// local rules come first).
    pub const KEEP_YEARS: u16 = 7;
    /// How many of each are kept at hand; the log keeps all.
    const MOST: usize = 2_000;

    fn prune(&mut self) {
        let over = self.records.len().saturating_sub(Self::MOST);
        self.records.drain(..over);
        let over = self.reads.len().saturating_sub(Self::MOST);
        self.reads.drain(..over);
    }
}

impl Squad {
    /// How old a swimmer is taken to be at `now`.
    pub fn age_group(&self, swimmer: &Swimmer, now: Timestamp) -> AgeGroup {
        match swimmer.born.at(now) {
            Some(born) => AgeGroup::of(*born, self.local_day(now)),
            None if self.minors => AgeGroup::Younger,
            None => AgeGroup::Adult,
        }
    }

    /// The swimmers a guardian has agreed to answer for, or is asked to.
    pub fn wards<'a>(&'a self, guardian: &'a str) -> impl Iterator<Item = &'a Swimmer> {
        self.swimmers.values().map(Arc::as_ref).filter(move |swimmer| {
            swimmer.guard.as_ref().is_some_and(|guard| guard.address == guardian && !guard.of_age)
        })
    }

    /// Takes in what happened to who looks after whom; `None` for all other
    /// events.
    pub(super) fn apply_safeguards(&mut self, stamped: &Stamped) -> Option<Touched> {
        let at = stamped.at;
        match &stamped.event {
            Event::RoleGiven { address, role, .. } => {
                self.safe
                    .officers
                    .retain(|officer| officer != address || *role == Role::WelfareOfficer);
                if *role == Role::WelfareOfficer && !self.safe.officers.contains(address) {
                    self.safe.officers.push(address.clone());
                }
                None
            }
            Event::EmergencyNumberSet { number } => {
                self.safe.emergency = Some(number.clone());
                Some(Touched::Head)
            }
            Event::HelplineSet { text } => {
                self.safe.helpline = Some(text.clone());
                Some(Touched::Head)
            }
            Event::RecordsKept { years } => {
                self.safe.keep_years = Some(*years);
                Some(Touched::Head)
            }
            Event::CareRecorded { who, what } => {
                let record = CareRecord { at, who: who.clone(), what: what.clone() };
                self.safe.records.push(record);
                self.safe.prune();
                Some(Touched::Head)
            }
            Event::HealthSeen { who, by, what } => {
                let read = HealthRead { at, who: who.clone(), by: by.clone(), what: *what };
                self.safe.reads.push(read);
                self.safe.prune();
                Some(Touched::Head)
            }
            Event::GuardianAsked { who, address } => {
                self.member_or_new(address, Role::Guardian);
                let guard =
                    Guard { address: address.clone(), agreed: None, released: None, of_age: false };
                self.guard(who, |swimmer| swimmer.guard = Some(guard))
            }
            Event::GuardianAgreed { who } => self.guarded(who, |guard| guard.agreed = Some(at)),
            Event::GuardianEnded { who } => self.guard(who, |swimmer| swimmer.guard = None),
            Event::GuardianReleased { who } => self.guarded(who, |guard| guard.released = Some(at)),
            Event::CameOfAge { who } => self.guarded(who, |guard| guard.of_age = true),
            _ => None,
        }
    }

    /// Whoever was here as a guardian alone goes with the last ward.
    pub(super) fn let_guardian_go(&mut self, address: &str) {
        let guards =
            |one: &Arc<Swimmer>| one.guard.as_ref().is_some_and(|one| one.address == address);
        if !self.swimmers.values().any(guards)
            && let Some(member) = self.members.get(address)
            && member.role == Role::Guardian
            && member.name.is_none()
        {
            self.members.remove(address);
        }
    }

    fn guard(&mut self, who: &Name, change: impl FnOnce(&mut Swimmer)) -> Option<Touched> {
        if let Some(swimmer) = self.swimmers.get_mut(who) {
            change(Arc::make_mut(swimmer));
        }
        Some(Touched::Swimmer(who.clone()))
    }

    fn guarded(&mut self, who: &Name, change: impl FnOnce(&mut Guard)) -> Option<Touched> {
        self.guard(who, |swimmer| {
            if let Some(guard) = &mut swimmer.guard {
                change(guard);
            }
        })
    }
}
