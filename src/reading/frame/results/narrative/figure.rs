//! A figure: a time of one repeat or of several, or how many were made.

use super::{Scope, Slot, Teller, is_fading};
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Figure, Item};
use crate::units::Centis;

impl<'a, 't> Teller<'_, 'a, 't> {
    /// A figure: a time of the repeats in question, or how many.
    pub(super) fn figure(&mut self, at: usize) -> Option<usize> {
        // `smashed it, 3 08` is the time of something else, and no count.
        if self.c.minutes_apart(at).is_some() && self.time_at(at).is_none() {
            return Some(2);
        }
        if self.is_known_send_off(at) {
            return Some(self.uses(at, 1));
        }
        // `six at 48`, `5 on 47`, `4 of them 48`
        if let Some(count) = self
            .count_at(at)
            .filter(|count| self.told.count.or(self.spec.count).is_none_or(|total| *count <= total))
        {
            let next = self.after_little(at + 1);
            let joined = next > at + 1;
            // `made all 8 on the 1:05`, which is when they left.
            let leaves = joined
                && (at + 1..next).any(|place| self.means(place, Concept::SetTime))
                && self.spec.send_off.zip(self.time_at(next)).is_some_and(
                    |(known, ((time, _), ..))| f64::from(known.seconds()) == time.seconds(),
                );
            if leaves && self.time_at(at).is_none() {
                self.told.made = Some((count, self.told.count.or(self.spec.count)));
                return Some(self.uses(at, 1));
            }
            if self.time_at(at).is_none()
                && joined
                && self.time_at(next).is_some()
                && self.scope == Scope::Sequential
            {
                // `48s except 6 was 55`: by its number.
                self.scope = match self.excepted {
                    true => Scope::Places(vec![count]),
                    false => Scope::Next(count),
                };
                return Some(self.uses(at, next - at));
            }
        }
        if let Some((time, length, each)) = self.time_at(at) {
            return Some(self.timed(at, time, length, each));
        }
        let count = self.count_at(at)?;
        let total = self.told.count.or(self.spec.count);
        let before = |concept: Concept| {
            at > 0
                && (self.means(at - 1, concept)
                    || at > 1 && self.little(at - 1) && self.means(at - 2, concept))
        };
        let behind = |concept: Concept| {
            self.means(at + 1, concept) || self.little(at + 1) && self.means(at + 2, concept)
        };
        if total.is_some_and(|total| count > total * 2) {
            return None;
        }
        if before(Concept::Missed) {
            let made = total.and_then(|total| total.checked_sub(count)).filter(|made| *made > 0)?;
            // `missed 7 and 8`: which ones, not how many.
            let listed = self.means(at + 1, Concept::And) && self.count_at(at + 2).is_some();
            if listed {
                let mut places = vec![count];
                places.extend(self.count_at(at + 2));
                self.scope = Scope::Places(places);
                let word = (0..at).rev().find(|place| self.means(*place, Concept::Missed));
                let fades = word.and_then(|word| self.piece(word)).map(|piece| piece.text);
                self.miss(fades.is_some_and(is_fading));
                return Some(self.uses(at, 3));
            }
            self.told.made = Some((made, total));
            return Some(self.uses(at, 1));
        }
        let reported = before(Concept::Made)
            || before(Concept::Held)
            || before(Concept::Done)
            || before(Concept::Swam)
            || before(Concept::Only)
            || before(Concept::Stopped)
            || behind(Concept::Done)
            || behind(Concept::Made)
            || behind(Concept::Reps)
            || before(Concept::All);
        if !reported && self.c.len() > 3 {
            return None;
        }
        match total {
            Some(total) if count < total => {
                self.told.made = self.told.made.or(Some((count, None)));
            }
            Some(total) if count == total => {
                self.told.made_all = true;
                self.told.count = Some(count);
            }
            _ => self.told.count = Some(count),
        }
        Some(self.uses(at, 1) + self.ones(at + 1))
    }

    /// `the rest about 51. 1:05 felt very tight`: what they left on, told beside what they
    /// swam and far from it.
    fn is_known_send_off(&self, at: usize) -> bool {
        const FAR: f64 = 1.15;
        let (Some(known), Some(((time, _), ..))) = (self.spec.send_off, self.time_at(at)) else {
            return false;
        };
        let seconds = time.seconds();
        let is_it = (f64::from(known.seconds()) - seconds).abs() < 0.5;
        let told = self.told.slots.iter().filter_map(|slot| match slot {
            Slot::Swum(swum, _) => Some(swum.seconds()),
            _ => None,
        });
        let slowest = told.fold(0.0, f64::max);
        is_it && slowest > 0.0 && slowest * FAR < seconds
    }

    pub(super) fn timed(
        &mut self,
        at: usize,
        time: (Centis, bool),
        length: usize,
        each: bool,
    ) -> usize {
        let slot = Slot::Swum(time.0, time.1);
        if let Some((scope, cursor)) = self.faded.take()
            && self.scope == Scope::Sequential
            && self.cursor == cursor
            && let Some(taken) = self.faded_times(at, &scope)
        {
            return taken;
        }
        // `all under 50`: a bound, and no time.
        let bound = at > 0
            && (self.means(at - 1, Concept::Under)
                || self.little(at - 1) && at > 1 && self.means(at - 2, Concept::Under));
        if bound {
            self.told.made_all |= self.scope == Scope::All || self.c.has(Concept::All);
            self.scope = Scope::Sequential;
            return self.uses(at, length);
        }
        // `two of them were over 48`: what was not held.
        let slower = at > 0 && self.means(at - 1, Concept::Over);
        if let (true, Some((some, of)), Some(total)) =
            (slower, self.told.made, self.told.count.or(self.spec.count))
            && of.is_none_or(|of| of == total)
            && some < total
        {
            self.told.made = Some((total - some, Some(total)));
            self.told.used[at - 1] = true;
            return self.uses(at, length);
        }
        let before_average = at > 0
            && (self.means(at - 1, Concept::Average)
                || at > 1 && self.little(at - 1) && self.means(at - 2, Concept::Average));
        let after = self.after_little(at + length);
        let behind_average = self.means(at + length, Concept::Average)
            || after > at + length && self.means(after, Concept::Average);
        if before_average || behind_average && self.told.average.is_none() {
            self.told.average = Some(time);
            if behind_average && !before_average {
                return self.uses(at, length) + (after + 1 - at - length);
            }
            return self.uses(at, length);
        }
        let near = |concept: Concept| {
            (at.saturating_sub(3)..at).any(|place| {
                self.means(place, concept)
                    && (place..at).all(|between| self.time_at(between).is_none())
            }) || self.means(at + length, concept)
        };
        if near(Concept::Fastest) || near(Concept::Slowest) {
            self.told.vague = true;
            return self.uses(at, length);
        }
        let started = near(Concept::Started) && !self.means(at.saturating_sub(1), Concept::Held);
        if (started || near(Concept::Ended))
            && self.scope == Scope::Sequential
            && self.c.has(Concept::Started) != self.c.has(Concept::Ended) | true
            && self.has_ends()
        {
            self.told.vague = true;
            return self.uses(at, length);
        }
        // `hold 48`, told beside what was swum, is what was meant to be held.
        // `46 x6`, `48 for 4`, `48 for the first 6`, `48 up to number 5`
        let mut end = at + length;
        if self.scope == Scope::Sequential
            && let Some((count, upto)) = self.how_often(end)
        {
            end = upto;
            for _ in 0..count {
                self.place(slot);
            }
            self.uses(at, end - at);
            return end - at;
        }
        if self.scope == Scope::Sequential
            && let Some((scope, behind)) = self.scope_behind(end)
        {
            self.scope = scope;
            self.place(slot);
            self.uses(at, behind - at);
            return behind - at;
        }
        if each && self.scope == Scope::Sequential {
            self.scope = Scope::All;
        }
        // `all 8 done, 48 48 49 …`: one time each.
        if !each && self.scope == Scope::All && self.time_at(end).is_some_and(|(.., each)| !each) {
            self.scope = Scope::Sequential;
        }
        let scope = self.scope.clone();
        self.place(slot);
        // `first 4 48 49 48 50`: as many times as repeats.
        if let Scope::Next(count) | Scope::Last(count) = scope
            && count > 1
        {
            let mut listed = vec![slot];
            let mut place = end;
            let mut last_end = end;
            while (listed.len() as u32) < count {
                while self.piece(place).is_some_and(|p| {
                    matches!(p.item, Item::Mark(',' | '/' | '-' | '&')) || p.means(Concept::And)
                }) {
                    place += 1;
                }
                let Some((next, taken, false)) = self.time_at(place) else { break };
                listed.push(Slot::Swum(next.0, next.1));
                place += taken;
                last_end = place;
            }
            if listed.len() as u32 == count && last_end > end {
                self.relist(&scope, &listed);
                self.uses(at, last_end - at);
                return last_end - at;
            }
        }
        self.uses(at, length)
    }

    /// `48 on 1 to 6`, `46 on the first`, `51 en los dos ultimos`, `48 los primeros 4 y`:
    /// which repeats a time was of, said behind it, and where that ends.
    pub(super) fn scope_behind(&mut self, at: usize) -> Option<(Scope, usize)> {
        let joined =
            [Concept::On, Concept::For, Concept::In].iter().any(|one| self.means(at, *one));
        let from = self.after_little(if joined { at + 1 } else { at });
        let before = (self.told.used.clone(), self.cursor);
        let found = self.numbered(from).or_else(|| {
            let length = self.scope_word(from)?;
            let scope = std::mem::replace(&mut self.scope, Scope::Sequential);
            let counts = matches!(scope, Scope::Next(_) | Scope::Last(_) | Scope::Places(_));
            counts.then_some((scope, from + length))
        });
        let cursor = self.cursor;
        (self.told.used, self.cursor) = before;
        let (scope, end) = found?;
        let ends = end >= self.c.len()
            || [Concept::And, Concept::But, Concept::Then].iter().any(|one| self.means(end, *one))
            || self.piece(end).is_some_and(|p| matches!(p.item, Item::Mark(_) | Item::Line));
        let follows = joined || ends && self.told.slots.is_empty();
        if !follows || self.time_at(end).is_some() {
            return None;
        }
        self.cursor = cursor;
        Some((scope, end))
    }

    /// `1 to 6`, `7 and 8`, `3-5`: repeats by their numbers.
    pub(super) fn numbered(&self, at: usize) -> Option<(Scope, usize)> {
        let total = self.told.count.or(self.spec.count).unwrap_or(60);
        let number = |place: usize| {
            self.count_at(place).filter(|one| *one <= total && self.time_at(place).is_none())
        };
        if let Item::Range(Figure::Whole { value: from, .. }, Figure::Whole { value: to, .. }) =
            self.piece(at)?.item
            && (1..to).contains(&from)
            && to <= total
        {
            return Some((Scope::Places((from..=to).collect()), at + 1));
        }
        let first = number(at)?;
        let to = self.means(at + 1, Concept::To) || self.means(at + 1, Concept::Until);
        if let Some(last) = number(at + 2).filter(|last| to && *last > first) {
            return Some((Scope::Places((first..=last).collect()), at + 3));
        }
        let mut places = vec![first];
        let mut end = at + 1;
        while let Some(next) = number(end + 1)
            && (self.means(end, Concept::And)
                || self.piece(end).is_some_and(|p| matches!(p.item, Item::Mark(',' | '&'))))
        {
            places.push(next);
            end += 2;
        }
        (places.len() > 1).then_some((Scope::Places(places), end))
    }

    /// `died on 7 and 8, 51 and 52`: not missed, but slow; how many pieces that takes.
    pub(super) fn faded_times(&mut self, at: usize, scope: &Scope) -> Option<usize> {
        let count = match scope {
            Scope::Next(count) | Scope::Last(count) => *count as usize,
            Scope::Places(places) => places.len(),
            _ => return None,
        };
        let mut listed = Vec::new();
        let mut place = at;
        while listed.len() < count {
            // `last 2 blew out to 53`: both.
            let Some(((time, tenths), taken, _)) = self.time_at(place) else {
                let [slot] = listed[..] else { return None };
                listed.resize(count, slot);
                break;
            };
            listed.push(Slot::Swum(time, tenths));
            place += taken;
            while listed.len() < count
                && (self.means(place, Concept::And)
                    || self.piece(place).is_some_and(|p| matches!(p.item, Item::Mark(_))))
            {
                place += 1;
            }
        }
        match scope {
            Scope::Places(places) => {
                for (place, told) in places.iter().zip(listed) {
                    if let Some(slot) = self.told.slots.get_mut((*place as usize).wrapping_sub(1)) {
                        *slot = told;
                    }
                }
            }
            _ => self.relist(scope, &listed),
        }
        Some(self.uses(at, place - at))
    }

    /// How many repeats a time before was swum in, and where that ends.
    pub(super) fn how_often(&self, at: usize) -> Option<(u32, usize)> {
        let piece = self.piece(at)?;
        if piece.text == "x" || piece.item == Item::Mark('*') {
            return self.count_at(at + 1).filter(|count| *count <= 40).map(|count| (count, at + 2));
        }
        if piece.means(Concept::For) && piece.text != "4" {
            let mut next = at + 1;
            while self
                .piece(next)
                .is_some_and(|p| p.means(Concept::Article) || p.means(Concept::First))
            {
                next += 1;
            }
            return self.count_at(next).filter(|count| *count <= 40).map(|count| (count, next + 1));
        }
        if piece.means(Concept::Until) || piece.means(Concept::To) {
            let next = self.after_little(at + 1);
            let last = match self.piece(next)?.item {
                Item::Ordinal(last) => last,
                Item::Figure(Figure::Whole { value, .. }) if self.time_at(next).is_none() => value,
                _ => return None,
            };
            let count = last.checked_sub(u32::try_from(self.cursor).ok()?)?;
            return (1..=40).contains(&count).then_some((count, next + 1));
        }
        None
    }
}
