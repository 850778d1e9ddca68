//! The text as a row of pieces: at each place the longest that fits.

use nom::Parser;
use nom::combinator::map;

use super::calendar::{self, Named};
use super::cell::{Cell, Read, Words};
use super::figure::{self, Figure};
use super::length::{self, Far};
use super::{people, share};
use crate::language::Language;
use crate::message::Illness;
use crate::reading::health::{Signs, signs_of};
use crate::reading::lex::Form;
use crate::reading::lexicon::{Alone, Concept, Concepts, Lexicon, Sense};
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

/// Takes a text's cells as pieces. `knows` tells the places of ordinary words from those of
/// unknown ones.
pub fn pieces<'t>(
    cells: &'t [Cell<'t>],
    language: Language,
    knows: impl Fn(usize) -> bool,
) -> Vec<Piece<'t>> {
    let lexicon = Lexicon::of(language);
    let mut pieces = Vec::with_capacity(cells.len());
    let mut at = 0;
    // The next cell that speaks of a danger: no shape reaches over it.
    let silent = |from: usize| {
        let next = cells[from..].iter().position(|cell| cell.spoken_for);
        next.map_or(cells.len(), |next| from + next)
    };
    let mut end = silent(0);
    while at < cells.len() {
        if cells[at].spoken_for {
            pieces.push(spoken_for(&cells[at], at, language));
            at += 1;
            continue;
        }
        if end < at {
            end = silent(at);
        }
        let input = Words(&cells[at..end]);
        let shaped = shape(input);
        // `48/48/49`: a row of times has no shares or ranges at its end.
        let shaped = match shaped {
            Ok((_, Item::Range(..) | Item::OfAll(..) | Item::Rpe(_) | Item::Day(_)))
                if in_row(&pieces) && matches!(cells[at].token.form, Form::Digits { .. }) =>
            {
                map(figure::figure, Item::Figure).parse(input)
            }
            other => other,
        };
        let shaped = match in_commas(&pieces, &cells[at..end]) {
            Some(item) => Ok((Words(&cells[at + 1..end]), item)),
            None => shaped,
        };
        let shaped = shaped.map(|(rest, item)| (end - at - rest.0.len(), item));
        let cell = &cells[at];
        let longest = cell.senses.first().map_or(0, |found| found.words);
        let piece = |item, length: usize, senses: Vec<Sense>| Piece {
            item,
            at: (at, at + length),
            concepts: concepts(&senses),
            senses,
            text: cell.token.text,
            possessive: cells[at + length - 1].token.possessive,
            alone: lexicon.alone(cell.token.text),
            signs: signs_of(cell.token.text, language),
        };
        let senses = |length: usize| -> Vec<Sense> {
            cell.senses
                .iter()
                .filter(|found| found.words == length)
                .map(|found| found.sense)
                .collect()
        };
        let piece = match shaped {
            Ok((length, item)) if length >= longest => piece(item, length, senses(length)),
            _ if longest > 0 => piece(Item::Word, longest, senses(longest)),
            _ => {
                let item = match cell.token.form {
                    Form::Mark(mark) => Item::Mark(mark),
                    Form::Line => Item::Line,
                    Form::Picture => Item::Picture,
                    Form::Digits { value, places } => Item::Figure(Figure::Whole { value, places }),
                    Form::Word if knows(at) => Item::Chatter,
                    Form::Word => Item::Unknown,
                };
                piece(item, 1, Vec::new())
            }
        };
        at = piece.at.1;
        pieces.push(piece);
    }
    pieces
}

fn concepts(senses: &[Sense]) -> Concepts {
    senses.iter().fold(Concepts::default(), |all, sense| match sense {
        Sense::Word(concept) => all.with(*concept),
        _ => all,
    })
}

/// A word that speaks of a danger: nothing is to be made of it here.
fn spoken_for<'t>(cell: &Cell<'t>, at: usize, language: Language) -> Piece<'t> {
    Piece {
        item: Item::Picture,
        at: (at, at + 1),
        senses: Vec::new(),
        text: cell.token.text,
        possessive: false,
        alone: Lexicon::of(language).alone(cell.token.text),
        signs: signs_of(cell.token.text, language),
        concepts: Concepts::default(),
    }
}

/// `47,47,48,46`: a figure of two digits in a row parted by commas alone is no decimal.
fn in_commas<'t>(pieces: &[Piece<'t>], cells: &'t [Cell<'t>]) -> Option<Item<'t>> {
    let two = |cell: &Cell<'_>| match cell.token.form {
        Form::Digits { value, places: places @ 2 } => Some(Figure::Whole { value, places }),
        _ => None,
    };
    let figure = cells.first().and_then(two)?;
    let next = |at: usize| {
        cells.get(at).is_some_and(|comma| comma.token.glued && comma.token.is_mark(','))
            && cells.get(at + 1).is_some_and(|cell| cell.token.glued && two(cell).is_some())
    };
    let behind = match pieces {
        [.., Piece { item: Item::Figure(Figure::Whole { places: 2, .. }), .. }, comma] => {
            comma.item == Item::Mark(',') && cells[0].token.glued
        }
        _ => false,
    };
    let ends = cells.get(1).is_none_or(|next| !next.token.is_mark('.') && !next.token.is_mark(':'));
    (behind && ends || next(1) && next(3)).then_some(Item::Figure(figure))
}

/// True behind a figure and a stroke or dash.
fn in_row(pieces: &[Piece<'_>]) -> bool {
    let [.., before, mark] = pieces else { return false };
    matches!(before.item, Item::Figure(_)) && matches!(mark.item, Item::Mark('/' | '-'))
}

/// Words that a shape begins with whatever they mean.
const BEGIN: [&str; 29] = [
    "a", "al", "an", "c", "ciento", "couple", "cuarto", "de", "del", "el", "en", "este", "hace",
    "half", "l", "la", "las", "ln", "los", "on", "one", "otra", "para", "por", "the", "un", "una",
    "w", "wc",
];

/// False for a word that no shape begins with: most of a text are.
fn begins(cell: &Cell<'_>) -> bool {
    let may_be = |sense: Sense| match sense {
        Sense::Number(_)
        | Sense::SoundsLike(_)
        | Sense::Plural(_)
        | Sense::Ordinal(_)
        | Sense::Feast(_)
        | Sense::Month(_)
        | Sense::Day(_)
        | Sense::Unit(_) => true,
        Sense::Word(concept) => matches!(
            concept,
            Concept::Article
                | Concept::At
                | Concept::Between
                | Concept::DayAfterTomorrow
                | Concept::DayBeforeYesterday
                | Concept::EndOf
                | Concept::From
                | Concept::Half
                | Concept::Hr
                | Concept::Lane
                | Concept::Last
                | Concept::Next
                | Concept::No
                | Concept::Quarter
                | Concept::Rpe
                | Concept::This
                | Concept::Within
        ),
        _ => false,
    };
    cell.person.is_some()
        || cell.senses.iter().any(|found| may_be(found.sense))
        || BEGIN.contains(&cell.token.text)
}

/// The longest shape at a place; of equal ones the first here.
fn shape<'t>(input: Words<'t>) -> Read<'t, Item<'t>> {
    // No shape begins with what ends a sentence or parts one.
    let parts = |form| {
        matches!(form, Form::Mark(',' | '.' | ';' | '!' | '?' | ')') | Form::Line | Form::Picture)
    };
    if input.0.first().is_none_or(|cell| parts(cell.token.form)) {
        return super::cell::no(input);
    }
    let begins_word = input.0.first().is_some_and(|cell| cell.token.form == Form::Word);
    let may_count = input.0.first().is_some_and(|cell| {
        !begins_word
            || cell.person.is_some()
            || !cell.senses.is_empty()
            || cell.means(Concept::Article)
    });
    if !may_count || begins_word && !input.0.first().is_some_and(begins) {
        return super::cell::no(input);
    }
    let mut best: Option<(Words<'t>, Item<'t>)> = None;
    let mut consider = |read: Read<'t, Item<'t>>| {
        if let Ok((rest, item)) = read
            && best.as_ref().is_none_or(|(before, _)| rest.0.len() < before.0.len())
        {
            best = Some((rest, item));
        }
    };
    consider(map(people::person, Item::Person).parse(input));
    consider(map(people::marked, Item::Marked).parse(input));
    consider(map(people::lanes, Item::Lanes).parse(input));
    consider(map(share::rpe, Item::Rpe).parse(input));
    consider(map(share::of_all, |(some, all)| Item::OfAll(some, all)).parse(input));
    consider(map(calendar::day, Item::Day).parse(input));
    consider(map(length::repeat, |(count, far)| Item::Repeat(count, far)).parse(input));
    consider(map(length::far, Item::Far).parse(input));
    consider(map(length::plural, Item::Plural).parse(input));
    consider(map(each, Item::Each).parse(input));
    consider(
        map(calendar::time_of_day, |(hour, minute)| Item::TimeOfDay(hour, minute)).parse(input),
    );
    consider(map(share::pulse, Item::Pulse).parse(input));
    consider(map(share::range, |(from, to)| Item::Range(from, to)).parse(input));
    consider(map(share::ordinal, Item::Ordinal).parse(input));
    consider(map(figure::figure, Item::Figure).parse(input));
    consider(map(figure::span, Item::Span).parse(input));
    match best {
        Some(found) => Ok(found),
        None => super::cell::no(input),
    }
}

/// `48s`, `1.41s`, `1:39s`
fn each<'t>(input: Words<'t>) -> Read<'t, Figure> {
    let (rest, figure) = figure::figure(input)?;
    let (rest, ()) = super::cell::glued_word(&["s"])(rest)?;
    Ok((rest, figure))
}
