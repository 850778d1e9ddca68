//! Who holds an office in a squad, how one is given and taken, and who is called
//! in danger: what was done, what was not, what others are told.

use jiff::civil::Date;
use strum::{IntoStaticStr, VariantNames};

use crate::history::Role;
use crate::message::Name;

/// Something done about offices.
#[derive(Debug, Clone, PartialEq, Eq)]
#[derive(IntoStaticStr, VariantNames)]
pub enum OfficeDone {
    /// A second contact is called where nobody on deck is reached, or none any
    /// more.
    SecondContact {
        /// There is one.
        named: bool,
    },
    /// The sender is told of danger where nobody else is reached, or no more.
    StandsBy(bool),
    /// Somebody else is told no more.
    StoodDown {
        /// Who.
        who: Name,
    },
    /// Everybody who holds an office.
    Staff(Vec<StaffLine>),
    /// The squad is joined by another code from now on.
    CodeRenewed {
        /// Which.
        code: String,
    },
    /// A code went to somebody's own address: nothing is done before it is texted.
    CodeSent {
        /// For what.
        what: Grave,
        /// It went to the sender, as against the one it is about.
        mine: bool,
    },
    /// Somebody holds no office any more.
    OutOfOffice {
        /// What they are called, or where they text from.
        who: String,
    },
}

/// One who holds an office, or is called in danger.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StaffLine {
    /// As what; none for one who is only called in danger.
    pub role: Option<Role>,
    /// What they are called, where that is known.
    pub called: Option<Name>,
    /// Where they text from.
    pub address: String,
}

/// Something that is done only once a code has come back.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Grave {
    /// Another coach beside the sender.
    NewCoach {
        /// What they are called, or where they text from.
        who: String,
    },
    /// Another coach in the sender's place.
    HandOver {
        /// To whom.
        to: Name,
    },
    /// Another coach goes.
    CoachGoes {
        /// What they are called, or where they text from.
        who: String,
    },
    /// A welfare officer goes.
    OfficerGoes,
}

/// Why something was not done about offices, names or stops.
#[derive(Debug, Clone, PartialEq, Eq)]
#[derive(IntoStaticStr, VariantNames)]
pub enum OfficeRefusal {
    /// Nobody with an office texts from there.
    NoSuchOffice,
    /// No code is awaited, or it is another one.
    WrongCode,
    /// So many texts to one address are enough.
    AskedOften,
    /// It is a number as it is dialled, which no text comes from.
    Dialled,
    /// A minor is not called in danger.
    Minor,
    /// The name is a word of command.
    CommandWord {
        /// The name.
        name: Name,
        /// Another one.
        instead: Name,
    },
    /// Only letters that look alike tell it from another's.
    LooksAlike {
        /// The name.
        name: Name,
        /// Another one.
        instead: Name,
    },
    /// A stop is not taken back, nor is what was said before it.
    StopStays,
    /// A stop holds for the whole day after a knock to the head.
    NotToday {
        /// Whose.
        who: Name,
        /// It may be lifted from this day on.
        from: Date,
    },
    /// A stop needs the swimmer's word that a clinician cleared it.
    NeedsClearance {
        /// Whose.
        who: Name,
    },
    /// Somebody is asked whether anybody is in danger, and has not answered.
    DangerUnanswered {
        /// Who.
        who: Name,
    },
}

/// What others are told.
#[derive(Debug, Clone, PartialEq, Eq)]
#[derive(IntoStaticStr, VariantNames)]
pub enum OfficeLetter {
    /// To the second contact.
    SecondContact {
        /// Of which squad.
        squad: String,
    },
    /// To the coach: somebody stands by.
    StandsBy {
        /// What they are called, or where they text from.
        who: String,
    },
    /// To the coach: somebody has joined.
    Joined {
        /// Whom.
        who: Name,
        /// Which squad.
        squad: String,
        /// They were stopped here before, by whatever name, and are.
        stopped: bool,
    },
    /// The code that confirms something.
    Code {
        /// What.
        what: Grave,
        /// The code.
        code: String,
        /// Of which squad.
        squad: String,
    },
    /// To the other coaches, once it is done.
    Confirmed {
        /// What.
        what: Grave,
        /// Of which squad.
        squad: String,
    },
    /// To the coach: a result came from somebody who is stopped or ill.
    ResultWhileOut {
        /// From whom.
        who: Name,
        /// As against ill.
        stopped: bool,
    },
}

impl OfficeLetter {
    /// True for a code that goes to the coach who asked for it.
    pub fn is_for_the_coach(&self) -> bool {
        !matches!(self, OfficeLetter::Code { what: Grave::OfficerGoes, .. })
    }
}
