//! What a text has to fill a statement with, each piece once.

use crate::message::{Day, Illness, Kind, Length, Name, Pain, Statement};
use crate::reading::frame::Clause;
use crate::reading::lexicon::{Concept, Sense};
use crate::reading::piece::{Figure, Item, Piece, Pieces, Used};
use crate::reading::situation::Role;

/// The pieces of a text, and which of them stand for something already.
pub struct Slots<'c, 'a, 't> {
    /// The whole text.
    pub c: &'c Clause<'a, 't>,
    /// Which pieces are taken.
    pub used: Used,
}

impl<'c, 'a, 't> Slots<'c, 'a, 't> {
    /// All of a text, nothing of it taken.
    pub fn of(c: &'c Clause<'a, 't>) -> Self {
        Self { c, used: Used::none(c.len()) }
    }

    /// The free pieces and their places.
    pub fn free(&self) -> impl Iterator<Item = (usize, &'a Piece<'t>)> + use<'_, 'a, 't> {
        let pieces: Pieces<'a, 't> = self.c.pieces;
        pieces.iter().enumerate().filter(|(at, _)| !self.used[*at])
    }

    /// The first free piece of which something can be made, taken.
    pub fn take<O>(&mut self, f: impl Fn(usize, &Piece<'t>) -> Option<O>) -> Option<O> {
        let (at, made) = self.free().find_map(|(at, piece)| Some((at, f(at, piece)?)))?;
        self.used[at] = true;
        Some(made)
    }

    /// True if a word of one of these concepts stands within so many pieces before a place.
    pub fn is_behind(&self, at: usize, within: usize, concepts: &[Concept]) -> bool {
        self.c.pieces[at.saturating_sub(within)..at]
            .iter()
            .any(|piece| concepts.iter().any(|one| piece.means(*one)))
    }

    /// A past day that the text names.
    pub fn past_day(&mut self) -> Option<Day> {
        let c = self.c;
        self.take(|_, piece| match piece.item {
            Item::Day(named) if !c.is_ahead(named) => c.past(named),
            _ => None,
        })
    }

    /// Every day that the text names, as days to come.
    pub fn coming_days(&mut self) -> Vec<Day> {
        let c = self.c;
        let mut days: Vec<Day> = Vec::new();
        while let Some(day) = self.take(|_, piece| match piece.item {
            Item::Day(named) => c.coming(named),
            _ => None,
        }) {
            if !days.contains(&day) {
                days.push(day);
            }
        }
        days
    }

    /// A distance: one with its unit, else one that people swim.
    pub fn distance(&mut self) -> Option<Length> {
        let c = self.c;
        self.take(|_, piece| match piece.item {
            Item::Far(far) => c.length(far),
            _ => None,
        })
        .or_else(|| {
            self.take(|_, piece| match piece.item {
                Item::Figure(Figure::Whole { value, .. })
                    if value >= 50 && value.is_multiple_of(25) =>
                {
                    Some(Length { amount: value, unit: None })
                }
                Item::Plural(amount) => Some(Length { amount, unit: None }),
                _ => None,
            })
        })
    }

    /// Whom the text is about: the one it names, the sender; nothing where it names
    /// several or a coach names nobody.
    pub fn who(&mut self) -> Option<Option<Name>> {
        let people = self.c.people();
        let who = match people.as_slice() {
            [] if self.c.sit.role == Role::Swimmer => None,
            [one] if Some(*one) == self.c.sit.me => None,
            [one] if self.c.sit.role == Role::Coach => Some(self.c.name(*one)?),
            _ => return None,
        };
        self.take_people();
        Some(who)
    }

    /// Everyone whom the text names, taken.
    pub fn take_people(&mut self) -> Vec<Name> {
        for (at, piece) in self.c.pieces.iter().enumerate() {
            self.used[at] |= matches!(piece.item, Item::Person(_));
        }
        self.c.people().into_iter().filter_map(|one| self.c.name(one)).collect()
    }

    /// What illness is named.
    pub fn illness(&mut self) -> Option<Illness> {
        self.take(|_, piece| piece.illness()).flatten()
    }

    /// A pain: a part of the body, and a figure up to ten for how strong it is.
    pub fn pain(&mut self) -> Option<Vec<Statement>> {
        let who = self.who()?;
        let place = self.take(|_, piece| {
            piece.sense(|sense| match sense {
                Sense::Body(place) => Some((*place).to_owned()),
                _ => None,
            })
        })?;
        let level = self.take(|_, piece| match piece.item {
            Item::OfAll(level @ 1..=10, 10) => u8::try_from(level).ok(),
            Item::Rpe(tenths) => Some(tenths / 10),
            Item::Figure(Figure::Whole { value: level @ 1..=10, .. })
                if piece.text.chars().all(|letter| letter.is_ascii_digit()) =>
            {
                u8::try_from(level).ok()
            }
            _ => None,
        });
        Some(vec![Statement { who, kind: Kind::Pain(Pain { place, level }) }])
    }
}
