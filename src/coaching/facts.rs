//! What is known of one swimmer on one day, and what is wished of the coach.

use jiff::civil::{Date, Weekday};
use serde::{Deserialize, Serialize};
use strum::{IntoStaticStr, VariantNames};

use super::{OwnTarget, Promise};
use crate::session::{Limit, Repeat, Session};
use crate::swim::Trial;
use crate::units::{Centis, Course, Distance, Equipment, Rpe, Start, Stroke};

/// What coaching may know of one swimmer, as of one instant: nothing in it is
/// later than [`Facts::today`].
#[derive(Debug, Clone, PartialEq)]
pub struct Facts {
    /// Their handle: settles every choice among equals, so that the same day
    /// gives the same session.
    pub handle: String,
    /// Their local day.
    pub today: Date,
    /// The pool they swim in.
    pub course: Course,
    /// Minutes booked for a session.
    pub minutes: u16,
    /// Sessions a week.
    pub sessions_a_week: u8,
    /// The days they swim, where they said so; else they are spread.
    pub days: Vec<Weekday>,
    /// Days ahead on which they can't swim: the pool is shut.
    pub shut: Vec<Date>,
    /// Squad nights of theirs with a hard set in force: what they swim alone keeps
    /// its distance from them.
    pub squad_hard: Vec<Date>,
    /// Their age this year, where the year of birth is known.
    pub age: Option<u8>,
    /// They have been cleared for hard work (readiness asked, or a screened squad).
    pub cleared: bool,
    /// The day they joined.
    pub joined: Date,
    /// Their tests, oldest first, as if each had begun with a push.
    pub tests: Vec<Trial>,
    /// How their last test over 100 or less began: what is predicted over so short a
    /// distance begins so too.
    pub sprints_from: Start,
    /// Sets with results, oldest first, of the last sixteen weeks.
    pub sets: Vec<SetSwum>,
    /// Sessions swum or presumed, oldest first, of the last sixteen weeks.
    pub swims: Vec<Swum>,
    /// Other training of the last four weeks, oldest first.
    pub other: Vec<OtherTraining>,
    /// Weeks planned, oldest first, of the last sixteen weeks.
    pub weeks: Vec<WeekPlanned>,
    /// Sessions suggested, oldest first, the last six.
    pub suggested: Vec<Session>,
    /// The sessions that stand: what they were told for days to come, in order, and
    /// nothing has changed since. Only weeks are written round them; for all else it
    /// may be empty.
    pub standing: Vec<Session>,
    /// What a reply promised of a session to come, and is still open.
    pub promised: Option<Promise>,
    /// An easy swim is promised, and a test after it.
    pub test_waits: bool,
    /// Times that they said they were away: the day it was said, and the first back.
    pub away: Vec<(Date, Date)>,
    /// Past squad nights with a set for them on which nobody says that they were
    /// missing: these count neither as swims nor as a break.
    pub with_squad: Vec<Date>,
    /// The first day after the clear days that follow an illness, while these run: they
    /// have said that it is over.
    pub clear_from: Option<Date>,
    /// How far they can swim.
    pub ability: Ability,
    /// When they last said that they slept badly or are worn out.
    pub tired: Option<Date>,
    /// What is open of pain, illness, faintness, holds.
    pub open: Vec<Trouble>,
    /// The next race, if they named one.
    pub race: Option<Race>,
    /// The last race that is over, of the last two weeks.
    pub raced: Option<Race>,
    /// The coach's focus for them, in the coach's words.
    pub focus: Option<String>,
    /// What they can't or may not do.
    pub limits: Vec<Limit>,
    /// Times to hold that the coach set in place of the computed ones.
    pub own_targets: Vec<OwnTarget>,
}

impl Facts {
    /// What is known of nobody: for a lane that no one is drawn into yet, and for
    /// whoever has told nothing yet.
    pub fn of_nobody(today: Date, course: Course, minutes: u16) -> Facts {
        Facts {
            handle: String::new(),
            today,
            course,
            minutes,
            sessions_a_week: 1,
            shut: Vec::new(),
            squad_hard: Vec::new(),
            days: Vec::new(),
            age: None,
            cleared: true,
            joined: today,
            tests: Vec::new(),
            sprints_from: Start::Push,
            sets: Vec::new(),
            swims: Vec::new(),
            other: Vec::new(),
            weeks: Vec::new(),
            suggested: Vec::new(),
            standing: Vec::new(),
            promised: None,
            test_waits: false,
            away: Vec::new(),
            with_squad: Vec::new(),
            clear_from: None,
            ability: Ability::default(),
            tired: None,
            open: Vec::new(),
            race: None,
            raced: None,
            focus: None,
            limits: Vec::new(),
            own_targets: Vec::new(),
        }
    }
}

impl Facts {
    /// What is promised of the next hard swim, or of the next at all.
    pub fn promised_hard(&self) -> Option<&Promise> {
        match &self.promised {
            Some(Promise::Easy) if self.test_waits => Some(&Promise::Test),
            promised => promised.as_ref(),
        }
    }
}

/// How far somebody can swim, by their own word; none where nothing was said, or where
/// it bounds nothing any more.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Ability {
    /// Without a stop.
    pub unbroken: Option<Distance>,
    /// In a session.
    pub most: Option<Distance>,
}

impl Ability {
    /// What is known when `self` is said after `before`.
    pub fn after(self, before: Ability) -> Ability {
        Ability { unbroken: self.unbroken.or(before.unbroken), most: self.most.or(before.most) }
    }
}

/// A repeat set with its result.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct SetSwum {
    /// The day.
    pub on: Date,
    /// The set as swum: count, distance, send-off, the target it was judged by.
    pub set: Repeat,
    /// A time a repeat, none for a missed one.
    pub times: Vec<Option<Centis>>,
    /// How many were held.
    pub held: u16,
}

/// A session in the water.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Swum {
    /// The day.
    pub on: Date,
    /// How far, where it is known.
    pub distance: Option<Distance>,
    /// How long, in minutes, where it is known.
    pub minutes: Option<u16>,
    /// How hard it felt, where it was said.
    pub rpe: Option<Rpe>,
    /// Not reported by them: they were there and the set was on the board.
    pub presumed: bool,
    /// They said only how it felt: the distance is that of the session they were told.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub effort_alone: bool,
    /// It held threshold work or harder.
    pub hard: bool,
}

/// Training out of the water.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct OtherTraining {
    /// The day.
    pub on: Date,
    /// How long, in minutes.
    pub minutes: Option<u16>,
    /// How hard it felt.
    pub rpe: Option<Rpe>,
}

/// A week that was planned.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct WeekPlanned {
    /// Its first day.
    pub starts: Date,
    /// What kind it was.
    pub kind: WeekKind,
    /// How far it was to be.
    pub distance: Distance,
    /// Its sessions' days and whether each held hard work.
    pub days: Vec<(Date, bool)>,
}

/// Kinds of week, by the contract's word.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[derive(IntoStaticStr, VariantNames)]
#[serde(rename_all = "snake_case")]
pub enum WeekKind {
    /// Less than usual, between harder ones.
    Easy,
    /// The usual.
    Normal,
    /// A step more.
    Hard,
    /// Less and sharp, before a race.
    Taper,
    /// Back after a break, illness or pain.
    Return,
}

/// Pain without a level counts as this much; no reply shows it.
pub const UNSAID_LEVEL: u8 = 5;

/// Something open that lowers what may be swum.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", tag = "trouble")]
pub enum Trouble {
    /// Pain in one place.
    Pain {
        /// Since when.
        since: Date,
        /// Where: English singular.
        place: String,
        /// 0 to 10; unsaid counts as [`UNSAID_LEVEL`].
        level: Option<u8>,
    },
    /// Illness.
    Ill {
        /// Since when.
        since: Date,
        /// With fever or a chest infection: one bracket more careful.
        fever: bool,
    },
    /// Pain in one place, or illness (no place), that was asked about and not answered: as pain
    /// of which no level was said.
    Asked {
        /// Since when.
        since: Date,
        /// Where: English singular.
        place: Option<String>,
    },
    /// Pain, illness or a stop that is over, and lately: they start again gently.
    /// See [`is_mending`](super::is_mending) for how long.
    Mending {
        /// Since when it is over.
        since: Date,
        /// What is over.
        after: After,
    },
    /// Dizziness, faintness, chest pain: nothing until the coach releases.
    Faint {
        /// Since when.
        since: Date,
    },
    /// The coach holds them at easy until released.
    Held {
        /// Since when.
        since: Date,
    },
}

/// What is over, where something was.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", tag = "what")]
pub enum After {
    /// Pain, at its worst 0 to 10; unsaid counts as [`UNSAID_LEVEL`].
    Pain {
        /// How strong it was said to be.
        level: Option<u8>,
    },
    /// Illness.
    Ill {
        /// With fever or a chest infection.
        fever: bool,
    },
    /// A stop, released.
    Stop,
    /// A time that they said they were away.
    Away,
}

impl Trouble {
    /// Since when it is so.
    pub const fn since(&self) -> Date {
        match self {
            Trouble::Pain { since, .. }
            | Trouble::Ill { since, .. }
            | Trouble::Asked { since, .. }
            | Trouble::Mending { since, .. }
            | Trouble::Faint { since }
            | Trouble::Held { since } => *since,
        }
    }
}

/// A race to come.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Race {
    /// When.
    pub on: Date,
    /// How far.
    pub distance: Distance,
    /// Which stroke.
    pub stroke: Stroke,
    /// The time hoped for.
    pub goal: Option<Centis>,
}

/// What is asked of the next session.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct SessionWish {
    /// Minutes there are; else the booked ones.
    pub minutes: Option<u16>,
    /// How far at most.
    pub distance: Option<Distance>,
    /// Equipment to use.
    pub with: Vec<Equipment>,
    /// Equipment to leave out.
    pub without: Vec<Equipment>,
    /// In open water.
    pub open_water: bool,
    /// One step easier or harder than it would be.
    pub effort: Option<Effort>,
    /// One step shorter.
    pub shorter: bool,
}

/// A step of effort asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Effort {
    /// One step easier.
    Easier,
    /// One step harder, within the rules.
    Harder,
}

/// What is asked of a week.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct WeekWish {
    /// The kind of week, if one is asked for.
    pub kind: Option<WeekKind>,
    /// Minutes a session.
    pub minutes: Option<u16>,
    /// Sessions in the week.
    pub sessions: Option<u8>,
}

/// Why a rule says no.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Refusal {
    /// The rule's id.
    pub rule: String,
    /// What it refuses for, a key that each language words.
    pub reason: RefusalReason,
}

/// What a rule refuses for.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[derive(IntoStaticStr, VariantNames)]
#[serde(rename_all = "snake_case", tag = "why")]
pub enum RefusalReason {
    /// An open faint or chest pain: nothing until the coach releases.
    Stopped,
    /// Too few minutes for a warm-up, something and a swim-down.
    TooShort {
        /// The least number of minutes that would do.
        least_minutes: u16,
    },
    /// Harder is not allowed while something is open, or so soon.
    NotHarder,
    /// Nothing is planned on the days that were to be swapped.
    NotPlanned,
}
