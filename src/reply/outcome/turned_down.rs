//! What could not be read, and what was read and not done.

use jiff::civil::Date;
use strum::{IntoStaticStr, VariantNames};

use super::{CareRefusal, NightLine, OfficeRefusal};
use crate::coaching::RefusalReason;
use crate::message::Name;
use crate::session::{Limit, Part};
use crate::units::Centis;
use crate::units::Distance;

/// A text of which something could not be read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NotUnderstoodReply {
    /// What was understood of it, in words.
    pub understood: Vec<String>,
    /// What was not, as typed.
    pub rest: Unread,
    /// One text that works.
    pub example: String,
}

/// What was wrong with a text.
#[derive(Debug, Clone, PartialEq, Eq)]
#[derive(IntoStaticStr, VariantNames)]
pub enum Unread {
    /// Nothing was in it.
    Empty,
    /// It was too long to be a text.
    TooLong,
    /// It was no text at all.
    NotText,
    /// Something of it, which is not repeated in a room.
    Unsaid,
    /// These words could not be read.
    Words(String),
    /// Prose without a figure: whoever wrote it may be in trouble.
    Prose {
        /// The words.
        words: String,
        /// The number to call for help.
        call: Option<String>,
    },
}

/// Read, and not done.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RefusedReply {
    /// The rule's id.
    pub rule: String,
    /// Why.
    pub why: RefusedWhy,
}

/// Why something was not done.
#[derive(Debug, Clone, PartialEq, Eq)]
#[derive(IntoStaticStr, VariantNames)]
pub enum RefusedWhy {
    /// A rule of coaching.
    Coaching(RefusalReason),
    /// It is the coach's to say.
    CoachOnly,
    /// A swimmer asked what others swim.
    OthersSwims,
    /// Words of health are passed on to nobody: they have a way of their own.
    HealthOtherwise,
    /// Nobody on deck takes texts.
    NobodyReads,
    /// The sender is in no squad.
    NotAMember,
    /// The sender doesn't swim here.
    NotASwimmer,
    /// The code opens no squad, or no longer.
    BadCode,
    /// Another swimmer bears the name.
    NameTaken,
    /// That address belongs to the squad already.
    AlreadyIn,
    /// As many belong to the squad as one can hold.
    SquadFull,
    /// As many are asked in as may be at once.
    ManyAskedIn,
    /// The squad would have no coach.
    LastCoach,
    /// A squad is handed over only to one who stands on deck.
    NotOnDeck {
        /// As typed.
        name: Name,
    },
    /// A day that has not come.
    Future {
        /// The day.
        on: Date,
    },
    /// The squad does not swim on that day.
    NoNight {
        /// Which.
        on: Date,
    },
    /// The pool is shut that night.
    NightShut {
        /// Which.
        on: Date,
        /// The next that is open.
        next: Option<NightLine>,
    },
    /// A time that can't replace another unasked.
    Unlikely {
        /// How far.
        distance: Distance,
        /// In what time.
        time: Centis,
    },
    /// There is no server that could show the squad's page.
    NoBoard,
    /// Nothing is set for tonight.
    NoSet,
    /// Nothing is set for tonight that they could be told.
    NoSetYet,
    /// No such lane tonight.
    NoLane {
        /// Which was meant.
        lane: u8,
    },
    /// The text had more or fewer results than the lane has swimmers.
    LaneOrder {
        /// Which lane.
        lane: u8,
        /// Its swimmers as they lead off.
        names: Vec<Name>,
    },
    /// Tonight's set has no main set.
    NoMainSet,
    /// Nothing of this part of tonight's set is still to come.
    NothingOfPart {
        /// Which part.
        part: Part,
    },
    /// A room hears no names where some are under age.
    NamesOfMinors,
    /// Tonight's set has no rounds.
    NoRounds,
    /// Someone who does not swim tonight, or is in no lane.
    NotLaned {
        /// Who.
        name: Name,
    },
    /// How many lanes there are was never said.
    LaneCount,
    /// Nobody is there to be put into lanes.
    NobodyThere,
    /// Nobody is there to swim a test that night.
    NobodyToTest,
    /// Nothing to undo, fix, repeat or show.
    Nothing,
    /// There is no test to compute from.
    NoTest,
    /// No question is open, or it is too late.
    NoQuestion,
    /// A distance that is no whole lengths of the pool, or too long.
    Distance,
    /// Read, but not something we can do.
    NotYet,
    /// Who looks after whom comes first.
    Care(CareRefusal),
    /// Offices, names, stops.
    Office(OfficeRefusal),
    /// A wish for a weekly text.
    Weekly(super::WeeklyRefusal),
    /// About plans that wait for the coach's yes.
    Approval(super::ApprovalRefusal),
    /// A set with a swimmer's handle in it.
    SetNames {
        /// Whose.
        name: Name,
    },
    /// The deck said it, and takes it back.
    CoachLimit,
    /// The whole squad leaves it out, so it can only be lifted for all at once.
    SquadLimit {
        /// What.
        limits: Vec<Limit>,
    },
    /// Free is never left out: it is what a stroke that is left out is swum as.
    LimitsFree,
    /// Nobody may be told that here.
    Private,
}
