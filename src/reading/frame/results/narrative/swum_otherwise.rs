//! What was left out, stopped or swum otherwise than it was to be.

use super::{Slot, Teller};
use crate::reading::lexicon::Concept;
use crate::reading::piece::Item;
use crate::units::SendOff;

impl<'a, 't> Teller<'_, 'a, 't> {
    /// `took 1:15 rather than 1:05`, `on the minute instead of 1:05`: what they left on, as
    /// what they would have left on stands behind it.
    pub(super) fn new_send_off(&mut self, at: usize) -> Option<usize> {
        let time = match self.piece(at)?.item {
            Item::Figure(figure) => figure.times().into_iter().find(|time| time.seconds() >= 20.0),
            Item::Span(time) => Some(time),
            _ => None,
        }?;
        let swaps = self.means(at + 1, Concept::Instead) && self.is_former_send_off(at + 2);
        let send_off = SendOff::new(time.seconds() as u32).ok().filter(|_| swaps)?;
        self.told.send_off = Some(send_off);
        Some(self.uses(at, 3))
    }

    /// `52 53 DNF 54`: one of a list that was not finished.
    pub(super) fn dropped(&mut self, at: usize) -> Option<usize> {
        let listed = at > 0 && self.time_at(at - 1).is_some() && self.time_at(at + 1).is_some();
        (listed && self.means(at, Concept::Dnf)).then(|| {
            self.place(Slot::Missed);
            self.uses(at, 1)
        })
    }

    /// `last 200 cut to 100`, `skipped the final 200`: of a part that is none of theirs.
    pub(super) fn another_part(&mut self, at: usize) -> Option<usize> {
        let far = |place: usize| match self.piece(place).map(|piece| piece.item) {
            Some(Item::Figure(figure)) => figure.whole(),
            Some(Item::Far(far)) => self.c.length(far).map(|length| length.amount),
            _ => None,
        };
        let last = self.means(at, Concept::Last) || self.means(at, Concept::First);
        let length = far(at + 1)
            .filter(|far| *far >= 100 && *far != self.spec.distance && far.is_multiple_of(50));
        if !last || length.is_none() {
            return None;
        }
        let shortened = self.means(at + 2, Concept::Cut) && far(at + 3).is_some();
        for before in at.saturating_sub(2)..at {
            self.told.used[before] |=
                self.means(before, Concept::Missed) || self.means(before, Concept::Skip);
        }
        Some(self.uses(at, if shortened { 4 } else { 2 }))
    }

    /// `didn't finish, pager went off after four`, `bailed after 5`: so many were swum.
    pub(super) fn stopped_after(&mut self, at: usize) -> Option<usize> {
        if !(self.means(at, Concept::Past) && self.piece(at)?.text == "after") {
            return None;
        }
        let ended = [Concept::Dnf, Concept::Stopped, Concept::Short];
        let stops = (0..at).any(|place| ended.iter().any(|one| self.means(place, *one)));
        let total = self.told.count.or(self.spec.count)?;
        let count = self.count_at(at + 1).filter(|count| stops && *count < total)?;
        self.told.made = self.told.made.or(Some((count, Some(total))));
        Some(self.uses(at, 2) + self.ones(at + 2))
    }

    /// `half the fifties`, `la mitad de los 50`: so many were swum.
    pub(super) fn half_of_them(&mut self, at: usize) -> Option<usize> {
        let half = self.means(at, Concept::Half);
        let next = self.after_little(at + 1);
        let them = matches!(self.piece(next)?.item, Item::Plural(value) if value == self.spec.distance)
            || self.means(next, Concept::Reps) && !self.means(next, Concept::Set);
        let total = self.told.count.or(self.spec.count).filter(|_| half && them)?;
        self.told.made = Some((total / 2, Some(total)));
        Some(self.uses(at, next + 1 - at))
    }

    /// A time with the repeats that it is of, where those stand behind.
    pub(super) fn time_of_some(&mut self, at: usize) -> Option<usize> {
        // `48 48 49 48 first four`: a list, and then which.
        if !self.behind || at > 0 && self.time_at(at - 1).is_some() {
            return None;
        }
        let ((time, tenths), length, _) = self.time_at(at)?;
        let mut next = self.after_little(at + length);
        while self.means(next, Concept::For) || self.little(next) {
            next += 1;
        }
        let told = self.scope_word(next)?;
        self.place(Slot::Swum(time, tenths));
        self.uses(at, next - at);
        Some(next + told - at)
    }
}
