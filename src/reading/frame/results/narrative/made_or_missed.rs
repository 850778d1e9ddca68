//! Words of making and of missing.

use super::{Scope, Slot, Teller, is_fading};
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Item, Named, Piece};
use crate::units::Centis;

/// How many pieces a text may have that says no more than that all was made.
const SHORT: usize = 6;

impl<'a, 't> Teller<'_, 'a, 't> {
    /// Words that tell of repeats without a figure.
    pub(super) fn word(&mut self, at: usize) -> Option<usize> {
        let piece = self.piece(at)?;
        if piece.means(Concept::Missed) {
            return self.missed(at);
        }
        // `did the set`, `completed the set.`
        let did =
            |place: usize| [Concept::Done, Concept::Made].iter().any(|one| self.means(place, *one));
        let denied = self.c.has_any(&[Concept::Not, Concept::Didnt, Concept::Cant, Concept::If]);
        let alone = self.piece(at + 1).is_none_or(Piece::is_apart);
        if piece.means(Concept::Set) && at > 0 && did(at - 1) && alone && !denied {
            self.told.made_all = true;
            return Some(self.uses(at, 1));
        }
        if piece.means(Concept::Average)
            || piece.means(Concept::Held)
            || piece.means(Concept::Reps)
            || piece.means(Concept::Set)
            || piece.means(Concept::Then)
        {
            return Some(self.uses(at, 1));
        }
        if matches!(piece.item, Item::Plural(value) if value == self.spec.distance)
            || matches!(piece.item, Item::Far(far) if self.c.length(far).is_some_and(|length| length.amount == self.spec.distance))
        {
            return Some(self.uses(at, 1));
        }
        // `first four fine`, `the rest were bang on`: held.
        if piece.means(Concept::Good) || piece.means(Concept::Made) {
            if self.scope != Scope::Sequential && self.scope != Scope::All {
                self.place(Slot::Held);
                return Some(self.uses(at, 1));
            }
            // `los 50 bien`, `los 8 clavados`
            let of_all = at > 0
                && self.piece(at - 1).is_some_and(|before| match before.item {
                    Item::Plural(value) => {
                        let names = before.is_counted_plural() || before.is_spelled();
                        value == self.spec.distance && names
                    }
                    Item::Figure(_) => self.spec.count == self.count_at(at - 1),
                    _ => false,
                });
            if of_all {
                self.told.made_all = true;
                return Some(self.uses(at, 1));
            }
            if piece.means(Concept::Made) {
                // `nailed it`, `los clave`; but one made it to the pool.
                let told = !matches!(piece.text, "made" | "make" | "hit" | "got");
                let of_it = self.means(at + 1, Concept::It)
                    || at > 0 && self.means(at - 1, Concept::Article);
                let whole = told && of_it && !denied && self.c.len() <= SHORT;
                if whole || self.scope == Scope::All || self.means(at + 1, Concept::All) {
                    self.told.made_all = true;
                }
                return Some(self.uses(at, 1));
            }
        }
        if piece.means(Concept::Only)
            || piece.means(Concept::Done)
            || piece.means(Concept::About)
            || piece.means(Concept::Under)
            || piece.means(Concept::Fastest)
            || piece.means(Concept::Slowest)
            || piece.means(Concept::Started)
            || piece.means(Concept::Ended)
        {
            return Some(self.uses(at, 1));
        }
        None
    }

    /// `missed the last two`, `missed one`, `skipped 7 and 8`, `missed no 6`.
    pub(super) fn missed(&mut self, at: usize) -> Option<usize> {
        let next = self.after_little(at + 1);
        let mut end = at + 1;
        // `no pude con el 1:05`: the send-off, and no repeat.
        // `no llegué al 48`: nor the target.
        let known = [
            self.spec.send_off.map(|send_off| f64::from(send_off.seconds())),
            self.spec.target.map(|target| target.seconds()),
        ];
        let is_known = |time: &Centis| {
            known.into_iter().flatten().any(|known| (time.seconds() - known).abs() < 0.5)
        };
        if let Some(Item::Figure(figure)) = self.piece(next).map(|piece| piece.item)
            && figure.times().iter().any(is_known)
        {
            self.told.used[at..=next].fill(true);
            return Some(next + 1 - at);
        }
        let counts_ends = self.count_at(next).is_some()
            && (self.means(next + 1, Concept::Last) || self.means(next + 1, Concept::First));
        if counts_ends
            || self.piece(next).is_some_and(|piece| {
                piece.means(Concept::Last)
                    || matches!(piece.item, Item::Ordinal(_) | Item::Day(Named::OfMonth(_)))
                    || self.is_feminine(next)
                    || piece.means(Concept::First)
            })
        {
            let length = self.scope_word(next)?;
            self.miss(is_fading(self.piece(at)?.text));
            end = next + length;
        } else if self.scope != Scope::Sequential && self.scope != Scope::All {
            self.place(Slot::Missed);
        } else if self.piece(next).is_some_and(|piece| piece.means(Concept::One)) {
            self.place(Slot::Missed);
            end = next + 1;
        } else {
            // The number behind is read as a number.
            return Some(self.uses(at, 1));
        }
        self.uses(at, end - at);
        Some(end - at)
    }

    /// Misses the repeats of the scope; their times may follow where they only `fade`d.
    pub(super) fn miss(&mut self, fade: bool) {
        // `50 51 52 53. missed the turnaround on the last 2`: they were swum all the same.
        let swum = |slot: &Slot| matches!(slot, Slot::Swum(..));
        let all = self.told.count.or(self.spec.count).map(|count| count as usize);
        if all == Some(self.told.slots.len()) && self.told.slots.iter().all(swum) {
            self.scope = Scope::Sequential;
            return;
        }
        let scope = self.scope.clone();
        self.place(Slot::Missed);
        self.faded = fade.then_some((scope, self.cursor));
    }
}
