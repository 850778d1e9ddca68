//! One sense of a word.

use super::Concept;
use crate::message::{Day, Illness, Sport};
use crate::reading::piece::Feast;
use crate::session::Part;
use crate::units::{Course, Equipment, Level, Start, Stroke};

/// What a word, or a few together, may stand for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sense {
    /// `forty`
    Number(u32),
    /// `won` for `one`: a number only where one must stand.
    SoundsLike(u32),
    /// `fifties`
    Plural(u32),
    /// `third`
    Ordinal(u32),
    /// `metres`, `min`, `lengths`
    Unit(UnitWord),
    /// `crawl`
    Stroke(Stroke),
    /// `fins`
    Kit(Equipment),
    /// `easy`
    Level(Level),
    /// How the effort is spread, by the word of the lists.
    Effort(&'static str),
    /// `warm up`
    Part(Part),
    /// `long course`
    Course(Course),
    /// `from a dive`
    Start(Start),
    /// `last night`
    Day(Day),
    /// `april`
    Month(u8),
    /// `easter`
    Feast(Feast),
    /// `ran`: what kind, and what it is called.
    Sport(Sport, &'static str),
    /// `flu`; the kind where it is said.
    Illness(Option<Illness>),
    /// A part of the body, in English, singular.
    Body(&'static str),
    /// Any other meaning.
    Word(Concept),
}

/// A word that counts something.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum UnitWord {
    /// Metres.
    Metre,
    /// Yards.
    Yard,
    /// Thousands of metres.
    Kilo,
    /// Statute miles.
    Mile,
    /// Lengths of the pool.
    Length,
    /// Seconds.
    Second,
    /// Minutes.
    Minute,
    /// Hours.
    Hour,
    /// Days.
    Day,
    /// Weeks.
    Week,
    /// Two weeks.
    Fortnight,
    /// Months.
    Month,
}
