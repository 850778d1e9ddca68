//! Which repeats the next time is about: the first five, the last, number 7, all of them.

use super::{Scope, Teller};
use crate::reading::lexicon::{Concept, Sense};
use crate::reading::piece::{Figure, Item, Named};

impl<'a, 't> Teller<'_, 'a, 't> {
    /// Words that say which repeats come next.
    pub(super) fn scope_word(&mut self, at: usize) -> Option<usize> {
        let piece = self.piece(at)?;
        let next = self.after_little(at + 1);
        let counted = self.count_at(next).filter(|count| {
            // `last 49`: its time, and no number of repeats.
            let is_time = self.time_at(next).is_some();
            !is_time || self.time_at(self.after_little(next + 1)).is_some() && *count < 25
        });
        // `los 4 primeros`, `los 2 ultimos`, `the 2 last`
        let fits = |count: &u32| {
            *count <= self.told.count.or(self.spec.count).unwrap_or(24)
                && matches!(piece.item, Item::Figure(_))
        };
        if let Some(count) = self.count_at(at).filter(fits) {
            let which = [
                (Concept::First, Scope::Next(count)),
                (Concept::Last, Scope::Last(count)),
                (Concept::Next, Scope::Next(count)),
            ];
            if let Some((concept, scope)) =
                which.into_iter().find(|(concept, _)| self.means(at + 1, *concept))
                && !self.day_behind(at + 1)
            {
                if concept == Concept::First {
                    self.cursor = 0;
                }
                self.scope = scope;
                return Some(self.uses(at, 2) + self.ones(at + 2));
            }
        }
        if piece.means(Concept::First)
            && !matches!(self.piece(next).map(|p| p.item), Some(Item::Ordinal(_)))
        {
            let total = self.told.count.or(self.spec.count);
            let (count, length) = match counted {
                Some(count) => (count, next + 1 - at),
                None if self.means(next, Concept::Half) => (total? / 2, next + 1 - at),
                None => (1, 1),
            };
            if total.is_some_and(|total| count > total) {
                return None;
            }
            // `53 54 54 for the first three`: told already.
            let ahead = (at + length..self.c.len()).any(|place| self.time_at(place).is_some());
            if !ahead && count > 1 && self.told.slots.len() == count as usize {
                return Some(self.uses(at, length) + self.ones(at + length));
            }
            self.cursor = 0;
            self.scope = Scope::Next(count);
            return Some(self.uses(at, length) + self.ones(at + length));
        }
        // `el 200 del final`: another part of the session.
        if piece.means(Concept::Last)
            && at > 1
            && self.little(at - 1)
            && self.piece(at - 2).is_some_and(|before| {
                matches!(before.item, Item::Figure(Figure::Whole { value: 100.., places: 3.. }))
            })
            && self.time_at(at - 2).is_none()
        {
            self.told.used[at - 2..at].fill(true);
            return Some(self.uses(at, 1));
        }
        if piece.means(Concept::Last) && !self.day_behind(at) {
            let (count, length) = match counted {
                Some(count) => (count, next + 1 - at),
                None => match self.piece(next).map(|p| p.item) {
                    Some(Item::Word)
                        if self.piece(next).is_some_and(|p| p.is(Sense::SoundsLike(2))) =>
                    {
                        (2, next + 1 - at)
                    }
                    _ => (1, 1),
                },
            };
            self.scope = Scope::Last(count);
            return Some(self.uses(at, length) + self.ones(at + length));
        }
        if piece.means(Concept::Next) && counted.is_some() {
            self.scope = Scope::Next(counted?);
            return Some(self.uses(at, next + 1 - at));
        }
        if piece.means(Concept::Odd) && !piece.means(Concept::Held) {
            self.scope = Scope::Odd;
            return Some(self.uses(at, 1));
        }
        if piece.means(Concept::Even) {
            self.scope = Scope::Even;
            return Some(self.uses(at, 1));
        }
        if piece.means(Concept::Except) {
            self.excepted = true;
            return Some(self.uses(at, 1));
        }
        if piece.means(Concept::Rest) && !matches!(piece.text, "rest")
            || piece.means(Concept::Rest) && !self.is_pause(at)
        {
            // `los otros 3`: the next so many.
            self.scope = counted.map_or(Scope::Others, Scope::Next);
            let length = if counted.is_some() { next + 1 - at } else { 1 };
            return Some(self.uses(at, length));
        }
        if let Item::Ordinal(_) = piece.item {
            return self.ordinals(at);
        }
        if let Item::Day(Named::OfMonth(_)) = piece.item
            && piece.text == "el"
            && let Some(length) = self.ordinals(at)
        {
            return Some(length);
        }
        let missed_before = at > 0 && self.means(at - 1, Concept::Missed);
        if self.is_feminine(at)
            && missed_before
            && let Some(length) = self.ordinals(at)
        {
            return Some(length);
        }
        // `all in 47`: each of them.
        let all_in = piece.means(Concept::Total) && piece.means(Concept::Held);
        if all_in && self.time_at(at + 1).is_some() && !self.lists_behind(at) {
            self.scope = Scope::All;
            return Some(self.uses(at, 1));
        }
        // `it all fell apart, 50 51 52`: no word about one time.
        if piece.means(Concept::All) && self.lists_behind(at) {
            return Some(self.uses(at, 1));
        }
        if piece.means(Concept::All) && !piece.means(Concept::Average) {
            let is_count = self.count_at(next).filter(|count| {
                self.time_of(Figure::Whole { value: *count, places: 2 }).is_none()
                    && self
                        .told
                        .count
                        .or(self.spec.count)
                        .is_none_or(|total| total == *count || self.spec.count.is_some())
            });
            self.scope = Scope::All;
            if let Some(count) = is_count {
                let told = (0..self.c.len()).any(|place| self.time_at(place).is_some());
                let speaks = at > 0
                    && [Concept::Made, Concept::Done, Concept::Swam, Concept::Held]
                        .iter()
                        .any(|one| self.means(at - 1, *one));
                self.told.made_all |= speaks && !told && self.spec.count == Some(count);
                self.told.count = self.told.count.or(Some(count));
                return Some(self.uses(at, next + 1 - at) + self.ones(next + 1));
            }
            if let Some(base) = self.lone_time_before(at) {
                self.told.slots.pop();
                self.cursor = self.cursor.saturating_sub(1);
                self.told.each = Some(base);
            }
            return Some(self.uses(at, 1));
        }
        None
    }

    /// Words for the repeats behind a number of them.
    pub(super) fn ones(&mut self, at: usize) -> usize {
        let is = self.piece(at).is_some_and(|piece| {
            piece.means(Concept::Reps)
                || piece.means(Concept::One) && !matches!(piece.text, "one")
                || piece.text == "one"
                    && !self.piece(at + 1).is_some_and(|next| {
                        matches!(next.item, Item::Figure(Figure::Whole { places: 0, .. }))
                    })
                || matches!(piece.item, Item::Plural(value) if value == self.spec.distance)
        });
        if is { self.uses(at, 1) } else { 0 }
    }

    /// `no 6`, `7 and 8`, `5th and 6th`, `the third`.
    pub(super) fn ordinals(&mut self, at: usize) -> Option<usize> {
        let total = self.told.count.or(self.spec.count).unwrap_or(60);
        let mut places = Vec::new();
        let mut end = at;
        let mut place = at;
        loop {
            let number = match self.piece(place).map(|piece| piece.item) {
                Some(Item::Ordinal(number)) => Some(number),
                // `el 7`: of repeats here, not of the month.
                Some(Item::Day(Named::OfMonth(number))) => Some(u32::from(number)),
                // `la 7`: of repeats here, not of the clock.
                Some(Item::TimeOfDay(number, 0)) if self.is_feminine(place) => {
                    Some(u32::from(number))
                }
                Some(Item::Figure(Figure::Whole { value, .. })) if place > at => {
                    // `third one`
                    let one = self.piece(place).is_some_and(|piece| piece.means(Concept::One));
                    (value <= total && !one && self.time_at(place).is_none()).then_some(value)
                }
                _ => None,
            };
            let Some(number) = number.filter(|number| (1..=total).contains(number)) else { break };
            places.push(number);
            end = place + 1;
            place = end;
            while self.means(place, Concept::And)
                || self.little(place) && self.piece(place).is_some_and(|p| p.text == "the")
                || self.piece(place).is_some_and(|p| matches!(p.item, Item::Mark('&' | ',' | '+')))
            {
                place += 1;
            }
        }
        if places.is_empty() {
            return None;
        }
        self.scope = Scope::Places(places);
        let length = end - at;
        Some(self.uses(at, length) + self.ones(end))
    }
}
