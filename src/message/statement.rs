//! The kinds of statement, one variant for each kind of the outside contract.

use jiff::civil::{Time, Weekday};
use serde::{Deserialize, Serialize};

use super::{Approval, Day, Length, Limits, Name, People, Regular, TypedSet, TypedTime};
use crate::language::Language;
use crate::units::{Centis, Course, Equipment, Rpe, SendOff, Start, Stroke, Unit};

/// One thing said, and of whom.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Statement {
    /// The swimmer it is about, where a name stands; otherwise the sender.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub who: Option<Name>,
    /// What was said.
    pub kind: Kind,
}

/// What a statement says.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Kind {
    /// `200 test 3:12`
    Test(Test),
    /// `30min test 1850`
    TimedTest(TimedTest),
    /// `8x50 on 1:05 held 48 48 49 …`
    SetResult(SetResult),
    /// `done 1800 in 45min rpe 6`, `ran 10k 50min`
    Done(Done),
    /// `missed tue`
    Missed {
        /// Which day.
        on: Option<Day>,
    },
    /// `ill`
    Ill {
        /// The kind of illness, where it was said.
        what: Option<Illness>,
    },
    /// `better`
    Better,
    /// `away until 20/11`
    Away {
        /// The first day away, where it isn't today.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        from: Option<Day>,
        /// The first day back.
        until: Day,
    },
    /// `shoulder hurts 4`
    Pain(Pain),
    /// `felt dizzy`, `chest pain`
    Faint,
    /// `plan`, `plan easy week`, `plan 3x week 45min`
    Plan(PlanWish),
    /// `next`, `next 30min no fins`
    Next(NextWish),
    /// `swap tue thu`
    Swap {
        /// The two days.
        days: [Day; 2],
    },
    /// `tonight`, `my lane`
    Tonight,
    /// `board`
    Board,
    /// `swap heron teal tue 200`: two results that were given to each other.
    SwapResults {
        /// The two.
        names: [Name; 2],
        /// Which day's results; the latest where none was said.
        on: Option<Day>,
        /// Which distance's.
        distance: Option<Length>,
    },
    /// `shorter`
    Shorter,
    /// `easier`
    Easier,
    /// `harder`
    Harder,
    /// `again`
    Again,
    /// `more`
    More,
    /// `targets`, `targets 50 100 400`
    Targets {
        /// The distances asked for; none means the usual ones.
        distances: Vec<Length>,
    },
    /// `predict 1500`
    Predict {
        /// How far.
        distance: Length,
    },
    /// `race 1500 on 20 dec goal 26:00`
    Race {
        /// How far.
        distance: Length,
        /// When.
        on: Day,
        /// The time hoped for.
        goal: Option<TypedTime>,
    },
    /// `trend`
    Trend,
    /// `best`
    Best,
    /// `log`
    Log,
    /// `heron` from a coach; `me` from a swimmer
    Swimmer,
    /// `compare heron teal`
    Compare {
        /// The swimmers, two or more.
        names: Vec<Name>,
    },
    /// `pool 25m`, `born 1981`, `days tue thu`, `language es`
    Profile(ProfileChange),
    /// `squad`, `squad overdue`
    Squad {
        /// Whom to list.
        filter: Option<SquadFilter>,
        /// Who is expected that day.
        on: Option<Day>,
    },
    /// `lanes 4`
    Lanes {
        /// How many.
        count: Option<u8>,
    },
    /// `test night 400 thu`; without a distance the one that is called is asked
    /// after
    TestNight {
        /// How far.
        distance: Option<Length>,
        /// Which night; never without a distance.
        on: Option<Day>,
    },
    /// `heron lane 2`, `heron any lane`
    Pin {
        /// The lane she stays in; none for any.
        lane: Option<u8>,
    },
    /// `apart heron teal`, `together heron teal`
    Apart {
        /// Those who share no lane, two or more.
        names: Vec<Name>,
        /// False where they may again.
        apart: bool,
    },
    /// `here heron teal`, `all here bar wren`
    Here {
        /// Those named.
        names: Vec<Name>,
        /// True for all but those named.
        all_but: bool,
        /// The evening; this one's where none was said.
        on: Option<Day>,
    },
    /// `absent wren`
    Absent {
        /// Those named.
        names: Vec<Name>,
        /// The evening; this one's where none was said.
        on: Option<Day>,
    },
    /// `tell heron: cap on`, `tell all: pool shut`
    Tell {
        /// What to pass on, as typed. Without a `who` it is for all.
        text: String,
    },
    /// `note heron: …`
    Note {
        /// As typed.
        text: String,
    },
    /// `focus heron: …`
    Focus {
        /// As typed.
        text: String,
    },
    /// `digest on`, `digest sun 18:00`, `weekly on`
    Regular(Regular),
    /// `heron target 50 46`: the coach's times in place of the computed ones; none
    /// in `heron targets from test`.
    OwnTargets {
        /// Each distance with the time to hold.
        holds: Vec<(Length, TypedTime)>,
    },
    /// `approve plans on`, `approve heron`
    Approval(Approval),
    /// `no paddles`, `paddles ok`, `kit fins board`
    Limits(Limits),
    /// `in`, `out`, `10 late`
    Attend {
        /// Coming or not.
        coming: bool,
        /// Minutes late.
        late_min: Option<u16>,
        /// Which night.
        on: Option<Day>,
    },
    /// `slot tue 2000-2100 4 lanes`
    Slot(Slot),
    /// `pool shut thu`
    Shut {
        /// The weekdays.
        #[serde(with = "weekdays")]
        days: Vec<Weekday>,
        /// The one day.
        on: Option<Day>,
    },
    /// `L2 200 test 3:12 3:20 x`, `L2 48 49 51`: what those of a lane swam.
    LaneResults(LaneResults),
    /// `12 left`, `L1 make it 6`, `L2 on 1:15`
    Cut(Cut),
    /// `heron easy till I say`
    Hold {
        /// The kind of week to hold to.
        week: WeekKind,
    },
    /// `release heron`
    Release,
    /// Words of harm or fear.
    Welfare,
    /// `lost a lane`: one fewer tonight.
    LaneGone,
    /// `thu is on again`
    Reopen {
        /// Weekdays, each the next to come.
        #[serde(with = "weekdays")]
        days: Vec<Weekday>,
        /// A date.
        on: Option<Day>,
    },
    /// A set or a session in trade notation.
    Set(TypedSet),
    /// `join CODE NAME`
    Join {
        /// The squad's code, upper case.
        code: String,
        /// The handle wanted.
        name: Name,
    },
    /// `fix 3:14`, `fix heron tue 200 3:21`, `that was teal`, `dive`
    Fix(Fix),
    /// `entry heron 100 free 20 dec`, `scratch heron 100 free`
    Entry(Entry),
    /// `relay 4x50 free heron 31.2 teal 29.8`: one leg of it.
    RelayLeg(RelayLeg),
    /// `entries`
    Entries,
    /// `meet 20 dec 25m`
    Meet {
        /// The day.
        on: Day,
        /// Its pool, where one was said.
        course: Option<Course>,
    },
    /// `help`, `help test`
    Help {
        /// The topic, as typed, in lower case.
        topic: Option<String>,
    },
    /// `invite +15550123 assistant kestrel`, `leave`, `add robin 2:20`
    People(People),
    /// `undo`
    Undo,
    /// `yes`
    Yes,
    /// `no`
    No,
    /// `why`
    Why,
    /// `stop`
    Stop,
    /// `start`
    Start,
    /// `forget me`
    Forget,
    /// A question in the sender's own words.
    Ask(Ask),
    /// `leaving at 7:45`
    Leaves {
        /// When, where it was said.
        at: Option<Time>,
        /// Which night.
        on: Option<Day>,
    },
    /// `might come tonight`: neither in nor out.
    Maybe {
        /// Which night.
        on: Option<Day>,
    },
    /// `back from monday`: away no longer.
    Back {
        /// From which day; today where none was said.
        on: Option<Day>,
    },
    /// `shattered, 4 hrs sleep`
    Tired,
    /// `want to go under 3:00 for the 200`: a wish for a time, of no race.
    Goal {
        /// How far.
        distance: Length,
        /// Which stroke, where one was said.
        stroke: Option<Stroke>,
        /// The time.
        time: TypedTime,
        /// The day by which, where one was said.
        by: Option<Day>,
    },
    /// `longest I can go is 6 lengths`, `nothing over 1200`.
    Ability {
        /// As far as can be swum without a stop.
        unbroken: Option<Length>,
        /// As much as a session may be.
        most: Option<Length>,
    },
    /// `no messages before 9`
    Quiet {
        /// The hour from which texts are welcome.
        from: Time,
    },
    /// What was said last, as it should have been.
    Restate {
        /// All that it said.
        says: Vec<Statement>,
        /// Which of them is put right.
        changed: usize,
    },
    /// `wren up to 2`, `plover n robin down one`
    Move {
        /// Who.
        names: Vec<Name>,
        /// To which lane.
        lane: Option<u8>,
        /// So many lanes towards the fast ones (less than nought) or the slow.
        by: i8,
    },
    /// `swap heron and rook`: each in the other's lane.
    SwapLanes {
        /// The two.
        names: [Name; 2],
    },
    /// `lane 1 go teal swift finch`: who leads off, and who follows.
    LaneOrder {
        /// Which lane, where it was said.
        lane: Option<u8>,
        /// In order.
        names: Vec<Name>,
    },
    /// `lane one swift finch kite lane two teal heron rook …`
    DrawnAs {
        /// Each lane with its swimmers, in order.
        lanes: Vec<(u8, Vec<Name>)>,
    },
    /// A change to the set in force, beyond its number and send-off.
    Change(Vec<Edit>),
    /// `leave 10 apart`: the time between two who leave behind each other.
    Gap {
        /// In seconds: 5 or 10.
        seconds: u8,
    },
    /// `show names in the chat`, `no names in the group`: whether a room may hear who
    /// swims in which lane.
    NamesInRooms {
        /// It may.
        shown: bool,
    },
    /// `L2`, `tonight L2`: one lane whole, with each one's times.
    LaneOf {
        /// Which lane.
        lane: u8,
    },
    /// The one word that settles an open question: `25m`, `1500`, a name.
    Choose {
        /// As typed, in lower case.
        word: String,
    },
}

impl Kind {
    /// True for a question that nobody here knows the answer to.
    pub fn is_past_answering(&self) -> bool {
        matches!(self, Kind::Ask(ask) if ask.about == About::Other)
    }

    /// Every swimmer in a list of names.
    pub fn names(&self) -> &[Name] {
        match self {
            Kind::Here { names, .. }
            | Kind::Absent { names, .. }
            | Kind::Apart { names, .. }
            | Kind::Compare { names } => names,
            Kind::SwapResults { names, .. } => names,
            _ => &[],
        }
    }

    /// Every swimmer in a list of names, to be put right.
    pub fn names_mut(&mut self) -> &mut [Name] {
        match self {
            Kind::Here { names, .. }
            | Kind::Absent { names, .. }
            | Kind::Apart { names, .. }
            | Kind::Compare { names } => names,
            Kind::SwapResults { names, .. } => names,
            _ => &mut [],
        }
    }
}

/// A swim of a set distance against the clock.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Test {
    /// How far.
    pub distance: Length,
    /// How long it took.
    pub time: TypedTime,
    /// The stroke, where one was said.
    pub stroke: Option<Stroke>,
    /// The course, where one was said.
    pub course: Option<Course>,
    /// The day, where one was said.
    pub on: Option<Day>,
    /// Splits, each its own (cumulative ones are turned into these).
    pub splits: Vec<Centis>,
    /// How it began.
    pub start: Option<Start>,
    /// Swum at a meet.
    pub meet: bool,
}

/// As far as one can in a set time.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct TimedTest {
    /// How long.
    pub duration: Centis,
    /// How far it went.
    pub distance: Length,
    /// The stroke, where one was said.
    pub stroke: Option<Stroke>,
    /// The course, where one was said.
    pub course: Option<Course>,
    /// The day, where one was said.
    pub on: Option<Day>,
}

/// A repeat set with what came of it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct SetResult {
    /// Repeats.
    pub count: u16,
    /// How far each.
    pub distance: Length,
    /// The stroke, where one was said.
    pub stroke: Option<Stroke>,
    /// The send-off, where one was said.
    pub send_off: Option<SendOff>,
    /// The rest, where one was said instead.
    pub rest: Option<Centis>,
    /// The target, where one was said (`hold 48`).
    pub target: Option<Centis>,
    /// One a repeat, none for a missed one; empty where only an average or a
    /// number made was given.
    pub times: Vec<Option<TypedTime>>,
    /// The average.
    pub average: Option<TypedTime>,
    /// How many were made …
    pub made: Option<u16>,
    /// … of how many.
    pub of: Option<u16>,
    /// With what.
    pub equipment: Vec<Equipment>,
    /// How hard it felt.
    pub rpe: Option<Rpe>,
    /// Beats a minute at the end.
    pub heart_rate: Option<u16>,
    /// Strokes a length.
    pub strokes: Option<u16>,
    /// The day, where one was said.
    pub on: Option<Day>,
}

/// A session swum, or other training.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Done {
    /// How far.
    pub distance: Option<Length>,
    /// How far, counted in lengths of the pool.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lengths: Option<u16>,
    /// How long.
    pub duration: Option<Centis>,
    /// How hard it felt.
    pub rpe: Option<Rpe>,
    /// The day, where one was said.
    pub on: Option<Day>,
    /// What it was, where it wasn't swimming.
    pub sport: Option<Sport>,
    /// The other sport by its name, where it has one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub activity: Option<String>,
    /// True for `cut short`; `done` alone means all of what was set.
    pub shortened: bool,
}

/// Training that isn't swimming: counts in load and hard days, never in metres.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Sport {
    /// On foot.
    Run,
    /// On a bicycle.
    Ride,
    /// Weights, circuits.
    Gym,
    /// Anything else.
    Other,
}

/// A kind of illness, as far as it changes the days out of the water.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Illness {
    /// A cold, a sore throat.
    Cold,
    /// Fever, flu, a chest infection.
    Fever,
    /// A sick stomach or diarrhoea.
    Stomach,
}

/// Where it hurts, and how much.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Pain {
    /// The part of the body, English singular: `shoulder`, `knee`, `back`.
    pub place: String,
    /// 0 to 10, where it was said.
    pub level: Option<u8>,
}

/// What kind of week.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum WeekKind {
    /// Less than usual.
    Easy,
    /// The usual.
    Normal,
    /// A step more.
    Hard,
}

/// A week asked for.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct PlanWish {
    /// The kind of week.
    pub week: Option<WeekKind>,
    /// Minutes a session, 10 to 240.
    pub minutes: Option<u16>,
    /// Sessions a week, 1 to 14.
    pub sessions: Option<u8>,
    /// The day, for a coach's `plan tue`.
    pub on: Option<Day>,
}

/// A session asked for.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct NextWish {
    /// Minutes there are.
    pub minutes: Option<u16>,
    /// How far it should be.
    pub distance: Option<Length>,
    /// Equipment to use.
    pub with: Vec<Equipment>,
    /// Equipment to leave out.
    pub without: Vec<Equipment>,
    /// In open water.
    pub open_water: bool,
}

/// What a person says of herself; what is not said stays.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct ProfileChange {
    /// The pool she swims in.
    pub course: Option<Course>,
    /// The days she swims.
    #[serde(with = "weekdays", default)]
    pub days: Vec<Weekday>,
    /// Sessions a week, where a number was said and no days.
    pub sessions: Option<u8>,
    /// Minutes a session.
    pub minutes: Option<u16>,
    /// Year of birth.
    pub born: Option<i16>,
    /// Units to speak in.
    pub units: Option<Unit>,
    /// Language to speak in.
    pub language: Option<Language>,
}

/// Whom the coach asks about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum SquadFilter {
    /// No test for six weeks.
    Overdue,
    /// In pain or ill.
    Hurt,
    /// Not heard from.
    Silent,
    /// Faster than before.
    Improving,
    /// Slower than before.
    Fading,
    /// By pace.
    Pace,
    /// Coming to the next night.
    Expected,
    /// No test since the test night was called.
    Owed,
    /// With a race to come.
    Races,
}

impl SquadFilter {
    /// Its word in our own notation, which is its name in the outside interface too.
    pub const fn word(self) -> &'static str {
        match self {
            SquadFilter::Overdue => "overdue",
            SquadFilter::Hurt => "hurt",
            SquadFilter::Silent => "silent",
            SquadFilter::Improving => "improving",
            SquadFilter::Fading => "fading",
            SquadFilter::Pace => "pace",
            SquadFilter::Expected => "expected",
            SquadFilter::Owed => "owed",
            SquadFilter::Races => "races",
        }
    }
}

/// A regular booking.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Slot {
    /// The weekdays.
    #[serde(with = "weekdays")]
    pub days: Vec<Weekday>,
    /// When it starts.
    pub starts: Option<Time>,
    /// How long it is.
    pub minutes: Option<u16>,
    /// How many lanes.
    pub lanes: Option<u8>,
    /// One day only.
    pub on: Option<Day>,
    /// Another pool.
    pub course: Option<Course>,
}

/// A change to the set in force.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Cut {
    /// Minutes that are left.
    pub minutes_left: Option<u16>,
    /// When it has to be over, on a clock of twelve hours where the hour is
    /// below twelve.
    #[serde(default)]
    pub ends: Option<Time>,
    /// For one lane only.
    pub lane: Option<u8>,
    /// A new number of repeats.
    pub count: Option<u16>,
    /// A new send-off.
    pub send_off: Option<SendOff>,
    /// Leave out the last round.
    pub skip_round: bool,
}

/// The results of a lane's swimmers in the order in which they lead off.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct LaneResults {
    /// Which lane, from 1.
    pub lane: u8,
    /// How far the test was; none for the main repeat of the set in force, of
    /// which each figure is then her average.
    pub distance: Option<Length>,
    /// One a swimmer, none for one who did not swim.
    pub times: Vec<Option<TypedTime>>,
}

/// What to put right in what was stored; the last result unless it says more.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Fix {
    /// The right time.
    pub time: Option<TypedTime>,
    /// The right person.
    pub was: Option<Name>,
    /// Which time is wrong.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub instead: Option<TypedTime>,
    /// Which day's result.
    pub on: Option<Day>,
    /// Which distance's result.
    pub distance: Option<Length>,
    /// How it began: `dive`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub start: Option<Start>,
    /// It was at a meet: `meet`.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub meet: bool,
}

/// An entry for a race at a meet, or its end.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Entry {
    /// How far.
    pub distance: Length,
    /// Which stroke, where one was said.
    pub stroke: Option<Stroke>,
    /// The day of the meet; the next one where none was said.
    pub on: Option<Day>,
    /// The entry time, where one was given.
    pub time: Option<TypedTime>,
    /// Taken out again.
    pub scratched: bool,
}

/// A question, and what it is about.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Ask {
    /// What it is about.
    pub about: About,
    /// In the sender's words.
    pub text: String,
}

/// What a question is about, as far as we can tell.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum About {
    /// When the next test is due.
    NextTest,
    /// How far was swum, or how often, since a day.
    Swum {
        /// The first day; none for this week.
        since: Option<Day>,
        /// The day behind the last; none for today.
        until: Option<Day>,
    },
    /// What was set on a day.
    SetOf {
        /// Which day.
        on: Option<Day>,
    },
    /// Who is here, or comes, or does not.
    Turnout {
        /// Which night.
        on: Option<Day>,
        /// Those who are not.
        absent: bool,
    },
    /// Where the evening stands: what is on, how much is left, when it ends.
    Standing {
        /// Of which lane.
        lane: Option<u8>,
    },
    /// Who swims in a lane, or in which lane someone does.
    Lane {
        /// Which lane.
        lane: Option<u8>,
    },
    /// When and where the next evening is, or whether it is on.
    Evening {
        /// Which day.
        on: Option<Day>,
    },
    /// The results of a night.
    Results {
        /// Which night.
        on: Option<Day>,
        /// The greatest gains first.
        gains: bool,
    },
    /// Whether what was last sent is stored.
    Stored,
    /// What we are.
    Us,
    /// What only a person can answer.
    Other,
}

/// A change to the set in force.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Edit {
    /// Which part of it.
    pub scope: Scope,
    /// For these lanes only; none for all.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub lanes: Vec<u8>,
    /// For these swimmers only.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub names: Vec<Name>,
    /// What becomes of it.
    pub what: EditWhat,
}

/// Which part of a set a change is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Scope {
    /// The line that is being swum, or the main one.
    Main,
    /// The last so many repeats of it.
    LastRepeats(u16),
    /// From this repeat on.
    FromRepeat(u16),
    /// Its odd repeats.
    Odd,
    /// Its even repeats.
    Even,
    /// The swim-down.
    SwimDown,
    /// The warm-up.
    WarmUp,
    /// All that is to come.
    Rest,
}

/// What becomes of a part of a set.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum EditWhat {
    /// Left out.
    Drop,
    /// So far instead.
    Distance(Length),
    /// So many instead.
    Count(u16),
    /// So many more.
    More(u16),
    /// On this send-off.
    SendOff(SendOff),
    /// So many seconds more of send-off, or fewer.
    SendOffBy(i16),
    /// With this much rest.
    Rest(Centis),
    /// In this stroke.
    Stroke(Stroke),
    /// With this kit.
    Kit(Vec<Equipment>),
    /// So hard.
    Level(crate::units::Level),
    /// This time to hold.
    Target(Centis),
    /// This instead.
    Instead(TypedSet),
    /// This as well, before the swim-down.
    Add(TypedSet),
    /// A pause of so long before what comes next.
    Pause(Centis),
    /// On with what comes next.
    MoveOn,
    /// From here again.
    Restart,
    /// As it was, after a pause.
    Resume,
}

/// A leg of a relay.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct RelayLeg {
    /// Legs of the relay, 2 to 10.
    pub count: u8,
    /// How far each.
    pub distance: Length,
    /// The stroke, where one was said.
    pub stroke: Option<Stroke>,
    /// The day, where one was said.
    pub on: Option<Day>,
    /// Which leg, from 1.
    pub leg: u8,
    /// How long it took.
    pub time: TypedTime,
}

/// Lists of weekdays, Monday 1 to Sunday 7.
mod weekdays {
    use jiff::civil::Weekday;
    use serde::{Deserialize, Deserializer, Serialize, Serializer};

    pub fn serialize<S: Serializer>(days: &[Weekday], to: S) -> Result<S::Ok, S::Error> {
        days.iter().map(|day| day.to_monday_one_offset()).collect::<Vec<_>>().serialize(to)
    }

    pub fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<Vec<Weekday>, D::Error> {
        Vec::<i8>::deserialize(from)?
            .into_iter()
            .map(|day| Weekday::from_monday_one_offset(day).map_err(serde::de::Error::custom))
            .collect()
    }
}
