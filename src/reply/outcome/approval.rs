//! Plans that wait for the coach's yes.

use super::PlanReply;
use crate::message::Name;
use crate::units::Distance;

/// About plans that wait for the coach's yes.
#[derive(Debug, Clone, PartialEq)]
pub enum ApprovalReply {
    /// Whether plans wait from now on.
    Wish {
        /// They do.
        wanted: bool,
        /// What became of those that waited until now.
        answered: Answered,
    },
    /// Whose plans wait.
    List {
        /// Plans wait at all.
        wanted: bool,
        /// Those that do.
        waiting: Vec<WaitingLine>,
    },
    /// Plans went out.
    Given(Answered),
    /// A plan was sent back.
    SentBack {
        /// Whose.
        who: Name,
        /// They were told.
        told: bool,
    },
    /// The sender's own plan waits.
    Waits {
        /// Until then their last plan goes on.
        planned: bool,
    },
    /// To the swimmer: their plan.
    ToSwimmer(PlanLetter),
}

/// What a swimmer is told of their plan.
#[derive(Debug, Clone, PartialEq)]
pub enum PlanLetter {
    /// It goes out.
    Given {
        /// The week.
        plan: Box<PlanReply>,
        /// It is less than they asked for, as something came up.
        lowered: bool,
    },
    /// It was sent back.
    SentBack {
        /// Until the next their last plan goes on.
        planned: bool,
    },
    /// The yes was taken back.
    WaitsAgain,
}

/// What became of plans that waited.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Answered {
    /// Whose went out.
    pub given: Vec<Name>,
    /// Of them, those whose was lowered first.
    pub lowered: Vec<Name>,
    /// Of them, those who can't be told by text.
    pub untold: Vec<Name>,
    /// Whose plans go on waiting, as they may not swim.
    pub stopped: Vec<Name>,
}

/// One plan that waits.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WaitingLine {
    /// Whose.
    pub who: Name,
    /// How far in all.
    pub distance: Distance,
    /// How many sessions.
    pub sessions: usize,
    /// How many of them are hard.
    pub hard: usize,
}

/// Why a plan was not answered, or more not given.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ApprovalRefusal {
    /// No plan of theirs waits.
    NothingWaits {
        /// Whose.
        who: Name,
    },
    /// Harder sessions come after the coach's yes.
    AfterYes,
}
