//! A swim, the repeats of one, and what breaks it into parts.

use super::Writer;
use super::written::{WrittenPart, is_swum};
use crate::message::Length;
use crate::reading::frame::clause::stroke_of;
use crate::reading::frame::sets::item::Swim;
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Far, Figure, Item, Piece};
use crate::session::Part;
use crate::units::Stroke;

impl Writer<'_, '_, '_> {
    /// A distance that stands alone.
    pub(super) fn distance(&self, at: usize) -> Option<(Length, usize)> {
        let length = match self.piece(at)?.item {
            Item::Far(far) => self.far(far),
            Item::Figure(Figure::Whole { value, .. }) if is_swum(value) => {
                Some(Length { amount: value, unit: None })
            }
            _ => None,
        };
        length.map(|length| (length, at + 1))
    }

    fn far(&self, far: Far) -> Option<Length> {
        match far {
            // `50k` in a set is 50 of kick.
            Far::Of(amount, _) if amount >= 25_000 && amount.is_multiple_of(1000) => {
                Some(Length { amount: amount / 1000, unit: None })
            }
            Far::Of(amount, unit) => Some(Length { amount, unit }),
            far => self.c.length(far),
        }
    }

    /// `8x50`, `200`, `ten fifties`.
    pub(super) fn swim(&mut self, at: usize) -> Option<usize> {
        let piece = self.piece(at)?;
        let (count, length) = match piece.item {
            Item::Repeat(count, far) => (count, self.far(far)?),
            Item::Far(far) => (1, self.far(far)?),
            Item::Figure(Figure::Whole { value, .. }) if is_swum(value) && !self.is_time(at) => {
                (1, Length { amount: value, unit: None })
            }
            Item::Plural(value)
                if self.piece(at + 1).is_some_and(|next| matches!(next.text, "x")) =>
            {
                (1, Length { amount: value, unit: None })
            }
            _ => return None,
        };
        // A breakdown of the swim before it: `400 as 200 swim, 100 kick, 100 pull`.
        if let Some(length) = self.breakdown(at) {
            return Some(length);
        }
        let mut swim = Swim::new(count, length, at);
        if matches!(piece.item, Item::Far(Far::Of(amount, _)) if amount >= 25_000) {
            swim.stroke = Some(Stroke::Kick);
        }
        swim.part = self.waiting.take();
        if swim.part == Some(Part::SwimDown) || swim.part == Some(Part::WarmUp) {
            self.ends_open_group();
        }
        self.inside().push(WrittenPart::One(swim));
        let ahead: Vec<usize> = std::mem::take(&mut self.ahead);
        for place in ahead {
            self.apply_quality(place);
        }
        Some(self.uses(at, at + 1))
    }

    /// `16x50 as 4 @1:10 4 @1:05 4 @1:00 4 @55`, `12x50, 4 kick 4 drill 4 swim`: the
    /// repeats before it in several ways, which add up to all of them.
    pub(super) fn shares(&mut self, at: usize) -> Option<usize> {
        let WrittenPart::One(whole) = self.inside().last()?.clone() else { return None };
        let mut shares: Vec<(u32, usize)> = Vec::new();
        let mut end = at;
        while let Some(piece) = self.piece(end) {
            match piece.item {
                Item::Figure(Figure::Whole { value, places: 1 | 2 })
                    if value < whole.count && !self.is_time(end) && !self.is_sent_off(end) =>
                {
                    shares.push((value, end));
                }
                Item::Mark('.' | ';' | ')' | ']')
                | Item::Line
                | Item::Repeat(..)
                | Item::Far(_) => {
                    break;
                }
                _ if shares.is_empty() => return None,
                _ => {}
            }
            end += 1;
        }
        let sum: u32 = shares.iter().map(|(count, _)| count).sum();
        if shares.len() < 2 || sum != whole.count {
            return None;
        }
        self.inside().pop();
        let ends: Vec<usize> = shares.iter().skip(1).map(|(_, from)| *from).chain([end]).collect();
        for ((count, from), to) in shares.into_iter().zip(ends) {
            let own = Swim { count, send_off: None, ..whole.clone() };
            self.inside().push(WrittenPart::One(own));
            self.written.used[from] = true;
            let mut place = from + 1;
            while place < to {
                let taken = self.timing(place).or_else(|| self.quality(place));
                place += taken.unwrap_or(1).max(1);
            }
            if let Some(last) = self.last() {
                last.send_off = last.send_off.or(whole.send_off);
            }
        }
        if let Some(before) = at.checked_sub(1)
            && self.piece(before).is_some_and(|one| matches!(one.text, "as" | "como"))
        {
            self.written.used[before] = true;
        }
        Some(end - at)
    }

    /// True for a number that says when to leave: `@55`, `on 55`.
    fn is_sent_off(&self, at: usize) -> bool {
        at.checked_sub(1).and_then(|before| self.piece(before)).is_some_and(|before| {
            before.item == Item::Mark('@')
                || before.means(Concept::SetTime)
                || matches!(before.text, "on" | "cada" | "c" | "off")
        })
    }

    /// True for a number behind a word that makes it a time or a rest.
    fn is_time(&self, at: usize) -> bool {
        let before = |back: usize| at.checked_sub(back).and_then(|place| self.piece(place));
        let timing = |piece: &Piece<'_>| {
            piece.means(Concept::RestWord)
                || piece.item == Item::Mark('@')
                || piece.means(Concept::SetTime)
        };
        let little = before(1).is_some_and(|piece| piece.means(Concept::Article));
        before(1).is_some_and(timing) || little && before(2).is_some_and(timing)
    }

    /// `as 200 swim 100 kick 100 pull`: passes over what adds up to the swim before.
    fn breakdown(&mut self, at: usize) -> Option<usize> {
        let said = at > 0
            && self.piece(at - 1).is_some_and(|piece| {
                matches!(piece.text, "as" | "como") || piece.item == Item::Mark('(')
            });
        if !said {
            return None;
        }
        let (each, whole) = {
            let last = self.last()?;
            (last.length.amount, last.metres())
        };
        let mut sum = 0;
        let mut place = at;
        while let Some(piece) = self.piece(place) {
            match piece.item {
                Item::Repeat(count, far) => sum += count * self.far(far)?.amount,
                Item::Far(far) => sum += self.far(far)?.amount,
                Item::Figure(Figure::Whole { value, .. })
                    if is_swum(value) && !self.is_time(place) =>
                {
                    sum += value
                }
                Item::Mark(')' | ']') => break,
                _ if self.rest_at(place).is_some() => break,
                Item::Mark('.' | ';') | Item::Line => break,
                _ => {}
            }
            place += 1;
            if sum == each || sum == whole {
                // What qualifies its last piece belongs to it.
                while self
                    .piece(place)
                    .is_some_and(|piece| stroke_of(piece).is_some() || piece.text == "swim")
                {
                    place += 1;
                }
                let comment = self.c.typed(at, place).to_owned();
                self.last()?.comment.push(comment);
                return Some(self.uses(at, place));
            }
            if sum > whole {
                return None;
            }
        }
        None
    }
}
