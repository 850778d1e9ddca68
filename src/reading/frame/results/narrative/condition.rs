//! Send-offs, rests, targets, stroke and kit.

use super::{Scope, Slot, Teller};
use crate::reading::frame::clause::stroke_of;
use crate::reading::lexicon::{Concept, Sense};
use crate::reading::piece::{Figure, Item};
use crate::units::{Centis, SendOff};

/// Repeats from which on a bare figure up to nine is minutes, in metres or yards.
const SHORTEST_BY_MINUTE: u32 = 75;

impl<'a, 't> Teller<'_, 'a, 't> {
    /// Send-offs, rests, targets, stroke and kit.
    pub(super) fn condition(&mut self, at: usize) -> Option<usize> {
        let piece = self.piece(at)?;
        if let Some(stroke) = stroke_of(piece) {
            // `el ultimo lo hice a crol` says nothing of the others.
            if self.scope == Scope::Sequential || self.told.stroke.is_none() {
                self.told.stroke = Some(stroke);
            }
            return Some(self.uses(at, 1));
        }
        if let Some(kit) = piece.kit() {
            if !self.told.kit.contains(&kit) {
                self.told.kit.push(kit);
            }
            if at > 0 && self.means(at - 1, Concept::With) {
                self.told.used[at - 1] = true;
            }
            return Some(self.uses(at, 1));
        }
        // `20s rest`, `rest 20`, `r30`, `with 10 s rest`
        let pause = |place: usize| match self.piece(place).map(|piece| piece.item) {
            Some(Item::Span(time)) if time.seconds() <= 600.0 => Some(time),
            Some(Item::Each(Figure::Whole { value, .. })) => Centis::from_whole_seconds(value).ok(),
            Some(Item::Figure(Figure::Whole { value, .. })) if (3..=180).contains(&value) => {
                Centis::from_whole_seconds(value).ok()
            }
            Some(Item::Figure(figure @ Figure::Clock(_))) => figure.times().first().copied(),
            _ => None,
        };
        if piece.means(Concept::RestWord) {
            let next = self.after_little(at + 1);
            if let Some(rest) = pause(next).filter(|_| {
                self.time_at(next)
                    .is_none_or(|_| matches!(self.piece(next).map(|p| p.item), Some(Item::Span(_))))
            }) {
                self.told.rest = Some(rest);
                return Some(self.uses(at, next + 1 - at));
            }
        }
        if let Some(rest) = pause(at).filter(|_| {
            self.means(at + 1, Concept::RestWord)
                && !matches!(self.piece(at + 1).map(|p| p.text), Some("rest"))
                || self.means(at + 1, Concept::RestWord)
                    && matches!(piece.item, Item::Span(_) | Item::Each(_))
        }) {
            self.told.rest = Some(rest);
            if at > 0 && self.means(at - 1, Concept::With) {
                self.told.used[at - 1] = true;
            }
            return Some(self.uses(at, 2));
        }
        self.send_off(at)
    }

    /// `on 1:05`, `@1:50`, `every 2 min`, `off the minute`, where it is no time swum.
    pub(super) fn send_off(&mut self, at: usize) -> Option<usize> {
        let piece = self.piece(at)?;
        let leaves = piece.means(Concept::SetTime) || piece.item == Item::Mark('@');
        if !leaves {
            return None;
        }
        let swapped = (at + 1..self.c.len()).any(|place| self.is_former_send_off(place));
        let next = self.c.pieces.after(at + 1, |p| {
            p.means(Concept::Article) && p.item == Item::Word
                || p.means(Concept::SetTime)
                || matches!(p.item, Item::Mark(':' | '/'))
        });
        // `on 2 10`
        let apart = self.c.minutes_apart(next).and_then(|figure| figure.times().first().copied());
        let width = if apart.is_some() { 2 } else { 1 };
        let seconds = match self.piece(next)?.item {
            _ if let Some(time) = apart => time.seconds(),
            // `10x100 on 2`
            Item::Figure(Figure::Whole { value: minutes @ 1..=9, .. })
                if self.spec.distance >= SHORTEST_BY_MINUTE
                    && self.piece(next)?.text.len() == 1 =>
            {
                f64::from(minutes * 60)
            }
            Item::Figure(figure) => {
                let usual = figure
                    .times()
                    .into_iter()
                    .find(|time| (15.0..=900.0).contains(&time.seconds()))?;
                usual.seconds()
            }
            Item::Span(time) => time.seconds(),
            Item::Word
                if self.piece(next)?.is(Sense::Unit(crate::reading::lexicon::UnitWord::Minute)) =>
            {
                60.0
            }
            _ => return None,
        };
        let expected = self.expected();
        let known = self
            .spec
            .send_off
            .is_some_and(|known| (f64::from(known.seconds()) - seconds).abs() < 0.5);
        let others = (0..self.c.len())
            .filter(|place| *place < at || *place >= next + width)
            .any(|place| self.time_at(place).is_some());
        // What they leave on is longer than what they swim.
        let longest = (0..self.c.len())
            .filter(|place| *place >= next + width && !self.is_former_send_off(*place))
            .filter_map(|place| self.time_at(place))
            .map(|((time, _), ..)| time.seconds())
            .fold(0.0, f64::max);
        // `4x100 a 1:42 1:43 1:43 1:45`: a time each, and the first is one of them.
        let listed = piece.text.len() < 3 && piece.means(Concept::At) && self.lists_all(at);
        if (longest > seconds || listed) && !known {
            return None;
        }
        let is_time = self.time_at(next).is_some();
        let unmistakable = swapped
            || piece.text == "off"
            || piece.means(Concept::Every)
            || piece.item == Item::Mark('@')
            || piece.text.len() > 4
            || piece.at.1 - piece.at.0 > 1;
        let faster = expected.is_some_and(|expected| seconds < expected * 1.02);
        let told = self.told.slots.iter().filter(|slot| matches!(slot, Slot::Swum(..))).count();
        let behind_repeats = at > 0
            && matches!(self.piece(at - 1).map(|piece| piece.item), Some(Item::Repeat(..)))
            || at > 1
                && self.piece(at - 1).is_some_and(|piece| stroke_of(piece).is_some())
                && matches!(self.piece(at - 2).map(|piece| piece.item), Some(Item::Repeat(..)));
        // `3:30 every one on 4 min`
        let behind_times = matches!(self.piece(next).map(|piece| piece.item), Some(Item::Span(_)))
            && self.told.each.is_some_and(|(time, _)| seconds > time.seconds() * 1.05)
            || self.told.average.is_some_and(|(time, _)| seconds > time.seconds() * 1.1);
        let is_send_off = known
            || behind_times
            || behind_repeats && !piece.means(Concept::At)
            || !is_time
            || unmistakable && !faster
            || others
                && told == 0
                && self.scope == Scope::Sequential
                && expected.is_none_or(|expected| seconds > expected * 1.1)
                && self.told.send_off.is_none();
        let settled = known || behind_times || unmistakable;
        if !is_send_off || self.scope != Scope::Sequential && is_time && !settled {
            return None;
        }
        let send_off = SendOff::new(seconds as u32).ok()?;
        if self.told.send_off.is_none() {
            self.told.send_off = Some(send_off);
        }
        Some(self.uses(at, next + width - at))
    }
}
