//! What a message came to: one variant for each `result.kind` of the outside
//! contract.

use jiff::Timestamp;
use jiff::civil::Date;

use crate::coaching::{Outlook, RefusalReason, Rule, SetFeedback, WeekKind};
use crate::language::Language;
use crate::message::{Doubt, Name};
use crate::session::{Repeat, Session};
use crate::swim::Trial;
use crate::swim::critical_speed::Estimate;
use crate::swim::even_pace::Target;
use crate::swim::prediction::Prediction;
use crate::swim::why::Explanation;
use crate::units::{Centis, Course, Distance, Rpe, Weekdays};

/// What a message came to.
#[derive(Debug, Clone, PartialEq)]
pub enum Outcome {
    /// Something to stop for or to be careful of.
    Caution(CautionReply),
    /// A session that was reported.
    Done(DoneReply),
    /// How to talk to us.
    Help(HelpReply),
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

/// A test, stored, and what it says.
#[derive(Debug, Clone, PartialEq)]
pub struct TestReply {
    /// Whose.
    pub swimmer: Name,
    /// True if it is about someone other than the sender.
    pub other: bool,
    /// The test.
    pub trial: Trial,
    /// True if no test of that distance, stroke and course was faster.
    pub personal_best: bool,
    /// The best before, if there was one.
    pub best_before: Option<Centis>,
    /// Even-pace targets.
    pub targets: Vec<Target>,
    /// The critical speed it leads to.
    pub critical: Estimate,
    /// The distance that would tell most, tested next.
    pub test_next: Option<Distance>,
    /// What to swim next; none where a stop is open.
    pub next: Option<Session>,
    /// A stop is open: no praise, only that it is stored.
    pub quiet: bool,
}

/// A repeat set, stored, and what to change next time.
#[derive(Debug, Clone, PartialEq)]
pub struct SetReply {
    /// Whose.
    pub swimmer: Name,
    /// True if it is about someone other than the sender.
    pub other: bool,
    /// The set as it was swum, with the target it was judged by.
    pub set: Repeat,
    /// What came of it.
    pub feedback: SetFeedback,
}

/// A session reported.
#[derive(Debug, Clone, PartialEq)]
pub struct DoneReply {
    /// Whose.
    pub swimmer: Name,
    /// How far.
    pub distance: Option<Distance>,
    /// How long.
    pub duration: Option<Centis>,
    /// How hard it felt.
    pub rpe: Option<Rpe>,
    /// When.
    pub on: Date,
    /// Session load: RPE × minutes, where both are known.
    pub load: Option<u32>,
    /// Metres or yards of the last seven days, this one included.
    pub week: Option<Distance>,
    /// It wasn't swimming.
    pub elsewhere: bool,
}

/// A session to swim.
#[derive(Debug, Clone, PartialEq)]
pub struct SessionReply {
    /// The session.
    pub session: Session,
    /// A caution that belongs with it.
    pub caution: Option<CautionKind>,
}

/// A week to swim.
#[derive(Debug, Clone, PartialEq)]
pub struct PlanReply {
    /// Its first day.
    pub starts: Date,
    /// Its kind.
    pub kind: WeekKind,
    /// The kind that was asked for, where the rules gave another.
    pub asked: Option<WeekKind>,
    /// How far in all.
    pub distance: Distance,
    /// Its sessions.
    pub sessions: Vec<Session>,
    /// The rules that decided.
    pub rules: Vec<String>,
}

/// Times to hold.
#[derive(Debug, Clone, PartialEq)]
pub struct TargetsReply {
    /// The test they come from.
    pub trial: Trial,
    /// The times.
    pub targets: Vec<Target>,
    /// The critical speed.
    pub critical: Estimate,
}

/// A predicted time.
#[derive(Debug, Clone, PartialEq)]
pub struct PredictionReply {
    /// The time, its interval and what it rests on.
    pub prediction: Prediction,
    /// For a race: when it is, and what can be said of it.
    pub race: Option<(Date, Outlook)>,
}

/// The squad at a glance.
#[derive(Debug, Clone, PartialEq)]
pub struct SquadReply {
    /// The squad's name.
    pub squad: String,
    /// Its swimmers.
    pub swimmers: Vec<SquadRow>,
}

/// One line of the squad.
#[derive(Debug, Clone, PartialEq)]
pub struct SquadRow {
    /// Who.
    pub swimmer: Name,
    /// Her last test.
    pub last_test: Option<Trial>,
    /// Her critical pace, seconds per 100.
    pub critical_per_100_s: Option<f64>,
    /// Where she is going.
    pub trend: Trend,
    /// What to look at.
    pub flags: Vec<Flag>,
    /// The day she was last heard from.
    pub last_seen: Option<Date>,
}

/// Where a swimmer's tests are going.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Trend {
    /// Faster, more likely than not to be real.
    Up,
    /// Too close to say.
    Flat,
    /// Slower, more likely than not to be real.
    Down,
    /// Fewer than two tests alike.
    Unknown,
}

/// What a coach should look at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Flag {
    /// No test for six weeks.
    Overdue,
    /// Pain, illness or a stop is open.
    Hurt,
    /// Not heard from for ten days.
    Silent,
}

/// One swimmer at a glance.
#[derive(Debug, Clone, PartialEq)]
pub struct SwimmerReply {
    /// Her line.
    pub row: SquadRow,
    /// Her best time for each distance, stroke and course.
    pub bests: Vec<Trial>,
    /// Her latest tests, latest first.
    pub latest: Vec<Trial>,
    /// The coach's focus.
    pub focus: Option<String>,
}

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
    /// Whom to call for her; said with a danger only.
    pub contact: Option<String>,
    /// Of what.
    pub kind: CautionKind,
}

/// Kinds of caution.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum CautionKind {
    /// Chest pain, fainting, breathing trouble: out of the water now.
    Danger,
    /// A knock to the head: out, watched, no return the same day.
    HeadKnock,
    /// Light dizziness: out, sit, not alone.
    Dizzy,
    /// Any of these three, of someone beside the sender who is not named, or
    /// whose stop is not the sender's to lift.
    Beside {
        /// It is the first of them.
        grave: bool,
        /// The coach texted it: a name with it would stop that swimmer.
        unnamed: bool,
    },
    /// A stop is open: nothing until the coach releases.
    Stopped,
    /// Pain in one place, and its level.
    Pain {
        /// English singular.
        place: String,
        /// 0 to 10; unsaid counts as 5.
        level: u8,
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
    Welfare,
    /// Hard swimming ahead: never alone, when to stop.
    Effort,
    /// Open water: never alone, seen from afar, warm enough.
    OpenWater,
    /// A request for breath-holding.
    BreathHold,
    /// Something of hers that makes her swim easy until a clinician has spoken.
    Easing,
    /// Weight, food, the body.
    Gentle,
    /// A question whether she may swim.
    MaySwim,
    /// Dives.
    Dive,
    /// Swimming with nobody there.
    Alone,
}

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
    /// No such swimmer here; those with like names.
    WhoIs {
        /// As typed.
        name: Name,
    },
    /// One of the questions that follow joining.
    Readiness {
        /// Which, counted from 1.
        question: u8,
    },
    /// All of a swimmer's history is to go.
    Forget,
}

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
pub enum Unread {
    /// Nothing was in it.
    Empty,
    /// It was too long to be a text.
    TooLong,
    /// It was no text at all.
    NotText,
    /// These words could not be read.
    Words(String),
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
pub enum RefusedWhy {
    /// A rule of coaching.
    Coaching(RefusalReason),
    /// It is the coach's to say.
    CoachOnly,
    /// The sender is in no squad.
    NotAMember,
    /// The sender doesn't swim here.
    NotASwimmer,
    /// The code opens no squad, or no longer.
    BadCode,
    /// Another swimmer bears the name.
    NameTaken,
    /// The sender swims here already.
    AlreadyJoined {
        /// Under this name.
        name: Name,
    },
    /// In a squad with minors a grown-up joins first.
    GuardianFirst,
    /// A day that has not come.
    Future {
        /// The day.
        on: Date,
    },
    /// A time that can't replace another unasked.
    Unlikely {
        /// How far.
        distance: Distance,
        /// In what time.
        time: Centis,
    },
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
    /// Nobody may be told that here.
    Private,
}

/// Done, with nothing to compute.
#[derive(Debug, Clone, PartialEq)]
pub enum OkReply {
    /// She is in.
    Joined {
        /// Under this name.
        name: Name,
        /// In this squad.
        squad: String,
        /// The readiness questions follow.
        ask_readiness: bool,
        /// The first of them stands in this reply.
        questions: bool,
    },
    /// A setting was stored.
    Profile(Vec<Set>),
    /// A message was taken back: what it had stored.
    Undone {
        /// One a record.
        what: Vec<Withdrawn>,
    },
    /// A time was put right.
    Fixed {
        /// Of this test.
        trial: Trial,
        /// It was this before.
        before: Centis,
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
    /// Away until then.
    Away {
        /// The first day back.
        until: Date,
    },
    /// All well again; the next session starts gently.
    Better,
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
    /// Something was noted of someone.
    Noted {
        /// Of whom.
        who: Name,
    },
    /// Held to easy swimming.
    Held {
        /// Who.
        who: Name,
    },
    /// Released.
    Released {
        /// Who.
        who: Name,
        /// From a stop, and she has not said that a clinician has cleared her.
        on_word: bool,
        /// And from now on she may swim hard.
        cleared: bool,
    },
    /// The questions on joining are answered, all with a clear no or not.
    ReadinessAnswered {
        /// She may swim hard.
        clear: bool,
    },
    /// Whom to call in an emergency was kept.
    ContactKept,
    /// She says that a clinician has cleared her; the coach is told.
    ClearanceNoted,
    /// What had not fitted.
    More {
        /// The lines.
        lines: Vec<String>,
    },
    /// A question was answered with no.
    LeftAlone,
    /// A history was erased.
    Forgotten {
        /// Whose.
        who: Name,
    },
    /// No more texts.
    OptedOut,
    /// Texts again.
    OptedIn,
    /// A greeting or thanks.
    Greeting,
    /// Nothing is said: it was not for us.
    Silent,
}

/// A record that was taken back.
#[derive(Debug, Clone, PartialEq)]
pub enum Withdrawn {
    /// A test.
    Test(Trial),
    /// A set.
    Set(Repeat),
    /// A session, of that day.
    Session(Date),
    /// A correction or a setting: what it was before holds again.
    Change,
}

/// A setting, as stored.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Set {
    /// Her pool.
    Course(Course),
    /// Her days.
    Days(Weekdays),
    /// Sessions a week.
    Sessions(u8),
    /// Minutes a session.
    Minutes(u16),
    /// Year of birth.
    Born(i16),
    /// Her language.
    Language(Language),
    /// The unit she speaks in.
    Units(crate::units::Unit),
}

/// How to talk to us.
#[derive(Debug, Clone, PartialEq)]
pub enum HelpReply {
    /// In general, for a swimmer.
    Swimmer,
    /// In general, for a coach.
    Coach,
    /// For someone we don't know.
    Stranger,
    /// On one topic.
    Topic(Topic),
    /// Why the last answer was as it was.
    Why {
        /// The formulas, with the swimmer's own numbers.
        explanations: Vec<Explanation>,
        /// The rules that decided.
        rules: Vec<Rule>,
    },
}

/// What help can be about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Topic {
    /// Tests.
    Test,
    /// Sets.
    Set,
    /// Sessions done.
    Done,
    /// Plans and the next session.
    Plan,
    /// Pain and illness.
    Pain,
    /// Settings.
    Profile,
    /// The coach's words.
    Squad,
    /// Repairs.
    Fix,
}
