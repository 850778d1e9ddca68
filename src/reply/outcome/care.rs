//! What to stop for or to be careful of, and who is told.

use strum::{IntoStaticStr, VariantNames};

use crate::message::{Danger, Name};

/// Something to stop for, or to be careful of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CautionReply {
    /// Which.
    pub kind: CautionKind,
    /// Whose, if another's.
    pub about: Option<Name>,
}

/// Something a coach is told unasked.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Alert {
    /// Of whom; unknown where the text named nobody we know.
    pub who: Option<Name>,
    /// Who texted it, if another.
    pub by: Option<Name>,
    /// Whom to call for them; said with a danger only.
    pub contact: Option<String>,
    /// Of what.
    pub kind: CautionKind,
}

impl CautionKind {
    /// True where someone is in danger.
    pub const fn is_danger(&self) -> bool {
        matches!(self, CautionKind::Danger { .. } | CautionKind::Beside { .. })
    }

    /// True where words of harm or fear are answered.
    pub const fn is_welfare(&self) -> bool {
        matches!(self, CautionKind::Welfare { .. })
    }
}

/// Kinds of caution.
#[derive(Debug, Clone, PartialEq, Eq)]
#[derive(IntoStaticStr, VariantNames)]
pub enum CautionKind {
    /// The sender, or the swimmer whom the sender may stop, is in danger: the
    /// first act of its kind.
    Danger {
        /// Of what kind.
        danger: Danger,
        /// The number to call; the emergency number where it isn't known.
        call: Option<String>,
    },
    /// The same of someone beside the sender who is not named, or whose stop is
    /// not the sender's to lift.
    Beside {
        /// Of what kind.
        danger: Danger,
        /// The coach texted it: a name with it would stop that swimmer.
        unnamed: bool,
        /// The number to call.
        call: Option<String>,
    },
    /// A stop is open: nothing until the coach releases.
    Stopped,
    /// Nothing more to be swum today: ill, or in such pain that it ends the evening.
    DoneToday,
    /// Pain in one place, and its level.
    Pain {
        /// English singular.
        place: String,
        /// 0 to 10, if it was said.
        level: Option<u8>,
        /// The second report of the place in 14 days.
        again: bool,
    },
    /// Illness, perhaps with fever, perhaps of the stomach.
    Ill {
        /// With fever or a chest infection.
        fever: bool,
        /// Of the stomach.
        stomach: bool,
    },
    /// Words of harm or fear.
    Welfare {
        /// The welfare officer is told that they wrote.
        officer: bool,
        /// It is about someone beside the sender.
        of_another: bool,
        /// The emergency number, where it is known.
        call: Option<String>,
        /// Whom to call, as the club wants it told.
        helpline: Option<String>,
    },
    /// Hard swimming ahead: never alone, when to stop.
    Effort,
    /// Open water: never alone, seen from afar, warm enough.
    OpenWater,
    /// A request for breath-holding.
    BreathHold,
    /// Something of theirs that makes them swim easy until a clinician has spoken.
    Easing,
    /// Weight, food, the body.
    Gentle,
    /// A medicine, an operation, a period.
    Clinician,
    /// Low spirits, a death: a kind word, and whom to talk to.
    Low {
        /// The emergency number, where it is known.
        call: Option<String>,
        /// Whom to call, as the club wants it told.
        helpline: Option<String>,
    },
    /// Fear of the water, or panic in it.
    Afraid,
    /// A question whether they may swim.
    MaySwim {
        /// It names what may be a sign of danger.
        worries: bool,
    },
    /// Words that may be of somebody's health or safety: where help is.
    WhereHelpIs {
        /// The emergency number, where it is known.
        call: Option<String>,
    },
    /// Dives.
    Dive,
    /// Swimming with nobody there.
    Alone,
    /// Everybody leaves the water: an alarm, an evacuation.
    EverybodyOut {
        /// How many are marked here tonight; 0 where the sender may not know.
        here: usize,
    },
}
