//! What stands at a place of the stretch: a time, a count, a word that says little; and what is
//! no time of theirs though it looks like one.

use super::{Slot, Teller, TimeAt};
use crate::reading::frame::clause::fits;
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Figure, Item, Named, Piece};
use crate::units::{Centis, Stroke};

/// Words that say nothing of repeats, wherever they stand among them.
pub const LITTLE: [Concept; 8] = [
    Concept::Article,
    Concept::Of,
    Concept::In,
    Concept::At,
    Concept::On,
    Concept::My,
    Concept::They,
    Concept::Refers,
];

impl<'a, 't> Teller<'_, 'a, 't> {
    pub(super) fn piece(&self, at: usize) -> Option<&'a Piece<'t>> {
        self.c.at(at)
    }

    pub(super) fn means(&self, at: usize, concept: Concept) -> bool {
        self.piece(at).is_some_and(|piece| piece.means(concept))
    }

    pub(super) fn uses(&mut self, at: usize, length: usize) -> usize {
        (at..at + length).for_each(|place| self.told.used[place] = true);
        length
    }

    /// A figure as the time of a repeat.
    pub(super) fn time_of(&self, figure: Figure) -> Option<(Centis, bool)> {
        let expected = self.expected();
        let fit = |time: &Centis| {
            fits(*time, self.spec.distance, self.c.sit.course, self.stroke(), expected)
        };
        let time = figure.times().into_iter().find(fit)?;
        Some((time, figure.has_tenths()))
    }

    pub(super) fn stroke(&self) -> Stroke {
        self.told.stroke.unwrap_or(self.spec.stroke)
    }

    /// What the swimmer's record lets expect.
    pub(super) fn expected(&self) -> Option<f64> {
        let stroke = self.stroke();
        if let Some((_, known)) = self.expected.get().filter(|(of, _)| *of == stroke) {
            return known;
        }
        let expected = self.spec.whose.and_then(|known| known.expected(self.spec.distance, stroke));
        self.expected.set(Some((stroke, expected)));
        expected
    }

    /// The time that stands at a place, and how many pieces it takes. Each place is asked for
    /// by all that stand before it, and looked at once.
    pub(super) fn time_at(&self, at: usize) -> Option<TimeAt> {
        let item = self.piece(at)?.item;
        if !matches!(item, Item::Each(_) | Item::Figure(_) | Item::Plural(_) | Item::Span(_)) {
            return None;
        }
        let stroke = self.stroke();
        let found = |(of, times): &(Stroke, Vec<Option<Option<TimeAt>>>)| {
            times.get(at).copied().flatten().filter(|_| *of == stroke)
        };
        if let Some(known) = found(&self.times.borrow()) {
            return known;
        }
        let time = self.time_looked_at(at);
        let (of, times) = &mut *self.times.borrow_mut();
        if *of != stroke || times.is_empty() {
            *of = stroke;
            times.clear();
            times.resize(self.c.len(), None);
        }
        if let Some(place) = times.get_mut(at) {
            *place = Some(time);
        }
        time
    }

    fn time_looked_at(&self, at: usize) -> Option<TimeAt> {
        let piece = self.piece(at)?;
        match piece.item {
            Item::Each(figure) => Some((self.time_of(figure)?, 1, true)),
            Item::Figure(figure) => {
                // `1 40` for 1:40 where single figures make no time.
                if let (
                    Some(minutes @ 1..=29),
                    Some(Item::Figure(Figure::Whole { value: seconds, places: 2 })),
                ) = (figure.whole(), self.piece(at + 1).map(|piece| piece.item))
                    && seconds < 60
                    && self.time_of(figure).is_none()
                    && let Ok(time) = Centis::new((minutes * 60 + seconds) * 100)
                {
                    let joined = Figure::Whole { value: minutes * 100 + seconds, places: 3 };
                    if self.time_of(joined) == Some((time, false)) {
                        return Some(((time, false), 2, false));
                    }
                }
                Some((self.time_of(figure)?, 1, false))
            }
            // `fifties fine` names them, `all fifties` times them.
            Item::Plural(value)
                if value == self.spec.distance
                    && piece.is_spelled()
                    && !(at > 0 && self.means(at - 1, Concept::All)) =>
            {
                None
            }
            // `50s` where they are no distance of ours.
            Item::Plural(value)
                if value != self.spec.distance
                    || self.only_plural(at)
                        && !piece.is_counted_plural()
                        && !self.is_counted(at) =>
            {
                Some((self.time_of(Figure::Whole { value, places: 2 })?, 1, true))
            }
            Item::Span(time) => {
                let expected = self.expected();
                let fit =
                    fits(time, self.spec.distance, self.c.sit.course, self.stroke(), expected);
                let rests = self.near_rest(at);
                (fit && !rests).then_some(((time, false), 1, false))
            }
            _ => None,
        }
    }

    /// True where a word of rest stands beside.
    pub(super) fn near_rest(&self, at: usize) -> bool {
        self.means(at + 1, Concept::RestWord) || at > 0 && self.means(at - 1, Concept::RestWord)
    }

    /// True if there is no other figure that could be a time.
    pub(super) fn only_plural(&self, at: usize) -> bool {
        let other = |(place, piece): (usize, &Piece<'_>)| {
            place != at
                && matches!(piece.item, Item::Figure(figure) | Item::Each(figure) if self.time_of(figure).is_some())
        };
        !self.c.pieces.iter().enumerate().any(other)
    }

    /// `5 of the 50s`: the repeats themselves.
    pub(super) fn is_counted(&self, at: usize) -> bool {
        let before = (0..at).rev().find(|before| !self.means(*before, Concept::Article));
        before.is_some_and(|of| self.means(of, Concept::Of) && of > 0)
    }

    /// A small number that counts repeats.
    pub(super) fn count_at(&self, at: usize) -> Option<u32> {
        match self.piece(at)?.item {
            Item::Figure(Figure::Whole { value, .. }) if (1..=60).contains(&value) => Some(value),
            _ => None,
        }
    }

    pub(super) fn little(&self, at: usize) -> bool {
        self.piece(at).is_some_and(|piece| {
            LITTLE.iter().any(|concept| piece.means(*concept)) && piece.item == Item::Word
                || matches!(piece.text, "were" | "was" | "i")
        })
    }

    pub(super) fn after_little(&self, mut at: usize) -> usize {
        while self.little(at) {
            at += 1;
        }
        at
    }

    /// `las tandas de 50`: the repeats themselves, and no time.
    pub(super) fn names_repeats(&self, at: usize) -> bool {
        let named = |place: usize| {
            [Concept::Round, Concept::Reps, Concept::Set].iter().any(|one| self.means(place, *one))
        };
        let far = matches!(self.piece(at).map(|piece| piece.item), Some(Item::Figure(Figure::Whole { value, .. })) if value == self.spec.distance);
        let of = at > 1 && self.piece(at - 1).is_some_and(|of| of.text == "de") && named(at - 2);
        far && (of || self.counts_off(at))
    }

    /// `the 6th 50`, `seis de los ocho 50`, `first 50 was 49`: behind what says which of them,
    /// the distance is no time; of the first and the last where another time is told.
    pub(super) fn counts_off(&self, at: usize) -> bool {
        let Some(before) = at.checked_sub(1).and_then(|before| self.piece(before)) else {
            return false;
        };
        let other = |place: usize| place != at && self.time_at(place).is_some();
        match before.item {
            Item::Ordinal(_) | Item::OfAll(..) | Item::Day(Named::OfMonth(_)) => true,
            _ => {
                [Concept::First, Concept::Last, Concept::All].iter().any(|one| before.means(*one))
                    && (at + 1..self.c.len()).any(other)
            }
        }
    }

    /// `on 1:15 instead of 1:05`: what they would have left on, and no time.
    pub(super) fn is_former_send_off(&self, at: usize) -> bool {
        let Some(Item::Figure(figure)) = self.piece(at).map(|piece| piece.item) else {
            return false;
        };
        let known = self.spec.send_off.map(|known| f64::from(known.seconds()));
        at > 0
            && self.means(at - 1, Concept::Instead)
            && figure.times().iter().any(|time| Some(time.seconds()) == known)
    }

    /// `47 for the first 4 and 51 for the last 4`: each time stands before its repeats.
    pub(super) fn tells_behind(&self) -> bool {
        let is_scope =
            |at: &usize| self.means(*at, Concept::First) || self.means(*at, Concept::Last);
        let scopes: Vec<usize> = (0..self.c.len()).filter(is_scope).collect();
        let [first, .., last] = scopes.as_slice() else { return false };
        let is_time = |at| self.time_at(at).is_some();
        (0..*first).any(is_time) && !(*last + 1..self.c.len()).any(is_time)
    }

    /// True where as many times follow as there were repeats, and none was told before.
    pub(super) fn lists_all(&self, at: usize) -> bool {
        let Some(total) = self.told.count.or(self.spec.count) else { return false };
        if self.told.slots.iter().any(|slot| *slot != Slot::Unsaid) {
            return false;
        }
        let times = (at + 1..self.c.len()).filter(|place| self.time_at(*place).is_some());
        // One more than there were says as much as all of them.
        times.take(total as usize + 1).count() == total as usize
    }

    /// True where some repeats are told of and several times in a row come next.
    pub(super) fn lists_behind(&self, at: usize) -> bool {
        let Some(first) = (at + 1..self.c.len()).find(|place| self.time_at(*place).is_some())
        else {
            return false;
        };
        let some = self.told.slots.iter().any(|slot| matches!(slot, Slot::Swum(..)));
        let length = self.time_at(first).map_or(1, |(_, length, _)| length);
        some && first > at + 1 && self.time_at(first + length).is_some()
    }

    /// `55, 56, 57 - she slows`: a dash before words is none for a missed one.
    pub(super) fn speaks_on(&self, at: usize) -> bool {
        self.piece(at + 1).is_some_and(|next| {
            matches!(next.item, Item::Word | Item::Chatter | Item::Unknown | Item::Person(_))
        })
    }

    /// True between or behind the times of a list.
    pub(super) fn in_list(&self, at: usize) -> bool {
        let before = at > 0
            && (self.time_at(at - 1).is_some() || self.means(at - 1, Concept::Missed))
            || at > 1
                && self.piece(at - 1).is_some_and(|piece| matches!(piece.item, Item::Mark(_)))
                && self.time_at(at - 2).is_some();
        before
            && (at + 1 == self.c.len()
                || self.time_at(at + 1).is_some()
                || self
                    .piece(at + 1)
                    .is_some_and(|next| matches!(next.item, Item::Mark(_) | Item::Word)))
    }

    /// `last wed` is a day.
    pub(super) fn day_behind(&self, at: usize) -> bool {
        matches!(self.piece(at + 1).map(|piece| piece.item), Some(Item::Day(_)))
    }

    /// `rest 20`, `20 sec rest`, `rest was 30 s`: a pause, not the other repeats.
    pub(super) fn is_pause(&self, at: usize) -> bool {
        let item = |place: usize| self.piece(place).map(|piece| piece.item);
        let before = at.checked_sub(1).is_some_and(|before| match item(before) {
            Some(Item::Span(time)) => time.seconds() <= 300.0 && self.time_at(before).is_none(),
            Some(Item::Each(_)) => true,
            _ => false,
        });
        let next = self.after_little(at + 1);
        let behind = self.time_at(next).is_none()
            && match item(next) {
                Some(Item::Span(time)) => time.seconds() <= 120.0,
                Some(Item::Figure(Figure::Whole { value: 5..=60, .. })) => true,
                _ => false,
            };
        before || behind
    }

    /// `la 6`: a repeat by its number, or an hour.
    pub(super) fn is_feminine(&self, at: usize) -> bool {
        self.piece(at).is_some_and(|piece| {
            piece.text == "la" && matches!(piece.item, Item::TimeOfDay(1..=40, 0))
        })
    }

    /// Both ends of a set told, and nothing between.
    pub(super) fn has_ends(&self) -> bool {
        let times = (0..self.c.len()).filter(|place| self.time_at(*place).is_some()).count();
        times <= 2 && self.c.has(Concept::Started) || times == 1 && self.c.has(Concept::Ended)
    }

    /// `48 all the way`: the one time told before.
    pub(super) fn lone_time_before(&self, at: usize) -> Option<(Centis, bool)> {
        let [Slot::Swum(time, tenths)] = self.told.slots.as_slice() else { return None };
        if at == 0 {
            return None;
        }
        // `every one on 4 min`: no time of theirs.
        let leaves = |place: usize| {
            place > 0
                && self.means(place - 1, Concept::SetTime)
                && matches!(self.piece(place).map(|piece| piece.item), Some(Item::Span(_)))
        };
        let times = (0..self.c.len())
            .filter(|place| !leaves(*place))
            .filter(|place| self.time_at(*place).is_some());
        (times.take(2).count() == 1).then_some((*time, *tenths))
    }

    /// `not in 48, more like 52`, `couldn't hold 48, 51 52 most of them`, `el 48 no me salía`:
    /// the target that was not held, beside the times that were.
    pub(super) fn is_target_missed(&self, at: usize) -> bool {
        const NEAR: usize = 3;
        let Some(target) = self.spec.target else { return false };
        let denies = |piece: &Piece<'_>| {
            [Concept::Not, Concept::Didnt, Concept::Cant].iter().any(|one| piece.means(*one))
        };
        let figure = |piece: &Piece<'_>| match piece.item {
            Item::Figure(figure) | Item::Each(figure) => Some(figure),
            _ => None,
        };
        let pieces = self.c.pieces;
        let is_target = |piece: &Piece<'_>| {
            figure(piece)
                .is_some_and(|figure| figure.times().into_iter().any(|time| time == target))
        };
        if !pieces.get(at).is_some_and(is_target) {
            return false;
        }
        let before = pieces[at.saturating_sub(NEAR)..at]
            .iter()
            .rev()
            .take_while(|piece| figure(piece).is_none() && !piece.ends_sentence())
            .any(denies);
        let never = |piece: &Piece<'_>| denies(piece) || piece.means(Concept::Missed);
        let behind = pieces.get(at + 1).is_some_and(never)
            && pieces.get(at + 2).is_none_or(|next| figure(next).is_none());
        // `couldn't hold 48. 50s all day`
        let plural = |(place, piece): (usize, &Piece<'_>)| {
            matches!(piece.item, Item::Plural(_)) && self.means(place + 1, Concept::All)
        };
        let all_day = pieces.iter().enumerate().any(plural);
        let held = all_day
            || pieces.iter().any(|piece| {
                !is_target(piece)
                    && figure(piece).is_some_and(|figure| {
                        let share = |time: Centis| time.seconds() / target.seconds();
                        figure.times().into_iter().any(|time| (0.8..1.5).contains(&share(time)))
                    })
            });
        held && (before || behind)
    }
}
