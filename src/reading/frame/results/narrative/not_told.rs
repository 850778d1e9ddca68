//! Figures that look like times of the repeats, and are none: what might have been swum, how
//! old somebody is, how many shared the lane, what they left on.

use super::{Scope, Slot, Teller};
use crate::reading::lexicon::{Concept, Hint};
use crate::reading::piece::{Figure, Item, Piece};
use crate::units::SendOff;

/// How far before a figure a word may stand that says what it is.
const NEAR: usize = 4;

impl<'a, 't> Teller<'_, 'a, 't> {
    /// Passes over such a figure; how many pieces that takes.
    pub(super) fn not_told(&mut self, at: usize) -> Option<usize> {
        let item = self.piece(at)?.item;
        if let Item::Plural(value) = item {
            return self.held_after_all(at, value);
        }
        if !matches!(item, Item::Figure(_) | Item::Each(_) | Item::Span(_)) {
            return None;
        }
        if let Some(length) = self.left_on(at) {
            return Some(length);
        }
        (self.might_have(at) || self.counts_others(at)).then(|| self.uses(at, 1))
    }

    /// `could of gone 46s`, `should have held 47`, `podria haber hecho 46`.
    fn might_have(&self, at: usize) -> bool {
        let might = |piece: &Piece<'_>| Hint::Might.is(piece.text);
        let had = |piece: &Piece<'_>| Hint::HadDone.is(piece.text);
        let joined = |piece: &Piece<'_>| Hint::MightHave.is(piece.text);
        let before = self.c.pieces.part(at.saturating_sub(NEAR), at);
        let from = before.iter().rposition(Piece::is_apart).map_or(0, |mark| mark + 1);
        let before = before.part(from, before.len());
        before.iter().any(joined)
            || before.array_windows::<2>().any(|[first, second]| might(first) && had(second))
    }

    /// `for a 54 year old`, `eramos 4 en el carril`.
    fn counts_others(&self, at: usize) -> bool {
        let years = |piece: &Piece<'_>| Hint::Years.is(piece.text);
        let behind = self.piece(at + 1).is_some_and(years);
        let of_us = at > 0
            && self.piece(at - 1).is_some_and(|piece| Hint::WereSoMany.is(piece.text))
            && self
                .piece(at + 1)
                .is_some_and(|next| next.means(Concept::In) || next.means(Concept::Of));
        behind || of_us
    }

    /// `con 1:15 de salida`: what they left on stands before its word.
    fn left_on(&mut self, at: usize) -> Option<usize> {
        let time = match self.piece(at)?.item {
            Item::Figure(figure) => figure.times().into_iter().find(|time| time.seconds() >= 20.0),
            Item::Span(time) => Some(time),
            _ => None,
        }?;
        let of = usize::from(self.means(at + 1, Concept::Of));
        let word = self.piece(at + 1 + of)?;
        let is_word = word.means(Concept::SendOffWord) && word.at.1 - word.at.0 == 1;
        // `1:15 salida 5 segundos`: behind it comes another.
        let ends = self.time_at(at + 2 + of).is_none();
        if !is_word || !ends {
            return None;
        }
        self.told.send_off = self.told.send_off.or(SendOff::new(time.seconds() as u32).ok());
        Some(self.uses(at, 2 + of))
    }

    /// `couldn't hold 48. 50s all day`: behind the target that was missed it is no distance.
    fn held_after_all(&mut self, at: usize, value: u32) -> Option<usize> {
        let missed = (0..at).any(|place| self.is_target_missed(place));
        let all = self.means(at + 1, Concept::All);
        let figure = Figure::Whole { value, places: 2 };
        let (time, tenths) = self.time_of(figure).filter(|_| missed && all)?;
        self.scope = Scope::All;
        self.place(Slot::Swum(time, tenths));
        Some(self.uses(at, 2))
    }
}
