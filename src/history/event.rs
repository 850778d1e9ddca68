//! What can happen, in the past tense, as one table: an event a row, with the envelope it is stored
//! in. No logic stands here.

use jiff::Timestamp;
use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::{
    Attendance, CareKind, Confirmation, DigestWish, DrawnEarlier, EveningKept, FlyingLeg,
    Invitation, Parting, ProfileSetting, QuestionKept, RaceEntry, ReadWhat, Reasons, Role, SaidAt,
    SetEarlier, StopKept, SwappedTest, TestKept, TimetableChange, TroubleKind, Unasked, Unnamed,
};
use crate::coaching::{
    Ability, OtherTraining, OwnTarget, Promise, Race, SetSwum, Swum, WeekPlanned, WeekWish,
};
use crate::language::Language;
use crate::message::Name;
use crate::session::{Limit, Session};
use crate::units::{Centis, Course, Distance, Equipment, Lane, Pace, Start};

/// An event with the message that caused it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Stamped {
    /// The number of that message within its squad.
    pub cause: u64,
    /// The instant that counts as now for it.
    pub at: Timestamp,
    /// The address it came from.
    pub by: String,
    /// What happened.
    pub event: Event,
}

/// What can happen to a squad and to those in it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", tag = "event")]
pub enum Event {
    /// A squad was opened.
    SquadOpened {
        /// Its name.
        name: String,
        /// The coach's address.
        coach: String,
        /// An IANA time zone.
        timezone: String,
        /// Its pool.
        course: Course,
        /// The code to join by.
        code: String,
        /// When the code stops working.
        expires: Option<Timestamp>,
        /// Minors swim in it.
        minors: bool,
        /// The club has screened its members.
        ready: bool,
    },
    /// Someone joined by the code.
    Joined {
        /// Their address.
        address: String,
        /// Their handle.
        name: Name,
    },
    /// An address got another role, or its first.
    RoleGiven {
        /// Which.
        address: String,
        /// What it is now.
        role: Role,
        /// What they are called, where an invitation said so.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        called: Option<Name>,
    },
    /// A coach asked someone in.
    Invited {
        /// At which address.
        address: String,
        /// As what, and until when.
        invitation: Invitation,
    },
    /// An invitation was declined.
    InvitationClosed {
        /// At which address.
        address: String,
    },
    /// A coach took in someone without a telephone.
    GuestAdded {
        /// Their handle.
        name: Name,
        /// What their pace is taken to be.
        guess: Option<Pace>,
        /// The code that makes their history a telephone's own.
        code: String,
    },
    /// A guest's history became that of a telephone.
    Claimed {
        /// Its address.
        address: String,
        /// The guest.
        name: Name,
    },
    /// A swimmer left or was taken out; their history stays.
    SwimmerLeft {
        /// Who.
        who: Name,
    },
    /// An address is nobody's in the squad any more.
    AccessEnded {
        /// Which.
        address: String,
    },
    /// Of several squads, an address means this one until it says otherwise.
    SquadTaken {
        /// Which address.
        address: String,
    },
    /// A text waits for the name of the squad it is for.
    SquadAsked {
        /// From which address.
        address: String,
        /// What it says.
        text: String,
        /// The answer is no use after this.
        until: Timestamp,
    },
    /// An address asked for no more texts.
    OptedOut {
        /// Which.
        address: String,
    },
    /// An address asked for texts again.
    OptedIn {
        /// Which.
        address: String,
    },
    /// A swim against the clock.
    TestSwum {
        /// By whom.
        who: Name,
        /// The swim.
        test: TestKept,
    },
    /// A repeat set with its result.
    SetSwum {
        /// By whom.
        who: Name,
        /// The set.
        set: SetSwum,
    },
    /// A session in the water.
    SessionSwum {
        /// By whom.
        who: Name,
        /// The session.
        swum: Swum,
    },
    /// Training out of the water.
    OtherTrained {
        /// By whom.
        who: Name,
        /// The training.
        training: OtherTraining,
    },
    /// A session was not swum.
    SessionMissed {
        /// By whom.
        who: Name,
        /// The day.
        on: Date,
    },
    /// The squad's evenings were changed.
    TimetableChanged {
        /// The day it is for, or from which it holds.
        on: Date,
        /// What changed.
        change: TimetableChange,
    },
    /// An address was told something unasked.
    #[serde(alias = "count_said")]
    SaidUnasked {
        /// Which.
        address: String,
        /// What.
        #[serde(default)]
        what: Unasked,
        /// The night it is about, or the day it fell due.
        on: Date,
        /// When; none in what was stored before it was kept.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        said: Option<SaidAt>,
    },
    /// Somebody said whether and when they are told of the squad's week.
    DigestWished {
        /// From which address.
        address: String,
        /// What they said.
        wish: DigestWish,
    },
    /// Somebody who doesn't swim chose the language of what they are told.
    LanguageChosen {
        /// From which address.
        address: String,
        /// Which.
        language: Language,
    },
    /// What somebody can't or may not do, whole.
    LimitsSet {
        /// Who; the whole squad where none.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        who: Option<Name>,
        /// Said by those on deck, as against themselves.
        deck: bool,
        /// All that holds from now on.
        limits: Vec<Limit>,
    },
    /// The kit that a swimmer has, whole.
    KitSet {
        /// Who.
        who: Name,
        /// All of it.
        kit: Vec<Equipment>,
    },
    /// The times to hold that the coach set in place of the computed ones, whole;
    /// none where they come from the test again.
    OwnTargetsSet {
        /// Whose.
        who: Name,
        /// All that hold from now on.
        targets: Vec<OwnTarget>,
    },
    /// A swimmer said whether they are told of their week.
    WeeklyNoteWished {
        /// Who.
        who: Name,
        /// On.
        wanted: bool,
    },
    /// A page of the squad was opened to an address, or one swimmer's own.
    BoardOpened {
        /// Which address.
        address: String,
        /// Whose own; none for the squad's.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        of: Option<Name>,
        /// The digest of the page's token.
        token: String,
        /// By the wall clock the page is shut after this.
        until: Timestamp,
        /// The language it was asked for in.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        language: Option<Language>,
    },
    /// A calendar that lasts was opened to an address, of the squad or one swimmer's
    /// own; an earlier one of the same is shut.
    CalendarOpened {
        /// Which address.
        address: String,
        /// Whose own; none for the squad's.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        of: Option<Name>,
        /// The digest of its token.
        token: String,
    },
    /// It was shut.
    CalendarShut {
        /// Which address's.
        address: String,
        /// Whose own; none for the squad's.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        of: Option<Name>,
    },
    /// They said whether they come.
    AttendanceSaid {
        /// Who.
        who: Name,
        /// On which night.
        on: Date,
        /// What they said.
        attendance: Attendance,
    },
    /// The coach saw them at the pool.
    MarkedHere {
        /// Whom.
        who: Name,
        /// On which night.
        on: Date,
    },
    /// The coach looked for them at the pool, and they were not there.
    MarkedAbsent {
        /// Whom.
        who: Name,
        /// On which night.
        on: Date,
    },
    /// Away for a time.
    WentAway {
        /// Who.
        who: Name,
        /// The first day away, where it isn't the day on which it was said.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        from: Option<Date>,
        /// The first day back.
        until: Date,
    },
    /// Pain, illness, faintness, a hold.
    TroubleOpened {
        /// Whose.
        who: Name,
        /// What.
        trouble: TroubleKind,
    },
    /// All pain and illness is over, by their own word.
    Recovered {
        /// Who.
        who: Name,
        /// The illness that clear days follow, by the message that told of it, and
        /// their end; of several on one day the first.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        clear: Vec<(u64, Timestamp)>,
    },
    /// One of the questions on joining was answered.
    ReadinessAnswered {
        /// By whom.
        who: Name,
        /// Which, counted from 1.
        question: u8,
        /// Not with a clear no.
        concern: bool,
    },
    /// They named whom to call in an emergency.
    ContactSet {
        /// Whose.
        who: Name,
        /// A telephone number, as typed.
        contact: String,
    },
    /// They say that a clinician has cleared them.
    ClearanceSaid {
        /// Who.
        who: Name,
    },
    /// The coach lifted a stop or a hold.
    Released {
        /// Who.
        who: Name,
    },
    /// Something they say of themselves.
    ProfileSet {
        /// Who.
        who: Name,
        /// What.
        setting: ProfileSetting,
    },
    /// A race was named.
    RaceSet {
        /// Whose.
        who: Name,
        /// The race.
        race: Race,
    },
    /// Someone was entered for a race, or taken out again.
    EntrySet {
        /// Whom.
        who: Name,
        /// For what.
        entry: RaceEntry,
    },
    /// A leg of a relay that began with a takeover.
    LegSwum {
        /// By whom.
        who: Name,
        /// When.
        on: Date,
        /// The leg.
        leg: FlyingLeg,
    },
    /// A meet was named.
    MeetSet {
        /// Its day.
        on: Date,
        /// Its pool, where that was said.
        course: Option<Course>,
    },
    /// The coach named one thing to work on.
    FocusSet {
        /// Whose.
        who: Name,
        /// In the coach's words.
        text: String,
    },
    /// The coach noted something of someone.
    Noted {
        /// Of whom.
        who: Name,
        /// In the coach's words.
        text: String,
    },
    /// Someone said how far they can swim.
    AbilitySaid {
        /// Who.
        who: Name,
        /// How far.
        ability: Ability,
    },
    /// Someone said that they slept badly or are worn out.
    FeltTired {
        /// Who.
        who: Name,
    },
    /// A session was suggested.
    SessionSuggested {
        /// To whom.
        who: Name,
        /// The session.
        session: Session,
    },
    /// A reply promised something of a session to come; none where that is over.
    Promised {
        /// To whom.
        who: Name,
        /// What.
        promise: Option<Promise>,
    },
    /// A week was planned.
    WeekPlanned {
        /// For whom.
        who: Name,
        /// The week.
        week: WeekPlanned,
        /// Its sessions, whole.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        sessions: Vec<Session>,
    },
    /// The coach said whether plans wait for a yes before they go out.
    ApprovalSet {
        /// They do.
        wanted: bool,
    },
    /// The coach said whether a room may hear who swims in which lane.
    NamesInRoomsSet {
        /// It may.
        shown: bool,
    },
    /// A week was written that waits for the coach's yes.
    WeekWaits {
        /// For whom.
        who: Name,
        /// What was asked.
        wish: WeekWish,
        /// The week.
        week: WeekPlanned,
        /// Its sessions, whole.
        sessions: Vec<Session>,
    },
    /// A week that waited waits no more; one that was given is planned besides.
    WeekSettled {
        /// Whose.
        who: Name,
        /// The coach's yes or no; none where another took its place.
        yes: Option<bool>,
    },
    /// An evening came to be, or is another from now on.
    EveningPut {
        /// The evening, whole.
        evening: EveningKept,
    },
    /// The set of a night, as it was written before an evening was one value.
    SquadSetPut {
        /// The set.
        set: SetEarlier,
    },
    /// The lanes of a night, as they were written before an evening was one value.
    LanesDrawn {
        /// The lanes.
        drawn: DrawnEarlier,
    },
    /// A coach's word on an evening that is kept no more.
    Remarked {
        /// In the grammar's words.
        text: String,
    },
    /// A test night was called.
    TestNightCalled {
        /// The night.
        on: Date,
        /// How far is swum.
        distance: Distance,
    },
    /// The coach put a swimmer into one lane, or let them swim in any again.
    LanePinned {
        /// Who.
        who: Name,
        /// The lane; none for any.
        lane: Option<Lane>,
    },
    /// The coach said who shares no lane, or may again.
    LanesParted {
        /// Who, and which.
        parting: Parting,
    },
    /// Something was asked and waits for its answer.
    QuestionAsked {
        /// Of which address.
        address: String,
        /// The question.
        question: QuestionKept,
    },
    /// A question waits until the one before it is settled.
    QuestionQueued {
        /// Of which address.
        address: String,
        /// The question.
        question: QuestionKept,
    },
    /// All that was asked is forgotten.
    QuestionsDropped {
        /// Of which address.
        address: String,
    },
    /// The open question is settled, one way or another.
    QuestionClosed {
        /// Of which address.
        address: String,
        /// The swimmer whose result was given meanwhile: what is asked about
        /// another stays open.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        about: Option<Name>,
    },
    /// What did not fit into a reply waits for `more`.
    MoreKept {
        /// For which address.
        address: String,
        /// The lines that wait; none clears it.
        lines: Vec<String>,
    },
    /// What the last answer rests on waits for `why`.
    ReasonsKept {
        /// For which address.
        address: String,
        /// The reasons.
        reasons: Reasons,
    },
    /// A member asked something that their next text may ask of somebody or something else.
    QuestionHeard {
        /// From which address.
        address: String,
        /// The question as typed; none where the text said something else.
        text: Option<String>,
    },
    /// All that a message stored was taken back.
    Undone {
        /// The number of that message.
        cause: u64,
    },
    /// A test's time was put right.
    TestFixed {
        /// Whose.
        who: Name,
        /// The message that stored it.
        cause: u64,
        /// The right time.
        time: Centis,
        /// How far it was, where the message stored several of theirs.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        distance: Option<Distance>,
    },
    /// A set was put right.
    SetFixed {
        /// Whose.
        who: Name,
        /// The message that stored it.
        cause: u64,
        /// As it was.
        was: Box<SetSwum>,
        /// As it is.
        now: Box<SetSwum>,
    },
    /// What a message told of one swimmer's swimming was taken back.
    ResultsTakenBack {
        /// Whose.
        who: Name,
        /// The number of that message.
        cause: u64,
    },
    /// It was said how a test began, or that it was at a meet.
    TestBegun {
        /// Whose.
        who: Name,
        /// The message that stored it; all of theirs that it stored.
        cause: u64,
        /// How it began.
        start: Option<Start>,
        /// At a meet.
        meet: bool,
    },
    /// Two results were given to each other's swimmers, and change places.
    ResultsSwapped {
        /// The one, and what stands as theirs.
        one: (Name, SwappedTest),
        /// The other, and what stands as theirs.
        other: (Name, SwappedTest),
    },
    /// A result was moved to the one who swam it.
    ResultMoved {
        /// From whom.
        from: Name,
        /// To whom.
        to: Name,
        /// The message that stored it.
        cause: u64,
    },
    /// The number to call for help was set.
    EmergencyNumberSet {
        /// Its digits.
        number: String,
    },
    /// Whom to call was set for those who write of harm or fear.
    HelplineSet {
        /// As it is to be told.
        text: String,
    },
    /// The club stated how long its records are kept.
    RecordsKept {
        /// How many years.
        years: u16,
    },
    /// A grown-up was named as responsible for a swimmer, and is asked.
    GuardianAsked {
        /// The swimmer.
        who: Name,
        /// Where the grown-up texts from.
        address: String,
    },
    /// The grown-up agreed.
    GuardianAgreed {
        /// For whom.
        who: Name,
    },
    /// The grown-up declined, or agrees no more.
    GuardianEnded {
        /// For whom.
        who: Name,
    },
    /// The guardian agreed that a stop be lifted.
    GuardianReleased {
        /// Whose.
        who: Name,
    },
    /// Both were told that a swimmer is of age.
    CameOfAge {
        /// Who.
        who: Name,
    },
    /// Someone is in danger, and help is called.
    AlarmRaised {
        /// Whoever says so is on deck and speaks of another: help knows already.
        #[serde(default)]
        known: bool,
        /// There is nobody to be called, and the answer said so.
        #[serde(default)]
        alone: bool,
    },
    /// Whoever raised an alarm is told that nobody is reached yet.
    AlarmUnheard {
        /// The place in the log of the message that raised it.
        alarm: u64,
    },
    /// Whoever raised an alarm was told in an answer that nobody is reached yet.
    AlarmTold {
        /// The place in the log of the message that raised it.
        alarm: u64,
    },
    /// The coach named who is called where nobody on deck is reached, or nobody.
    SecondContactNamed {
        /// The address.
        address: Option<String>,
    },
    /// Somebody was written to who had asked for nothing.
    StrangerAsked {
        /// The address.
        address: String,
    },
    /// Somebody asked to be told of danger where nobody else is reached, or no
    /// more.
    StandsBy {
        /// From which address.
        address: String,
        /// On.
        wanted: bool,
    },
    /// The squad is joined by another code.
    CodeRenewed {
        /// Which.
        code: String,
    },
    /// The squad has another name.
    SquadRenamed {
        /// Which.
        name: String,
    },
    /// The squad was closed for good; whoever was in it has left.
    SquadClosed,
    /// Something is to be done once a code has come back.
    ConfirmationAsked {
        /// What, and whose code.
        confirmation: Confirmation,
    },
    /// The code came, or another one.
    ConfirmationClosed,
    /// Somebody who is stopped was forgotten: the stop is not.
    StopOutlives {
        /// Who, without a name.
        of: Unnamed,
        /// The stop.
        stop: StopKept,
    },
    /// The stop of somebody who was forgotten is theirs again under a name.
    StopTakenUp {
        /// Who, without a name.
        of: Unnamed,
    },
    /// Somebody who wants no texts was forgotten: that wish is not.
    SilenceOutlives {
        /// Who, without a name.
        of: Unnamed,
    },
    /// A knock to somebody's head.
    HeadKnocked {
        /// Whose.
        who: Name,
    },
    /// Something that is kept apart from training.
    CareRecorded {
        /// Of whom, where that is known.
        who: Option<Name>,
        /// Of what.
        what: CareKind,
    },
    /// Someone read of swimmers' health.
    HealthSeen {
        /// Whose.
        who: Vec<Name>,
        /// The reader's address.
        by: String,
        /// On what occasion.
        what: ReadWhat,
    },
    /// A swimmer wished to be forgotten: stands in the log until what was theirs
    /// is erased from it.
    Forgotten {
        /// Who.
        who: Name,
    },
    /// A swimmer's history was erased at their wish.
    Erased {
        /// How many messages were theirs.
        messages: u64,
    },
}
