//! When to leave, and how long to rest.

use super::Writer;
use super::written::WrittenPart;
use crate::reading::lexicon::{Concept, Sense, UnitWord};
use crate::reading::piece::{Figure, Item};
use crate::units::{Centis, SendOff};

impl Writer<'_, '_, '_> {
    /// A rest at a place: `20 sec rest`, `rest 20`, `r30`, `with :10 rest`, `+1:00 RI`,
    /// `2 min btw`, `45s between rounds`.
    pub(super) fn rest_at(&self, at: usize) -> Option<(Centis, usize)> {
        let mut place = at;
        while self.piece(place).is_some_and(|piece| {
            piece.means(Concept::With)
                || matches!(piece.item, Item::Mark(',' | '+' | '/' | '-'))
                || piece.means(Concept::And)
                || piece.means(Concept::Article)
                || piece.means(Concept::Extra)
        }) && place < at + 3
        {
            place += 1;
        }
        let pause = |place: usize| -> Option<Centis> {
            match self.piece(place)?.item {
                Item::Span(time) if time.seconds() <= 600.0 => Some(time),
                Item::Each(figure) | Item::Figure(figure) => {
                    let time = *figure.times().first()?;
                    (time.seconds() <= 600.0).then_some(time)
                }
                Item::Word if self.piece(place)?.is(Sense::Unit(UnitWord::Minute)) => {
                    Centis::from_whole_seconds(60).ok()
                }
                _ => None,
            }
        };
        if self.means(place, Concept::RestWord) && !matches!(self.piece(place)?.text, "recovery") {
            let next = self.c.pieces.after(place + 1, |piece| {
                matches!(piece.item, Item::Mark('.' | ':'))
                    || piece.means(Concept::Of)
                    || piece.text == "is"
            });
            return Some((pause(next)?, next + 1));
        }
        let rest = pause(place)?;
        let behind = place + 1;
        let next = self.c.pieces.after(behind, |piece| {
            piece.means(Concept::Of)
                || piece.text == "s"
                || matches!(piece.item, Item::Mark('"' | '\''))
        });
        if self.means(next, Concept::RestWord) {
            return Some((rest, next + 1));
        }
        let between = self.piece(next).is_some_and(|piece| {
            matches!(piece.text, "between" | "btw" | "btwn" | "entre")
                || piece.text == "in" && self.piece(next + 1).is_some_and(|p| p.text == "between")
        });
        if between {
            let stop = self.c.pieces.after(next + 1, |piece| {
                piece.means(Concept::Round)
                    || piece.means(Concept::Article)
                    || piece.means(Concept::Set)
                    || matches!(piece.text, "between" | "each" | "go" | "them")
            });
            return Some((rest, stop));
        }
        // `4x50 with 30 sec`
        let with = place > at && self.piece(at).is_some_and(|piece| piece.means(Concept::With));
        (with && matches!(self.piece(place)?.item, Item::Span(_))).then_some((rest, behind))
    }

    /// Send-offs and rests.
    pub(super) fn timing(&mut self, at: usize) -> Option<usize> {
        if let Some((rest, end)) = self.rest_at(at) {
            let between = (at..end).any(|place| {
                self.piece(place).is_some_and(|piece| {
                    matches!(piece.text, "between" | "btw" | "btwn" | "entre")
                        || piece.means(Concept::Round)
                })
            });
            if between && matches!(self.inside().last(), Some(WrittenPart::Rounds(..))) {
                if let Some(WrittenPart::Rounds(_, _, rests)) = self.inside().last_mut() {
                    *rests = Some(rest);
                }
            } else if let Some(last) = self.last() {
                if last.rest.is_none() {
                    last.rest = Some(rest);
                }
            } else {
                return None;
            }
            return Some(self.uses(at, end));
        }
        let piece = self.piece(at)?;
        let leaves = piece.item == Item::Mark('@')
            || piece.means(Concept::SetTime)
            || matches!(piece.text, "c" | "start" | "at" | "a");
        let mut next = if leaves { at + 1 } else { at };
        if leaves {
            while self.piece(next).is_some_and(|piece| {
                matches!(piece.text, "each" | "on" | "in")
                    || piece.means(Concept::Article)
                    || piece.means(Concept::Every)
                    || piece.means(Concept::SetTime)
                    || matches!(piece.item, Item::Mark('/' | '.' | ':'))
            }) {
                next += 1;
            }
        }
        let seconds = match self.piece(next)?.item {
            Item::Figure(figure)
                if leaves
                    || figure.is_marked()
                    || matches!(figure, Figure::Parted { places: 2, .. }) =>
            {
                let time = figure
                    .times()
                    .into_iter()
                    .find(|time| (10.0..=900.0).contains(&time.seconds()))?;
                time.seconds()
            }
            Item::Span(time) if leaves => time.seconds(),
            Item::Each(figure) if leaves => figure.times().first()?.seconds(),
            Item::Word if leaves && self.piece(next)?.is(Sense::Unit(UnitWord::Minute)) => 60.0,
            _ => return None,
        };
        let send_off = SendOff::new(seconds as u32).ok()?;
        let last = self.last()?;
        if last.send_off.is_none() {
            last.send_off = Some(send_off);
        }
        Some(self.uses(at, next + 1))
    }
}
