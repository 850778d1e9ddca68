//! What a piece is, and what it may mean.

use super::calendar::Named;
use super::figure::Figure;
use super::length::Far;
use crate::message::Illness;
use crate::reading::health::Signs;
use crate::reading::lexicon::{Alone, Concept, Concepts, Sense};
use crate::units::{Centis, Course, Equipment, Level, Start};

/// What a piece is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Item<'t> {
    /// `312`, `3:12`, `48`
    Figure(Figure),
    /// `200m`, `40 lengths`
    Far(Far),
    /// `8x50`
    Repeat(u32, Far),
    /// `50s`, `the fifties`
    Plural(u32),
    /// `48s`, `1.41s`: a time, of each.
    Each(Figure),
    /// `45 min`, `20"`
    Span(Centis),
    /// `no 6`, `third`
    Ordinal(u32),
    /// `6 of 8`
    OfAll(u32, u32),
    /// `47-49`
    Range(Figure, Figure),
    /// `rpe 6`, in tenths
    Rpe(u8),
    /// `hr 152`
    Pulse(u16),
    /// `tonight`, `20/12`
    Day(Named),
    /// `half 7`
    TimeOfDay(u8, u8),
    /// Someone of the roster.
    Person(usize),
    /// `@name`
    Marked(&'t str),
    /// A bit a lane.
    Lanes(u32),
    /// Words with senses.
    Word,
    /// A word that the language knows and that means nothing here.
    Chatter,
    /// A word that nobody knows.
    Unknown,
    /// A mark.
    Mark(char),
    /// A new line.
    Line,
    /// A picture.
    Picture,
}

/// A piece and where it stands.
#[derive(Debug, Clone, PartialEq)]
pub struct Piece<'t> {
    /// What it is.
    pub item: Item<'t>,
    /// Its first token and the one behind its last.
    pub at: (usize, usize),
    /// The senses of its words, where it is words.
    pub senses: Vec<Sense>,
    /// The word itself, where it is one.
    pub text: &'t str,
    /// Of the last token: `swift's`.
    pub possessive: bool,
    /// What its first word alone may mean.
    pub alone: Alone,
    /// What its first word alone is a sign of.
    pub signs: Signs,
    /// Every concept among the senses that it began with: what is not here, none of the
    /// senses means.
    pub concepts: Concepts,
}

impl Piece<'static> {
    /// What stands where no piece stands: the end of a line.
    pub const NONE: Self = Piece {
        item: Item::Line,
        at: (0, 0),
        senses: Vec::new(),
        text: "",
        possessive: false,
        alone: Alone::NOTHING,
        signs: Signs::NONE,
        concepts: Concepts::NONE,
    };
}

/// What may be meant in a row of pieces.
pub fn concepts_of(pieces: &[Piece<'_>]) -> Concepts {
    pieces.iter().fold(Concepts::default(), |all, piece| all.and(piece.concepts))
}

impl Piece<'_> {
    /// The lanes that it names, lane 1 first.
    pub fn lanes(&self) -> impl Iterator<Item = u8> + use<> {
        let bits = match self.item {
            Item::Lanes(bits) => bits,
            _ => 0,
        };
        (1..=20u8).filter(move |lane| bits & (1 << lane) != 0)
    }

    /// True if it has this sense.
    pub fn is(&self, sense: Sense) -> bool {
        self.senses.contains(&sense)
    }

    /// True if it can mean this.
    pub fn means(&self, concept: Concept) -> bool {
        // Asked more than anything else of a text, and mostly for nothing.
        self.concepts.has(concept)
            && self
                .senses
                .iter()
                .any(|sense| matches!(sense, Sense::Word(word) if *word == concept))
    }

    /// True for a weekday of every week: `mondays`, `los lunes`.
    pub fn is_every_week(&self) -> bool {
        self.text == "los"
            || self.text.ends_with("days")
            || matches!(self.text, "weds" | "tues" | "thurs")
    }

    /// True for a distance behind an article in the plural, which is no time: `los 50`.
    pub fn is_counted_plural(&self) -> bool {
        matches!(self.item, Item::Plural(_)) && self.text == "los"
    }

    /// True for one that is typed in letters: `fifties`.
    pub fn is_spelled(&self) -> bool {
        self.text.chars().all(char::is_alphabetic)
    }

    /// True of a part of the body, an illness, a word of pain.
    pub fn is_of_health(&self) -> bool {
        let ails = |sense: &Sense| {
            matches!(sense, Sense::Body(_) | Sense::Illness(_) | Sense::Word(Concept::Pain))
        };
        self.sense(|sense| ails(sense).then_some(())).is_some()
    }

    /// True for a mark, or a new line, with which a sentence ends.
    pub fn ends_sentence(&self) -> bool {
        matches!(self.item, Item::Mark('.' | '!' | '?' | ';') | Item::Line)
    }

    /// True of what parts a text: the end of a sentence, a comma.
    pub fn is_apart(&self) -> bool {
        self.ends_sentence() || self.item == Item::Mark(',')
    }

    /// The kit that it names.
    pub fn kit(&self) -> Option<Equipment> {
        self.sense(|sense| if let Sense::Kit(kit) = sense { Some(*kit) } else { None })
    }

    /// The pool that it names.
    pub fn course(&self) -> Option<Course> {
        self.sense(|sense| if let Sense::Course(course) = sense { Some(*course) } else { None })
    }

    /// The level that it names.
    pub fn level(&self) -> Option<Level> {
        self.sense(|sense| if let Sense::Level(level) = sense { Some(*level) } else { None })
    }

    /// How a swim began, where it says so.
    pub fn start(&self) -> Option<Start> {
        self.sense(|sense| if let Sense::Start(start) = sense { Some(*start) } else { None })
    }

    /// The illness that it names, of a kind that is none where it only says that there is one.
    pub fn illness(&self) -> Option<Option<Illness>> {
        self.sense(|sense| if let Sense::Illness(what) = sense { Some(*what) } else { None })
    }

    /// The first of its senses for which `f` gives something.
    pub fn sense<O>(&self, f: impl Fn(&Sense) -> Option<O>) -> Option<O> {
        self.senses.iter().find_map(f)
    }
}
