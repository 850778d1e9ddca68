//! What a message came to: one variant for each `result.kind` of the outside
//! contract.

mod answers;
mod approval;
mod belonging;
mod care;
mod done;
mod evening;
mod gates;
mod help;
mod lanes;
mod limits;
mod meets;
mod offices;
mod own_targets;
mod people;
mod question;
mod questions;
mod register;
mod results;
mod safeguards;
mod sessions;
mod test_night;
mod timetable;
mod turned_down;
mod weekly;

use strum::{IntoStaticStr, VariantNames};

pub use answers::{Answer, Coming, HoldLine, MeanOf, RankLine, TotalLine};
pub use approval::{Answered, ApprovalRefusal, ApprovalReply, PlanLetter, WaitingLine};
pub use belonging::Belonging;
pub use care::{Alert, CautionKind, CautionReply};
pub use done::{OkReply, Set, SetFixedReply, Withdrawn};
pub use evening::{
    ChangedReply, Ends, EveningReply, LaneChange, LaneNow, LaneReply, LanesChangedReply,
    OwnTargets, TooLong,
};
pub use gates::{KeptReply, Out};
pub use help::{HelpReply, Topic, WhyMain};
pub use lanes::LanesReply;
pub use limits::LimitsReply;
pub use meets::{EntryLine, EntryReply, EntryTime, MeetReply};
pub use offices::{Grave, OfficeDone, OfficeLetter, OfficeRefusal, StaffLine};
pub use own_targets::OwnTargetsReply;
pub use people::{Flag, OwnPage, SquadReply, SquadRow, SwimmerReply, Trend};
pub use question::{Asks, QuestionReply};
pub use questions::{
    Known, LaneStanding, ResultLine, StandingReply, Swam, SwumReply, TestDue, Unknown,
};
pub use register::{AttendReply, NightReply, RegisterReply};
pub use results::{BegunReply, DoneReply, PredictionReply, SetReply, TargetsReply, TestReply};
pub use safeguards::{CareDone, CareLetter, CareRefusal, RecordLine, SeenLine};
pub use sessions::{News, PlanReply, SessionReply};
pub use test_night::{HeatOfReply, TestNightReply};
pub use timetable::{NightLine, SetFate, ShutReply, When};
pub use turned_down::{NotUnderstoodReply, RefusedReply, RefusedWhy, Unread};
pub use weekly::{DigestReply, NoteReply, WeeklyRefusal, WeeklyReply};

/// What a message came to.
#[derive(Debug, Clone, PartialEq)]
#[derive(IntoStaticStr, VariantNames)]
pub enum Outcome {
    /// Several swimmers' results in one text, one outcome a statement.
    Captured(Vec<Outcome>),
    /// Swimmers side by side.
    Compared(Vec<SwimmerReply>),
    /// Something to stop for or to be careful of.
    Caution(CautionReply),
    /// A session that was reported.
    Done(DoneReply),
    /// The set of a night, by lanes.
    Evening(EveningReply),
    /// How to talk to us.
    Help(HelpReply),
    /// A result that is stored and nothing more.
    Kept(KeptReply),
    /// Who swims in which lane.
    Lanes(LanesReply),
    /// Several statements, one outcome each.
    Mixed(Vec<Outcome>),
    /// Nothing could be made of it.
    NotUnderstood(NotUnderstoodReply),
    /// Done, with nothing to compute.
    Ok(OkReply),
    /// A week.
    Plan(PlanReply),
    /// A time to come.
    Prediction(PredictionReply),
    /// To be settled by one word.
    Question(QuestionReply),
    /// Read, and not done.
    Refused(RefusedReply),
    /// A session to swim.
    Session(SessionReply),
    /// A set that was reported.
    Set(SetReply),
    /// The squad at a glance.
    Squad(SquadReply),
    /// One swimmer at a glance.
    Swimmer(SwimmerReply),
    /// Times to hold.
    Targets(TargetsReply),
    /// A test that was reported.
    Test(TestReply),
}

impl Outcome {
    /// What several statements came to; of one, that alone.
    pub fn of_all(mut outcomes: Vec<Outcome>) -> Outcome {
        match outcomes.len() {
            1 => outcomes.remove(0),
            _ => Outcome::Mixed(outcomes),
        }
    }

    /// What it is made of: the outcomes of several statements, or itself.
    pub fn parts(&self) -> &[Outcome] {
        match self {
            Outcome::Mixed(several) | Outcome::Captured(several) => several,
            one => std::slice::from_ref(one),
        }
    }
}
