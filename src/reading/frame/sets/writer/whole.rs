//! What is said of all of a set: its total, and the swims at both of its ends.

use super::Writer;
use super::written::WrittenPart;
use crate::message::Length;
use crate::reading::frame::sets::item::Swim;
use crate::reading::lexicon::{Concept, Hint, Sense};
use crate::reading::piece::{Far, Figure, Item};
use crate::session::Part;
use crate::units::Level;

impl Writer<'_, '_, '_> {
    /// `1300 all up`, `1600 in total`, `should come to 1,200 m`.
    pub(super) fn total_at(&mut self, at: usize) -> Option<usize> {
        let amount = |place: usize| match self.piece(place).map(|piece| piece.item) {
            Some(Item::Figure(Figure::Whole { value, .. })) if value >= 300 => Some(value),
            Some(Item::Far(Far::Of(value, _))) => Some(value),
            _ => None,
        };
        if let Some(value) = amount(at)
            && self.means(at + 1, Concept::Total)
        {
            self.written.stated = Some(value);
            return Some(self.uses(at, at + 2));
        }
        let says = self.means(at, Concept::Total)
            || self
                .piece(at)
                .is_some_and(|piece| piece.text == "come" && self.means(at + 1, Concept::To))
            || self.piece(at).is_some_and(|piece| piece.item == Item::Mark('='));
        if says {
            let next = self.c.pieces.after(at + 1, |piece| {
                matches!(piece.item, Item::Mark(':' | '='))
                    || piece.means(Concept::To)
                    || piece.means(Concept::About)
                    || piece.means(Concept::Of)
            });
            if let Some(value) = amount(next)
                && !self.parts.is_empty()
            {
                self.written.stated = Some(value);
                return Some(self.uses(at, next + 1));
            }
        }
        None
    }

    /// `200 either side`, `200 before and after`: a warm-up and a swim-down.
    pub(super) fn both_ends(&mut self, at: usize) -> Option<usize> {
        let keeps = self
            .piece(at)
            .is_some_and(|piece| piece.means(Concept::Same) || Hint::StaysAtTheEnds.is(piece.text));
        if keeps
            && (at..at + 9).any(|place| {
                self.piece(place).is_some_and(|piece| {
                    piece
                        .sense(|sense| {
                            matches!(sense, Sense::Part(Part::WarmUp | Part::SwimDown))
                                .then_some(())
                        })
                        .is_some()
                        || piece.text == "200s"
                        || matches!(piece.item, Item::Plural(_))
                        || piece.text == "end"
                })
            })
        {
            self.written.keeps_ends = true;
            let end = self.c.pieces.after(at + 1, |piece| {
                piece.means(Concept::And)
                    || piece.means(Concept::Same)
                    || piece
                        .sense(|sense| {
                            matches!(sense, Sense::Part(_) | Sense::Level(_)).then_some(())
                        })
                        .is_some()
                    || matches!(piece.item, Item::Plural(_) | Item::Mark('+'))
                    || Hint::KeptBeside.is(piece.text)
            });
            return Some(self.uses(at, end));
        }
        // `wu/sd 200`
        let is_part = |place: usize, part: Part| {
            let same = |sense: &Sense| (*sense == Sense::Part(part)).then_some(());
            self.piece(place).is_some_and(|piece| piece.sense(same).is_some())
        };
        let joins = self.means(at + 1, Concept::And)
            || self
                .piece(at + 1)
                .is_some_and(|piece| matches!(piece.item, Item::Mark('/' | '&' | '+')));
        if joins && is_part(at, Part::WarmUp) && is_part(at + 2, Part::SwimDown) {
            let (length, end) = self.distance(at + 3)?;
            self.wrap(length, length, at);
            return Some(self.uses(at, end));
        }
        let (length, mut end) = self.distance(at)?;
        while self.piece(end).is_some_and(|piece| piece.level().is_some() || piece.text == "the") {
            end += 1;
        }
        let either = self
            .piece(end)
            .is_some_and(|piece| matches!(piece.text, "either" | "each" | "both" | "before" | "b"));
        let side = self
            .piece(end + 1)
            .is_some_and(|piece| matches!(piece.text, "side" | "end" | "sides" | "ends"));
        let around =
            self.piece(end).is_some_and(|piece| piece.text == "before" || piece.text == "b")
                && (end + 1..end + 4)
                    .any(|place| self.piece(place).is_some_and(|piece| piece.text == "after"));
        if either && side {
            self.wrap(length, length, at);
            return Some(self.uses(at, end + 2));
        }
        if around && !(end + 1..end + 4).any(|place| self.distance(place).is_some()) {
            let stop = (end + 1..end + 4)
                .find(|place| self.piece(*place).is_some_and(|piece| piece.text == "after"))
                .unwrap_or(end);
            self.wrap(length, length, at);
            return Some(self.uses(at, stop + 1));
        }
        // `300 before and 200 after`, `200 up 100 down`, `100 in 100 out`
        let first = self.piece(end).is_some_and(|piece| {
            matches!(piece.text, "before" | "up" | "in" | "first" | "beforehand")
        });
        if first {
            let next = self.c.pieces.after(end + 1, |piece| {
                piece.means(Concept::And) || matches!(piece.item, Item::Mark(','))
            });
            if let Some((after, stop)) = self.distance(next)
                && self.piece(stop).is_some_and(|piece| {
                    matches!(piece.text, "after" | "down" | "out" | "last" | "end" | "to")
                })
            {
                self.wrap(length, after, at);
                return Some(self.uses(at, stop + 1));
            }
            let mut swim = Swim::new(1, length, at);
            swim.part = Some(Part::WarmUp);
            self.parts.insert(0, WrittenPart::One(swim));
            return Some(self.uses(at, end + 1));
        }
        None
    }

    fn wrap(&mut self, before: Length, after: Length, at: usize) {
        let end = |length, part| {
            let mut swim = Swim::new(1, length, at);
            swim.part = Some(part);
            swim.level = Some(Level::Easy);
            WrittenPart::One(swim)
        };
        while !self.groups.is_empty() {
            self.close_group(None);
        }
        self.parts.insert(0, end(before, Part::WarmUp));
        self.parts.push(end(after, Part::SwimDown));
    }
}
