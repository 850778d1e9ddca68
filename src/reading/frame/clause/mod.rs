//! A stretch of the text, as a frame looks at it.

mod days;
mod times;

use crate::message::{Length, Name};
use crate::reading::lexicon::{Concept, Concepts, Sense};
use crate::reading::likely::Likely;
use crate::reading::piece::{Far, Figure, Item, Piece, Pieces};
use crate::reading::situation::{Known, Role, Situation};
use crate::units::{Stroke, Unit};

pub use times::{fits, typed};

/// A stretch of pieces, and the situation they were sent in.
#[derive(Debug, Clone, Copy)]
pub struct Clause<'a, 't> {
    /// The stretch.
    pub pieces: Pieces<'a, 't>,
    /// Where it begins in the whole text.
    pub offset: usize,
    /// All of the text's pieces.
    pub all: Pieces<'a, 't>,
    /// What may be meant in the stretch: nothing else is. A part of it has no more.
    pub among: Concepts,
    /// The same of the whole text.
    pub among_all: Concepts,
    /// Whether the stretch is a question, where that is known: nearly all frames ask.
    pub question: Option<bool>,
    /// The text in plain characters.
    pub plain: &'a str,
    /// Where each token begins and ends in it, in bytes.
    pub spans: &'a [(usize, usize)],
    /// The situation.
    pub sit: &'a Situation,
    /// The text names a danger.
    pub danger: bool,
    /// A word of health stands in it that worries.
    pub unwell: bool,
    /// What the words of the whole text say of its kind.
    pub likely: &'a Likely,
}

impl<'a, 't> Clause<'a, 't> {
    /// How many pieces.
    pub fn len(&self) -> usize {
        self.pieces.len()
    }

    /// True of no pieces.
    pub fn is_empty(&self) -> bool {
        self.pieces.is_empty()
    }

    /// The whole text that the stretch is of.
    #[must_use]
    pub fn whole(&self) -> Self {
        let (pieces, among) = (self.all, self.among_all);
        Clause { pieces, offset: 0, among, question: None, ..*self }
    }

    /// The pieces from one place up to another, as a stretch of their own.
    #[must_use]
    pub fn part(&self, from: usize, to: usize) -> Self {
        let (pieces, offset) = (self.pieces.part(from, to), self.offset + from);
        Clause { pieces, offset, question: None, ..*self }
    }

    /// True if some piece can mean this.
    pub fn has(&self, concept: Concept) -> bool {
        self.among.has(concept) && self.pieces.iter().any(|piece| piece.means(concept))
    }

    /// True if some piece can mean one of these.
    pub fn has_any(&self, concepts: &[Concept]) -> bool {
        concepts.iter().any(|one| self.has(*one))
    }

    /// The first piece that can mean this.
    pub fn find(&self, concept: Concept) -> Option<usize> {
        self.among
            .has(concept)
            .then(|| self.pieces.iter().position(|piece| piece.means(concept)))?
    }

    /// The piece at a place.
    pub fn at(&self, place: usize) -> Option<&'a Piece<'t>> {
        self.pieces.get(place)
    }

    /// What was typed from one piece up to another, in its own letters.
    pub fn typed(&self, from: usize, to: usize) -> &'a str {
        let (Some(first), Some(last)) =
            (self.pieces.get(from), self.pieces.get(to.wrapping_sub(1)))
        else {
            return "";
        };
        let start = self.spans.get(first.at.0).map_or(0, |span| span.0);
        let end = self.spans.get(last.at.1 - 1).map_or(0, |span| span.1);
        self.plain.get(start..end).unwrap_or_default().trim()
    }

    /// A person by number.
    pub fn name(&self, person: usize) -> Option<Name> {
        self.sit.people.get(person).map(|known| known.name.clone())
    }

    /// The people whom the stretch names, in order, each once.
    pub fn people(&self) -> Vec<usize> {
        let mut named: Vec<usize> = Vec::new();
        for piece in self.pieces {
            if let Item::Person(person) = piece.item
                && !named.contains(&person)
            {
                named.push(person);
            }
        }
        named
    }

    /// Whom the stretch is about, where that is somebody else; of a swimmer's own
    /// text nobody behind a word like `with`, `to` or `of`.
    pub fn other(&self) -> Option<usize> {
        let [one] = self.people()[..] else { return None };
        let beside = |at: usize| {
            let words = [
                Concept::With,
                Concept::To,
                Concept::Of,
                Concept::By,
                Concept::Over,
                Concept::Under,
                Concept::Instead,
            ];
            at > 0 && words.iter().any(|word| self.pieces[at - 1].means(*word))
        };
        let at = self.pieces.iter().position(|piece| piece.item == Item::Person(one))?;
        let own = self.sit.role == Role::Swimmer && beside(at);
        (Some(one) != self.sit.me && !own).then_some(one)
    }

    /// Who swam what the stretch tells of: the one it names, else the sender.
    pub fn subject(&self) -> Option<&'a Known> {
        self.other().map_or_else(|| self.sit.own(), |one| self.sit.people.get(one))
    }

    /// A distance as typed, in the pool's unit where none was said.
    pub fn length(&self, far: Far) -> Option<Length> {
        let (amount, unit) = match far {
            Far::Of(amount, unit) => (amount, unit),
            Far::Lengths(count) => (count.checked_mul(self.sit.pool_length())?, None),
            Far::Miles(hundredths) => {
                (u32::try_from(u64::from(hundredths) * 160_934 / 10_000).ok()?, Some(Unit::Metre))
            }
        };
        (1..=100_000).contains(&amount).then_some(Length { amount, unit })
    }

    /// What stands before the stretch.
    fn before(&self) -> Pieces<'a, 't> {
        self.all.part(0, self.offset.min(self.all.len()))
    }

    /// Whom the text named last before the stretch.
    pub fn person_before(&self) -> Option<usize> {
        self.before().iter().rev().find_map(|piece| match piece.item {
            Item::Person(person) => Some(person),
            _ => None,
        })
    }

    /// The stroke that the stretch names, if it names one.
    pub fn stroke(&self) -> Option<Stroke> {
        self.pieces.iter().find_map(stroke_of)
    }
}

/// The stroke that a piece names.
pub fn stroke_of(piece: &Piece<'_>) -> Option<Stroke> {
    piece.sense(|sense| if let Sense::Stroke(stroke) = sense { Some(*stroke) } else { None })
}

/// How many lanes a stretch counts (`3 lanes`), and the place of the figure.
pub fn lane_count(c: &Clause<'_, '_>) -> Option<(usize, u8)> {
    c.pieces.array_windows::<2>().enumerate().find_map(|(at, pair)| {
        match (&pair[0].item, &pair[1]) {
            (Item::Figure(Figure::Whole { value: value @ 1..=10, .. }), lane)
                if lane.means(Concept::Lane) =>
            {
                Some((at, u8::try_from(*value).ok()?))
            }
            _ => None,
        }
    })
}
