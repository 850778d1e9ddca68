//! What was done, with nothing to compute.

use jiff::civil::Date;
use strum::{IntoStaticStr, VariantNames};

use super::{
    BegunReply, CareDone, ChangedReply, EntryReply, Known, MeetReply, OfficeDone, TestNightReply,
};
use crate::coaching::Ability;
use crate::language::Language;
use crate::message::Name;
use crate::session::Repeat;
use crate::swim::Trial;
use crate::units::Centis;
use crate::units::Course;
use crate::units::Distance;
use crate::units::Lane;
use crate::units::Weekdays;

/// Done, with nothing to compute.
#[derive(Debug, Clone, PartialEq)]
#[derive(IntoStaticStr, VariantNames)]
pub enum OkReply {
    /// They are in.
    Joined {
        /// Under this name.
        name: Name,
        /// In this squad.
        squad: String,
        /// The readiness questions follow.
        ask_readiness: bool,
        /// The first of them stands in this reply.
        questions: bool,
        /// Minors swim in it: the year of birth comes next.
        minors: bool,
        /// The squad has no welfare officer yet: it has to wait for one.
        closed: bool,
    },
    /// A setting was stored.
    Profile(Vec<Set>),
    /// A message was taken back: what it had stored.
    Undone {
        /// One a record, with whose it was where it is not the sender's own.
        what: Vec<(Option<Name>, Withdrawn)>,
    },
    /// A time was put right.
    Fixed {
        /// Whose, where it is not the sender's own.
        who: Option<Name>,
        /// Of this test.
        trial: Trial,
        /// It was this before.
        before: Centis,
    },
    /// A set was put right.
    SetFixed(Box<SetFixedReply>),
    /// Someone was entered for a race, or taken out again.
    Entered(EntryReply),
    /// A leg of a relay was stored, apart from flat starts.
    Leg {
        /// Whose; none for the sender's own.
        who: Option<Name>,
        /// The leg.
        leg: crate::history::FlyingLeg,
    },
    /// A meet was named.
    Meet(MeetReply),
    /// The meets to come and their entries.
    Entries(Vec<MeetReply>),
    /// It was told how tests began.
    Begun(BegunReply),
    /// Two results changed places: whose they are now.
    ResultsSwapped {
        /// Each with the swimmer it is now.
        now: [(Name, Trial); 2],
    },
    /// The coach's words were passed on.
    Told {
        /// To whom; none for all.
        who: Option<Name>,
        /// To how many.
        number: usize,
        /// Minors to whom nothing goes, as a guardian and a second grown-up must
        /// read along and can't.
        left_out: Vec<Name>,
    },
    /// A result was moved to another.
    Moved {
        /// To whom.
        to: Name,
    },
    /// A session was missed.
    Missed {
        /// When.
        on: Date,
    },
    /// Evenings of the squad, as stored or as they are; none.
    Timetable(Vec<super::NightLine>),
    /// Nights that are off.
    Shut(Vec<super::ShutReply>),
    /// Someone said whether they come.
    Attend(super::AttendReply),
    /// The squad's page is open to the sender.
    Board {
        /// Where.
        url: String,
        /// For so many hours.
        hours: i64,
    },
    /// Someone came, went, or runs the squad now.
    Belonging(super::Belonging),
    /// The register was taken, or is shown.
    Register(super::RegisterReply),
    /// Away until then.
    Away {
        /// The first day away, where it isn't today.
        from: Option<Date>,
        /// The first day back.
        until: Date,
    },
    /// All well again; the next session starts gently.
    Better {
        /// After illness: the first day after the clear days.
        from: Option<Date>,
    },
    /// Two days of the week were changed for each other.
    Swapped {
        /// The sessions' days now, and whether each is hard.
        days: Vec<(Date, bool)>,
    },
    /// A race was noted.
    Race {
        /// When.
        on: Date,
        /// How far.
        distance: Distance,
    },
    /// The coach keeps someone in a lane, or no longer.
    Pinned {
        /// Who.
        who: Name,
        /// The lane; none for any.
        lane: Option<Lane>,
    },
    /// About a text that comes every week.
    Weekly(super::WeeklyReply),
    /// About plans that wait for the coach's yes.
    Approval(super::ApprovalReply),
    /// The heats of a test night.
    TestNight(TestNightReply),
    /// The times that a swimmer is to hold by the coach's word.
    OwnTargets(super::OwnTargetsReply),
    /// What somebody leaves out from now on.
    Limits(super::LimitsReply),
    /// Some share no lane, or may again.
    Parted {
        /// Who.
        names: Vec<Name>,
        /// False where they may again.
        apart: bool,
    },
    /// A room may hear who swims in which lane, or may not.
    NamesInRooms {
        /// It may.
        shown: bool,
    },
    /// Something was noted of someone.
    Noted {
        /// Of whom.
        who: Name,
    },
    /// Something was noted that changes no session by itself.
    Remarked {
        /// Of whom, where it is not the sender.
        of: Option<Name>,
        /// What, in the grammar's words.
        text: String,
    },
    /// How far somebody can swim bounds what they are set.
    Able {
        /// Who, where it is not the sender.
        of: Option<Name>,
        /// How far.
        ability: Ability,
    },
    /// Somebody slept badly or is worn out: the swim right ahead is less.
    Tired {
        /// Who, where it is not the sender.
        of: Option<Name>,
    },
    /// What is known of what was asked.
    Known(Known),
    /// A question that we have no answer to.
    NotKnown,
    /// A swimmer's words went to those on deck.
    GivenToDeck,
    /// Held to easy swimming.
    Held {
        /// Who.
        who: Name,
    },
    /// Released.
    Released {
        /// Who.
        who: Name,
        /// From a stop, and they have not said that a clinician has cleared them.
        on_word: bool,
        /// From now on they may also swim hard.
        cleared: bool,
    },
    /// The questions on joining are answered, all with a clear no or not.
    ReadinessAnswered {
        /// They may swim hard.
        clear: bool,
    },
    /// Whom to call in an emergency was kept.
    ContactKept,
    /// They say that a clinician has cleared them; the coach is told.
    ClearanceNoted {
        /// They are stopped until the coach releases them.
        stopped: bool,
    },
    /// Tonight's set was changed.
    SetChanged(ChangedReply),
    /// Who swims where tonight was changed.
    LanesChanged(super::LanesChangedReply),
    /// Someone's heat on a test night.
    HeatOf(super::HeatOfReply),
    /// They swim no more that night, or not at all.
    NotTonight {
        /// Who, where it is another than the sender.
        who: Option<Name>,
        /// The night.
        on: Date,
        /// They were there.
        done: bool,
    },
    /// Something about who looks after whom.
    Care(CareDone),
    /// Something done about who holds an office, or is called in danger.
    Office(OfficeDone),
    /// What had not fitted.
    More {
        /// The lines.
        lines: Vec<String>,
    },
    /// A question was answered with no.
    LeftAlone,
    /// A history was erased; names nobody.
    Forgotten,
    /// No more texts.
    OptedOut,
    /// Texts again.
    OptedIn,
    /// A greeting.
    Greeting,
    /// Thanks.
    Thanks,
    /// Small talk: nothing of it is kept.
    Chat,
    /// Nothing is said: it was not for us.
    Silent,
}

/// A record that was taken back.
#[derive(Debug, Clone, PartialEq, Eq)]
#[derive(IntoStaticStr, VariantNames)]
pub enum Withdrawn {
    /// A test.
    Test(Trial),
    /// A set.
    Set(Repeat),
    /// A session, of that day.
    Session(Date),
    /// The register, or a part of it, of that night.
    Register(Date),
    /// The set of that night.
    SquadSet(Date),
    /// A change to it on the way.
    SetChange(Date),
    /// Who swims where that night.
    Lanes(Date),
    /// That the pool is shut that night.
    Shut(Date),
    /// Another change of that night.
    Night(Date),
    /// A change of every week's nights.
    Timetable,
    /// Whether the weekly digest comes, and when.
    Digest,
    /// Whether the note of the week comes.
    Note,
    /// What was put right of a set: it stands again as it was, which this is.
    SetPutRight(Repeat),
    /// What was put right of a test: it stands again as it was, which this is.
    PutRight(Trial),
    /// A correction or a setting: what it was before holds again.
    Change,
}

/// A set that was put right.
#[derive(Debug, Clone, PartialEq)]
pub struct SetFixedReply {
    /// What it comes to now.
    pub swum: super::SetReply,
    /// The repeats that changed, counted from 1: as they were and as they are; none for a
    /// missed one.
    pub changes: Vec<(usize, Option<Centis>, Option<Centis>)>,
}

/// A setting, as stored.
#[derive(Debug, Clone, PartialEq, Eq)]
#[derive(IntoStaticStr, VariantNames)]
pub enum Set {
    /// Their pool.
    Course(Course),
    /// Their days.
    Days(Weekdays),
    /// Sessions a week.
    Sessions(u8),
    /// Minutes a session.
    Minutes(u16),
    /// Year of birth.
    Born(i16),
    /// Their language.
    Language(Language),
    /// The unit they speak in.
    Units(crate::units::Unit),
}
