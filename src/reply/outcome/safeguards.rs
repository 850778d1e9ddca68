//! Who looks after whom: what was done, what was not.

use jiff::civil::Date;
use strum::{IntoStaticStr, VariantNames};

use crate::history::{CareKind, ReadWhat, Role};
use crate::message::Name;

/// Something done about who looks after whom.
#[derive(Debug, Clone, PartialEq, Eq)]
#[derive(IntoStaticStr, VariantNames)]
pub enum CareDone {
    /// Someone is welfare officer.
    OfficerNamed {
        /// The squad may be joined from now on.
        opens: bool,
    },
    /// This is the number to call for help from now on.
    EmergencyNumberKept {
        /// Its digits.
        number: String,
    },
    /// The helpline is told from now on.
    HelplineKept,
    /// A grown-up is asked to answer for a swimmer.
    GuardianAsked {
        /// The swimmer.
        who: Name,
    },
    /// The sender agreed to answer for a swimmer.
    GuardianAgreed {
        /// The swimmer.
        who: Name,
    },
    /// The sender answers for a swimmer no more.
    GuardianEnded {
        /// The swimmer.
        who: Name,
    },
    /// The sender agreed that a stop be lifted.
    GuardianReleases {
        /// Whose.
        who: Name,
    },
    /// Who read of a swimmer's health.
    Seen {
        /// The swimmer.
        who: Name,
        /// How often.
        times: usize,
        /// The latest first.
        latest: Vec<SeenLine>,
    },
    /// What is kept apart.
    Records {
        /// How many accidents.
        accidents: usize,
        /// How many disclosures.
        disclosures: usize,
        /// How many messages to minors.
        to_minors: usize,
        /// For how many years they are kept.
        years: u16,
        /// The latest accidents and disclosures, latest first.
        latest: Vec<RecordLine>,
    },
}

/// One look at a swimmer's health.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SeenLine {
    /// On which day.
    pub on: Date,
    /// By whom, as what they are in the squad now.
    pub role: Option<Role>,
    /// On what occasion.
    pub what: ReadWhat,
}

/// One record that is kept apart.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RecordLine {
    /// On which day.
    pub on: Date,
    /// Of whom.
    pub who: Option<Name>,
    /// Of what.
    pub what: CareKind,
}

/// Why something was not done about who looks after whom.
#[derive(Debug, Clone, PartialEq, Eq)]
#[derive(IntoStaticStr, VariantNames)]
pub enum CareRefusal {
    /// A squad with minors has no welfare officer yet.
    NoOfficer,
    /// Their year of birth is not known.
    AskBirthYear,
    /// No grown-up answers for them yet.
    AskParent,
    /// They are under 16: their guardian texts for them.
    ParentTexts,
    /// A minor can't make themselves a grown-up by text.
    CoachSetsAge,
    /// The coach names the guardian, as nobody else can tell whose number it is.
    CoachNamesGuardian,
    /// Nobody else would read what is written to a minor.
    NoSecondAdult {
        /// The minor.
        who: Name,
    },
    /// A minor's stop needs more words than the coach's.
    StopNeeds {
        /// The minor.
        who: Name,
        /// A clinician's is not there.
        clinician: bool,
        /// The guardian's is not there.
        guardian: bool,
    },
    /// It is the welfare officer's.
    OfficerOnly,
    /// The welfare officer is someone else than the coach.
    OfficerApart,
}

/// Something that goes to others about who looks after whom.
#[derive(Debug, Clone, PartialEq, Eq)]
#[derive(IntoStaticStr, VariantNames)]
pub enum CareLetter {
    /// To the welfare officer: someone wrote of harm or fear.
    Disclosure {
        /// Who, and from where.
        by: String,
        /// In which squad.
        squad: String,
    },
    /// To someone who is welfare officer from now on.
    NowOfficer {
        /// Of which squad.
        squad: String,
    },
    /// To a grown-up: will you answer for this swimmer?
    AskGuardian {
        /// The swimmer.
        who: Name,
        /// Their squad.
        squad: String,
    },
    /// To the coach: a guardian agreed.
    GuardianAgreed {
        /// For whom.
        who: Name,
    },
    /// To the coach: a guardian agrees that a stop be lifted.
    GuardianReleases {
        /// Whose.
        who: Name,
    },
    /// To a guardian: what the swimmer is told first.
    ToGuardian {
        /// The swimmer.
        who: Name,
        /// What they are told.
        what: String,
    },
    /// To whoever reads along.
    CopyOf {
        /// With whom.
        who: Name,
        /// What was said.
        words: String,
    },
    /// To both: they are of age.
    OfAge {
        /// Who.
        who: Name,
    },
}
