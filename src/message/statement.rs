//! The kinds of statement, one variant for each kind of the outside contract.

use jiff::civil::{Time, Weekday};
use serde::{Deserialize, Serialize};
use strum::{IntoStaticStr, VariantNames};

use super::*;
use crate::units::{Course, Stroke};

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
#[derive(IntoStaticStr, VariantNames)]
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
        /// The lane they stay in; none for any.
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
    /// True of what was swum: a test, a set, a session.
    pub const fn is_swum(&self) -> bool {
        matches!(self, Kind::Test(_) | Kind::SetResult(_) | Kind::Done(_))
    }

    /// True of pain and illness.
    pub const fn ails(&self) -> bool {
        matches!(self, Kind::Pain(_) | Kind::Ill { .. })
    }

    /// True for a question that nobody here knows the answer to.
    pub fn is_past_answering(&self) -> bool {
        matches!(self, Kind::Ask(ask) if ask.about == About::Other)
    }
}

impl Statement {
    /// The pain and illness that stand in each of several answers: what ails somebody whichever
    /// of them is given.
    pub fn ailing_in_all<'a>(
        answers: impl IntoIterator<Item = &'a [Statement]>,
    ) -> Vec<&'a Statement> {
        let mut answers = answers.into_iter();
        let first = answers.next().unwrap_or_default();
        let mut ailing: Vec<&Statement> = first.iter().filter(|one| one.kind.ails()).collect();
        answers.for_each(|other| ailing.retain(|one| other.contains(one)));
        ailing
    }

    /// The pain and illness that stand in any of several answers, each once.
    pub fn ailing_in_any<'a>(
        answers: impl IntoIterator<Item = &'a [Statement]>,
    ) -> Vec<&'a Statement> {
        let mut ailing: Vec<&Statement> = Vec::new();
        for one in answers.into_iter().flatten().filter(|one| one.kind.ails()) {
            if !ailing.contains(&one) {
                ailing.push(one);
            }
        }
        ailing
    }
}
