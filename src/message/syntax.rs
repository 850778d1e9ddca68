//! What the grammar's rules hand back: tokens with their class, before anything
//! is worked out from them.

use std::fmt;

use jiff::civil::Weekday;

use super::{Day, Effort, Illness, Kind, Name, Office, Sport, SquadFilter, WeekKind};
use crate::language::Language;
use crate::session::{Limit, Part};
use crate::units::{Course, Equipment, Level, Start, Stroke, Unit};

/// A text, by its form.
#[derive(Debug, Clone, PartialEq)]
pub enum Text {
    /// `stop`, or not: `start`.
    Opt {
        /// True for `stop`.
        out: bool,
    },
    /// What was swum by each of several.
    Capture(Capture),
    /// Statements.
    Statements(Vec<Sentence>),
}

/// What holds for all, and what each did.
#[derive(Debug, Clone, PartialEq)]
pub struct Capture {
    /// Before the colon.
    pub shared: Vec<Item>,
    /// A name and what was said of it, each.
    pub entries: Vec<(Name, Vec<Item>)>,
}

/// One statement.
#[derive(Debug, Clone, PartialEq)]
pub struct Sentence {
    /// The name that stands first.
    pub who: Option<Name>,
    /// What is said; nothing where only a name stands.
    pub said: Option<Said>,
}

/// A command with its parts, or a report.
#[derive(Debug, Clone, PartialEq)]
pub enum Said {
    /// What was swum or felt, in any order.
    Report(Vec<Item>),
    /// A verb and what belongs to it, in the order typed.
    Command(Verb, Vec<Item>),
    /// A command that needs no parts: one word says all of it.
    Whole(Kind),
}

/// The word that a command begins with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verb {
    Plan,
    Next,
    Swap,
    Targets,
    OwnTarget,
    Predict,
    Race,
    Compare,
    Profile,
    Squad,
    Lanes,
    TestNight,
    Apart,
    Together,
    Here,
    Absent,
    Tell,
    Note,
    Focus,
    Digest,
    WeeklyNote,
    Approve,
    Limit,
    Allow,
    Kit,
    In,
    Out,
    Late,
    Slot,
    Shut,
    LaneResults,
    Cut,
    Hold,
    Release,
    Away,
    Join,
    Fix,
    Was,
    Help,
    No,
    Reopen,
    Entry,
    Scratch,
    Relay,
    Invite,
    HandOver,
    Remove,
    Add,
    Claim,
    Leave,
    Squads,
}

/// A token or two with their class.
#[derive(Debug, Clone, PartialEq)]
pub enum Item {
    Comma,
    Miss,
    Rounds(RoundsItem),
    Repeat(Repeat),
    Length(Extent),
    Lengths(u32),
    Minutes(u32),
    Day(TypedDay),
    Mile,
    Fraction(u32, u32),
    Figure(Figure),
    Stroke(Stroke),
    Course(Course),
    Begin(Start),
    Meet,
    Equipment(Equipment),
    Level(Level),
    Effort(Effort),
    Part(Part),
    Remark(String),
    Took(Figure),
    Held(Vec<Option<Figure>>),
    Average(Figure),
    Made(Made),
    Splits(Vec<Figure>),
    Rpe(u32),
    HeartRate(u32),
    Strokes(u32),
    SendOff(Figure),
    Rest(Figure),
    Target(Figure),
    TestPace(Extent),
    Test,
    Done,
    Short,
    Missed,
    Sport(Sport),
    Pain,
    Body(&'static str),
    Illness(Option<Illness>),
    Better,
    Faint,
    Welfare,
    Name(Name),
    Week(WeekKind),
    Count(u32),
    Without(Vec<Equipment>),
    Goal(Figure),
    Code(String),
    Topic(String),
    Born(u32),
    Weekdays(Vec<Weekday>),
    Units(Unit),
    Language(Language),
    Filter(SquadFilter),
    Switch(bool),
    Limited(Limit),
    Everyone,
    Text(String),
    Clock((u32, u32)),
    ClockRange((u32, u32), (u32, u32)),
    Lanes(Option<u32>),
    Left(u32),
    Ends(u32, u32),
    Instead(Figure),
    Lane(u32),
    AnyLane,
    AllLanes,
    Make(u32),
    Skip,
    Office(Office),
}

/// A distance as its digits say.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Extent {
    /// The number.
    pub amount: u32,
    /// Its unit, where one stands.
    pub unit: Option<Unit>,
}

/// `8x50`
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Repeat {
    /// How many.
    pub count: u32,
    /// How far each.
    pub extent: Extent,
}

/// `3x( … )`
#[derive(Debug, Clone, PartialEq)]
pub struct RoundsItem {
    /// How many times.
    pub times: u32,
    /// What each time.
    pub pieces: Vec<Piece>,
    /// Rest between them.
    pub rest: Option<Figure>,
}

/// A piece inside rounds.
#[derive(Debug, Clone, PartialEq)]
pub enum Piece {
    /// Rounds within rounds.
    Rounds(RoundsItem),
    /// A repeat or a single swim, and how.
    Swim(Vec<Item>),
}

/// `made 5/7`, `made all`, `made 5`
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Made {
    Of(u32, u32),
    All,
    Some(u32),
}

/// A figure that is a time or may be one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Figure {
    /// `312`: how many digits it had decides what it may mean.
    Number {
        /// Its value.
        value: u32,
        /// How many digits were written.
        digits: u8,
    },
    /// `1:02:10`
    Hours { hours: u32, minutes: u32, seconds: u32, hundredths: Option<u32> },
    /// `3:12`, `3:12.4`
    Clock { minutes: u32, seconds: u32, hundredths: Option<u32> },
    /// `192s`, `47.2s`
    Seconds { seconds: u32, hundredths: Option<u32> },
    /// `3.12`, `47.2`
    Dotted {
        whole: u32,
        /// The digits after the point, and how many there are.
        decimals: u32,
        places: u8,
    },
}

/// A day as its words or digits say, before anyone looks whether it exists.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TypedDay {
    /// A word.
    Named(Day),
    /// `20/11`
    Slashed { first: u32, second: u32 },
    /// `20/11/2026`
    SlashedYear { first: u32, second: u32, year: u32 },
    /// `20 dec`
    DayMonth { day: u32, month: u8 },
    /// `2026-11-20`
    Full { year: u32, month: u32, day: u32 },
}

impl fmt::Display for Figure {
    /// As typed, but for the number of noughts.
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let decimals = match self {
            Figure::Hours { hours, minutes, seconds, hundredths } => {
                write!(out, "{hours}:{minutes:02}:{seconds:02}")?;
                hundredths
            }
            Figure::Clock { minutes, seconds, hundredths } => {
                write!(out, "{minutes}:{seconds:02}")?;
                hundredths
            }
            Figure::Seconds { seconds, hundredths } => {
                write!(out, "{seconds}")?;
                hundredths
            }
            Figure::Number { value, .. } => return write!(out, "{value}"),
            Figure::Dotted { whole, decimals, places } => {
                return write!(out, "{whole}.{decimals:0width$}", width = usize::from(*places));
            }
        };
        match decimals {
            None => {}
            Some(tenths) if tenths % 10 == 0 => write!(out, ".{}", tenths / 10)?,
            Some(hundredths) => write!(out, ".{hundredths:02}")?,
        }
        if matches!(self, Figure::Seconds { .. }) { out.write_str("s") } else { Ok(()) }
    }
}
