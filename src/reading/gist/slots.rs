//! What a text has to fill a statement with, each piece once.

use crate::message::{Day, Illness, Kind, Length, Name, Pain, Statement, TypedTime};
use crate::reading::frame::{Clause, typed};
use crate::reading::lexicon::Sense;
use crate::reading::likely::{Stands, Telling, stands};
use crate::reading::piece::{Figure, Item, Piece, Pieces, Used};
use crate::reading::situation::{Known, Role};
use crate::units::{Rpe, Stroke};

/// The pieces of a text, and which of them stand for something already.
pub struct Slots<'c, 'a, 't> {
    /// The whole text.
    pub c: &'c Clause<'a, 't>,
    /// Which pieces are taken.
    pub used: Used,
    /// What each piece stands for; [`Stands::Aside`] for what nothing is to be made of.
    stands: Vec<Stands>,
}

impl<'c, 'a, 't> Slots<'c, 'a, 't> {
    /// All of a text that tells this, nothing of it taken.
    pub fn of(c: &'c Clause<'a, 't>, tells: &[Telling]) -> Self {
        Self::beside(c, tells, Used::none(c.len()))
    }

    /// The same of what is not used yet.
    pub fn beside(c: &'c Clause<'a, 't>, tells: &[Telling], used: Used) -> Self {
        Self { c, used, stands: stands(c, tells) }
    }

    /// True of a piece that stands for this.
    pub fn stands(&self, at: usize, as_what: Stands) -> bool {
        self.stands.get(at) == Some(&as_what)
    }

    /// The free places of what stands for this, in order.
    pub fn places(&self, as_what: Stands) -> Vec<usize> {
        let free = self.free().map(|(at, _)| at);
        free.filter(|at| self.stands(*at, as_what)).collect()
    }

    /// The first free piece that stands for this, made into something and taken.
    pub fn take_as<O>(
        &mut self,
        as_what: Stands,
        f: impl Fn(usize, &Piece<'t>) -> Option<O>,
    ) -> Option<O> {
        let (at, made) = self
            .free()
            .filter(|(at, _)| self.stands(*at, as_what))
            .find_map(|(at, piece)| Some((at, f(at, piece)?)))?;
        self.used[at] = true;
        Some(made)
    }

    /// A count that stands for this.
    pub fn count_as(&mut self, as_what: Stands) -> Option<u32> {
        self.take_as(as_what, |_, piece| count_of(piece))
    }

    /// How hard it was, of ten.
    pub fn effort(&mut self) -> Option<Rpe> {
        let of_ten = self.count_as(Stands::Effort)?;
        Rpe::from_tenths(u8::try_from(of_ten.checked_mul(10)?).ok()?).ok()
    }

    /// The time that a piece is, over a distance and of somebody.
    pub fn time_of(
        &self,
        at: usize,
        distance: u32,
        stroke: Stroke,
        whose: Option<&Known>,
    ) -> Option<TypedTime> {
        let figure = match self.c.at(at)?.item {
            _ if self.stands(at + 1, Stands::Tail) => self.c.minutes_apart(at)?,
            Item::Figure(figure) | Item::Each(figure) | Item::Range(figure, _) => figure,
            Item::Span(time) => return Some(typed(time, false)),
            _ => return None,
        };
        let time = self.c.time(figure, distance, stroke, whose)?;
        Some(typed(time, figure.has_tenths()))
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

    /// A past day that the text names.
    pub fn past_day(&mut self) -> Option<Day> {
        let c = self.c;
        self.take_as(Stands::On, |_, piece| match piece.item {
            Item::Day(named) if !c.is_ahead(named) => c.past(named),
            _ => None,
        })
    }

    /// Every day that stands for this, as days to come.
    pub fn coming_days(&mut self, as_what: Stands) -> Vec<Day> {
        let c = self.c;
        let mut days: Vec<Day> = Vec::new();
        while let Some(day) = self.take_as(as_what, |_, piece| match piece.item {
            Item::Day(named) => c.coming(named),
            _ => None,
        }) {
            if !days.contains(&day) {
                days.push(day);
            }
        }
        days
    }

    /// A distance.
    pub fn distance(&mut self) -> Option<Length> {
        let c = self.c;
        self.take_as(Stands::Distance, |_, piece| match piece.item {
            Item::Far(far) => c.length(far),
            Item::Figure(Figure::Whole { value, .. }) if value >= 25 => {
                Some(Length { amount: value, unit: None })
            }
            Item::Plural(amount) => Some(Length { amount, unit: None }),
            _ => None,
        })
    }

    /// Whom the text is about: the one it names, the sender; nothing where it names
    /// several or a coach names nobody.
    pub fn who(&mut self) -> Option<Option<Name>> {
        let people = self.people();
        let who = match people.as_slice() {
            [] if self.c.sit.role == Role::Swimmer => None,
            [one] if Some(*one) == self.c.sit.me => None,
            [one] if self.c.sit.role == Role::Coach => Some(self.c.name(*one)?),
            _ => return None,
        };
        self.take_people();
        Some(who)
    }

    /// Everyone whom the text is about, taken.
    pub fn take_people(&mut self) -> Vec<Name> {
        let people = self.people();
        for (at, piece) in self.c.pieces.iter().enumerate() {
            self.used[at] |= matches!(piece.item, Item::Person(_));
        }
        people.into_iter().filter_map(|one| self.c.name(one)).collect()
    }

    /// Those whom the text is about, each once.
    fn people(&self) -> Vec<usize> {
        let mut people = Vec::new();
        for (at, piece) in self.c.pieces.iter().enumerate() {
            if let Item::Person(person) = piece.item
                && self.stands(at, Stands::Whom)
                && !people.contains(&person)
            {
                people.push(person);
            }
        }
        people
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
        let level = self.count_as(Stands::Level).filter(|level| (1..=10).contains(level));
        let level = level.and_then(|level| u8::try_from(level).ok());
        Some(vec![Statement { who, kind: Kind::Pain(Pain { place, level }) }])
    }
}

/// How many a piece counts.
pub fn count_of(piece: &Piece<'_>) -> Option<u32> {
    match piece.item {
        Item::Figure(Figure::Whole { value, .. }) | Item::Ordinal(value) => Some(value),
        Item::OfAll(some, _) => Some(some),
        Item::Rpe(tenths) => Some(u32::from(tenths) / 10),
        _ => None,
    }
}
