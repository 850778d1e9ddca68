//! The parts that statements share: names, days, times and lengths as typed.

use jiff::civil::{Date, Weekday};
use serde::{Deserialize, Serialize};
use strum::{IntoStaticStr, VariantNames};

use super::Statement;
use crate::units::{Centis, Unit};

/// A whole text, read: one statement or more, applied together or not at all.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Message {
    /// In the order typed; never empty.
    pub statements: Vec<Statement>,
}

/// What came of reading a text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Reading {
    /// All of it was read.
    Understood(Message),
    /// All of it can be read once a word or a number is settled.
    Unsure {
        /// What the text says if the answer is yes (or the option chosen); none
        /// where only typing it again can settle it.
        options: Vec<Choice>,
        /// What to ask.
        asks: Doubt,
        /// What holds whatever is answered, and waits for no answer.
        told: Vec<Statement>,
    },
    /// Some of it could not be read; nothing of it may be applied.
    NotUnderstood {
        /// The statements that could be read.
        understood: Vec<Statement>,
        /// The words that could not, as typed.
        rest: String,
        /// One text that works, near to what was tried.
        example: &'static str,
    },
}

/// One answer to a [`Doubt`], and what the text then says.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Choice {
    /// The one word that settles it: `yes`, `25m`, `1500`.
    pub word: String,
    /// The text as it then reads.
    pub message: Message,
}

/// Why a text is asked about before anything is stored.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[derive(IntoStaticStr, VariantNames)]
#[serde(rename_all = "snake_case", tag = "doubt")]
pub enum Doubt {
    /// A misspelt word that would store something: `tset` for `test`.
    Spelling {
        /// The word as typed.
        typed: String,
        /// The word it is taken for.
        meant: String,
    },
    /// A `mile` may be 1500 m or 1650 yd.
    Mile,
    /// Splits whose sum is not the time (within 0.3 s).
    Splits {
        /// The sum of the splits.
        sum: Centis,
        /// The time given.
        time: Centis,
    },
    /// A list with more or fewer times than repeats.
    TimesCount {
        /// Times given.
        given: u16,
        /// Repeats said.
        repeats: u16,
    },
    /// A number that may be read in more than one way: which of two is the
    /// distance, or what an unmarked `45` or `on 130` counts.
    Figure {
        /// The number or numbers as typed.
        typed: String,
    },
    /// A distance and a time and nothing that says whether it was a test or a
    /// session.
    TestOrSession,
    /// It reads so, and something beside it may change that.
    Meant {
        /// What it would say.
        says: Vec<Statement>,
    },
    /// It reads in two ways, the first likelier.
    Either {
        /// What it would say.
        first: Vec<Statement>,
        /// What else it may say.
        second: Vec<Statement>,
    },
    /// It can't be kept without one thing more.
    Missing {
        /// What that is.
        wants: Wants,
    },
    /// Digits of a script that we do not count with.
    Digits {
        /// The number as typed.
        typed: String,
    },
}

/// What a text left out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Wants {
    /// How far a time was swum.
    Distance,
    /// How long a distance took.
    Time,
    /// The times of a set, or their average.
    Times,
    /// How far a session was.
    HowFar,
    /// Whose it is.
    Whose,
    /// Who is meant.
    Who,
    /// Which day.
    Day,
    /// In or out.
    Coming,
    /// How late.
    HowLate,
    /// Which lane.
    Lane,
    /// What to swim.
    Set,
    /// What of a set is to be otherwise.
    Change,
    /// Which race.
    Race,
    /// What of it.
    Which,
}

/// A person as typed: a handle, in lower case.
///
/// Shape: 2 to 20 letters, digits, `-` or `_`, beginning with a letter.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Name(String);

/// A word that is no handle.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("`{0}` is no name of 2 to 20 letters, digits, - or _, beginning with a letter")]
pub struct NotAName(pub String);

impl Name {
    /// A handle from a word in any case.
    ///
    /// # Errors
    /// [`NotAName`] for any other shape.
    pub fn new(word: &str) -> Result<Self, NotAName> {
        let name = word.to_lowercase();
        let begins = name.chars().next().is_some_and(char::is_alphabetic);
        if begins && (2..=20).contains(&name.chars().count()) && name.chars().all(belongs_to_a_name)
        {
            Ok(Self(name))
        } else {
            Err(NotAName(word.to_owned()))
        }
    }

    /// The handle, in lower case.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

/// The words of a text that could be handles, in their order.
pub fn names_in(text: &str) -> impl Iterator<Item = Name> {
    let words = text.split(|c: char| !belongs_to_a_name(c));
    words.filter_map(|word| Name::new(word).ok())
}

fn belongs_to_a_name(c: char) -> bool {
    c.is_alphanumeric() || c == '-' || c == '_'
}

impl std::fmt::Display for Name {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        out.write_str(&self.0)
    }
}

impl TryFrom<String> for Name {
    type Error = NotAName;

    fn try_from(word: String) -> Result<Self, NotAName> {
        Self::new(&word)
    }
}

impl From<Name> for String {
    fn from(name: Name) -> String {
        name.0
    }
}

/// A day as typed, to be settled against the squad's clock.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Day {
    /// `today`, `tonight`.
    Today,
    /// `yesterday`, `last night`.
    Yesterday,
    /// `tomorrow`.
    Tomorrow,
    /// `tue`: the last one for what was swum, the next one for a plan.
    On(#[serde(with = "weekday")] Weekday),
    /// `last tue`: before this week's.
    Last(#[serde(with = "weekday")] Weekday),
    /// `20/11` as typed; the squad's date order says which is the month.
    Slashed(u8, u8),
    /// `20 dec`: day and month, the year to be settled.
    DayMonth(u8, u8),
    /// `20/11/2026` as typed; the squad's date order says which is the month.
    SlashedYear(u8, u8, i16),
    /// `2026-11-20`
    Full(Date),
}

/// A time as typed, with every reading it can have, the likelier first.
///
/// `3:12` has one; the poolside `3.12` has two, 3 min 12 s and 3.12 s, and the
/// distance decides.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct TypedTime {
    /// One or two times.
    pub readings: Vec<Centis>,
    /// True where it was given in tenths or hundredths of a second.
    pub tenths: bool,
}

impl TypedTime {
    /// A time that can be read one way only.
    pub fn sure(time: Centis) -> Self {
        Self { readings: vec![time], tenths: !time.is_whole_seconds() }
    }
}

/// A distance as typed; without a unit it is in that of the course.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Length {
    /// How many, 1 to 100,000.
    pub amount: u32,
    /// The unit, where one was typed.
    pub unit: Option<Unit>,
}

/// Weekdays by their English name, which jiff's own type has no serde form for.
mod weekday {
    use jiff::civil::Weekday;
    use serde::{Deserialize, Deserializer, Serializer};

    pub fn serialize<S: Serializer>(day: &Weekday, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_i8(day.to_monday_one_offset())
    }

    pub fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<Weekday, D::Error> {
        Weekday::from_monday_one_offset(i8::deserialize(from)?).map_err(serde::de::Error::custom)
    }
}
