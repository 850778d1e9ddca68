//! What a text is about, as far as it decides who may hear of it.

use strum::VariantArray;

use crate::message::{Fix, Kind, Limits, People, Regular};
use crate::units::every;

/// What a minor's words are about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[derive(VariantArray)]
pub enum Matter {
    /// What is swum, when, how fast; who comes.
    Swimming,
    /// Pain and illness.
    Body,
    /// Words of danger.
    Danger,
    /// Words of harm or fear, of oneself or by others.
    Harm,
    /// The safe word.
    Worried,
    /// Eating, weight, purging.
    Food,
    /// What is between them and a clinician.
    Clinician,
    /// Opting out and in, help, who they are, who answers for them.
    Address,
    /// What was not read.
    Unread,
}

impl Matter {
    /// Every matter.
    pub const ALL: [Matter; Matter::VARIANTS.len()] = every(Matter::VARIANTS);

    /// What a statement is about.
    pub const fn of(kind: &Kind) -> Matter {
        sorted(kind).0
    }
}

/// True for what concerns one swimmer; false for the squad, for the telephone, and for
/// what can't wait.
pub const fn is_personal(kind: &Kind) -> bool {
    sorted(kind).1
}

/// What a statement is about, and whether it concerns one swimmer.
const fn sorted(kind: &Kind) -> (Matter, bool) {
    match kind {
        Kind::Test(_)
        | Kind::TimedTest(_)
        | Kind::SetResult(_)
        | Kind::Done(_)
        | Kind::Missed { .. }
        | Kind::Away { .. }
        | Kind::Plan(_)
        | Kind::Next(_)
        | Kind::Swap { .. }
        | Kind::Shorter
        | Kind::Easier
        | Kind::Harder
        | Kind::Again
        | Kind::Targets { .. }
        | Kind::Predict { .. }
        | Kind::Race { .. }
        | Kind::Trend
        | Kind::Best
        | Kind::Log
        | Kind::Tonight
        | Kind::Attend { .. }
        | Kind::Entry(_)
        | Kind::Entries
        | Kind::RelayLeg(_)
        | Kind::Set(_)
        | Kind::Fix(Fix { was: None, .. }) => (Matter::Swimming, true),
        Kind::Fix(_) | Kind::More | Kind::Undo | Kind::Why => (Matter::Swimming, false),
        Kind::Pain(_) | Kind::Ill { .. } | Kind::Better => (Matter::Body, true),
        Kind::Faint => (Matter::Danger, false),
        Kind::Welfare => (Matter::Harm, false),
        Kind::Profile(_) | Kind::Forget | Kind::People(People::Leave) => (Matter::Address, true),
        Kind::Join { .. } | Kind::People(_) | Kind::Help { .. } | Kind::Stop | Kind::Start => {
            (Matter::Address, false)
        }
        // Words of a swimmer's own making.
        Kind::Ask(_)
        | Kind::Leaves { .. }
        | Kind::Maybe { .. }
        | Kind::Back { .. }
        | Kind::Tired
        | Kind::Goal { .. }
        | Kind::Ability { .. }
        | Kind::Quiet { .. }
        | Kind::OwnTargets { .. }
        | Kind::Swimmer
        | Kind::Regular(Regular::Note | Regular::NoteWanted { .. })
        | Kind::Limits(
            Limits::Kit { .. }
            | Limits::Barred { all: false, .. }
            | Limits::Allowed { all: false, .. },
        ) => (Matter::Unread, true),
        // What only others than a minor say, and what settles a question.
        Kind::Approval(_)
        | Kind::Absent { .. }
        | Kind::Apart { .. }
        | Kind::Board
        | Kind::Change(_)
        | Kind::Choose { .. }
        | Kind::Compare { .. }
        | Kind::Cut(_)
        | Kind::DrawnAs { .. }
        | Kind::Focus { .. }
        | Kind::Gap { .. }
        | Kind::Here { .. }
        | Kind::Hold { .. }
        | Kind::LaneGone
        | Kind::LaneOf { .. }
        | Kind::LaneOrder { .. }
        | Kind::LaneResults(_)
        | Kind::Lanes { .. }
        | Kind::Limits(_)
        | Kind::Meet { .. }
        | Kind::Move { .. }
        | Kind::NamesInRooms { .. }
        | Kind::No
        | Kind::Note { .. }
        | Kind::Pin { .. }
        | Kind::Regular(_)
        | Kind::Release
        | Kind::Reopen { .. }
        | Kind::Restate { .. }
        | Kind::Shut { .. }
        | Kind::Slot(_)
        | Kind::Squad { .. }
        | Kind::SwapLanes { .. }
        | Kind::SwapResults { .. }
        | Kind::Tell { .. }
        | Kind::TestNight { .. }
        | Kind::Yes => (Matter::Unread, false),
    }
}
