//! What is asked back.

use jiff::Timestamp;
use jiff::civil::Date;
use strum::{IntoStaticStr, VariantNames};

use crate::message::Doubt;
use crate::message::Name;
use crate::reply::Withdrawn;
use crate::swim::Trial;
use crate::units::Centis;
use crate::units::Distance;

/// A question that one word settles.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct QuestionReply {
    /// What is asked.
    pub asks: Asks,
    /// The words that settle it.
    pub options: Vec<String>,
    /// The answer is no use after this.
    pub until: Timestamp,
}

/// What can be asked.
#[derive(Debug, Clone, PartialEq, Eq)]
#[derive(IntoStaticStr, VariantNames)]
pub enum Asks {
    /// Something the text itself leaves open.
    Doubt(Doubt),
    /// A time that no one, or not this swimmer, would swim.
    Implausible {
        /// How far.
        distance: Distance,
        /// In what time.
        time: Centis,
    },
    /// A time that nobody swims: what was it?
    Impossible {
        /// How far.
        distance: Distance,
        /// In what time.
        time: Centis,
    },
    /// A grave word in a harmless phrase: is there any danger?
    AnyDanger,
    /// Two readings of a time, both possible.
    TwoReadings {
        /// How far.
        distance: Distance,
        /// One.
        one: Centis,
        /// The other.
        other: Centis,
    },
    /// A longer test swum faster than a shorter one.
    ImpossiblePair {
        /// The new one.
        new: Trial,
        /// The one it can't stand beside.
        old: Trial,
    },
    /// Words that go to all.
    TellAll {
        /// The words.
        text: String,
        /// To how many.
        number: usize,
    },
    /// Nobody here knows: is it to be passed on to those on deck?
    PassOn,
    /// Something about one of several swimmers in a text.
    Of {
        /// Which.
        who: Name,
        /// What.
        asks: Box<Asks>,
    },
    /// No such swimmer here; those with like names.
    WhoIs {
        /// As typed.
        name: Name,
    },
    /// No such swimmer here, and the others named were stored.
    WhoElse {
        /// As typed.
        name: Name,
    },
    /// One of the questions that follow joining.
    Readiness {
        /// Which, counted from 1.
        question: u8,
    },
    /// The sender is to leave.
    Leave {
        /// Which squad.
        squad: String,
    },
    /// Someone's access is to end.
    Remove {
        /// Whose.
        name: Name,
    },
    /// Is this someone else who texts from the same telephone?
    AnotherPerson {
        /// What they are to be called.
        name: Name,
    },
    /// More than one thing is to be taken back, or what is not of the last text.
    TakeBack {
        /// What, and whose.
        what: Vec<(Option<Name>, Withdrawn)>,
        /// A name takes back what is theirs alone.
        singly: bool,
    },
    /// Of those who text from one telephone, who is meant?
    WhichPerson,
    /// Of those who text from one telephone, who is meant? To be texted again.
    SayWho {
        /// Who may be.
        names: Vec<Name>,
    },
    /// Of the sender's squads, which is meant?
    WhichSquad,
    /// All of a swimmer's history is to go.
    Forget,
    /// They said stop, and more: are texts to stop?
    NoTexts {
        /// They are away until then, which is noted.
        away_until: Option<Date>,
    },
}

impl Asks {
    /// True for a question that asks whether what was read is right: after a yes nothing of it
    /// is doubted again. False for one that asks what or who was meant, as that answer may
    /// still be unlikely.
    pub fn confirms(&self) -> bool {
        match self {
            Asks::Of { asks, .. } => asks.confirms(),
            Asks::Doubt(Doubt::Meant { .. } | Doubt::Either { .. }) => true,
            Asks::Doubt(_)
            | Asks::AnyDanger
            | Asks::TwoReadings { .. }
            | Asks::WhoIs { .. }
            | Asks::WhoElse { .. }
            | Asks::WhichPerson
            | Asks::SayWho { .. }
            | Asks::WhichSquad => false,
            Asks::Implausible { .. }
            | Asks::Impossible { .. }
            | Asks::ImpossiblePair { .. }
            | Asks::PassOn
            | Asks::TellAll { .. }
            | Asks::Readiness { .. }
            | Asks::Leave { .. }
            | Asks::Remove { .. }
            | Asks::TakeBack { .. }
            | Asks::AnotherPerson { .. }
            | Asks::Forget
            | Asks::NoTexts { .. } => true,
        }
    }
}
