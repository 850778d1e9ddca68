//! What became of a set's repeats, as people tell it: a list of times, `all 48s`,
//! `first five 48 then 50 51 52`, `made 6 of 8`, `last one 44, the rest 48`.
//!
//! Works from left to right over the pieces, with the repeats that the next time
//! is about; knows how many there were and how far, and nothing of who swam.

use crate::reading::frame::Clause;
use crate::reading::frame::clause::{fits, stroke_of};
use crate::reading::lexicon::{Concept, Sense};
use crate::reading::piece::{Figure, Item, Named, Piece};
use crate::reading::situation::Known;
use crate::units::{Centis, Equipment, SendOff, Stroke};

/// What is known of the repeats before a word of the stretch is read.
#[derive(Debug, Clone, Copy)]
pub struct Spec<'a> {
    /// How many there were to be.
    pub count: Option<u32>,
    /// How far each, in the pool's unit.
    pub distance: u32,
    /// Their stroke.
    pub stroke: Stroke,
    /// What was to be held.
    pub target: Option<Centis>,
    /// Their send-off.
    pub send_off: Option<SendOff>,
    /// Whose record tells which times can be.
    pub whose: Option<&'a Known>,
    /// It may be told while they are being swum: a time is that of one repeat.
    pub so_far: bool,
}

/// One repeat.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Slot {
    /// Nothing was said of it.
    Unsaid,
    /// It was not made, or not swum.
    Missed,
    /// Its time, and whether tenths were given.
    Swum(Centis, bool),
    /// It was held, at whatever it was.
    Held,
}

/// What a stretch tells.
#[derive(Debug, Clone, Default)]
pub struct Told {
    /// Repeats, in order; as long as was told of.
    pub slots: Vec<Slot>,
    /// A count that was said.
    pub count: Option<u32>,
    /// One time for each of them, and whether tenths were given.
    pub each: Option<(Centis, bool)>,
    /// Their average.
    pub average: Option<(Centis, bool)>,
    /// So many were made, of so many where that was said.
    pub made: Option<(u32, Option<u32>)>,
    /// All were made.
    pub made_all: bool,
    /// Only the best, the worst or a range was told.
    pub vague: bool,
    /// Send-off.
    pub send_off: Option<SendOff>,
    /// Rest.
    pub rest: Option<Centis>,
    /// A target that was said.
    pub target: Option<Centis>,
    /// Stroke.
    pub stroke: Option<Stroke>,
    /// Kit.
    pub kit: Vec<Equipment>,
    /// Effort in tenths.
    pub rpe: Option<u8>,
    /// Pulse.
    pub pulse: Option<u16>,
    /// The day.
    pub day: Option<Named>,
    /// Which pieces were understood.
    pub used: Vec<bool>,
}

impl Told {
    /// True if something was told of the repeats.
    pub fn is_something(&self) -> bool {
        !self.slots.is_empty()
            || self.each.is_some()
            || self.average.is_some()
            || self.made.is_some()
            || self.made_all
            || self.vague
    }
}

/// Which repeats the next time is about.
#[derive(Debug, Clone, PartialEq, Eq)]
enum Scope {
    Sequential,
    Next(u32),
    Last(u32),
    Places(Vec<u32>),
    Others,
    All,
    Odd,
    Even,
}

struct Teller<'c, 'a, 't> {
    c: &'c Clause<'a, 't>,
    spec: Spec<'a>,
    told: Told,
    scope: Scope,
    /// Repeats told of at the end, before it is known how many there are.
    from_end: Vec<(u32, Slot)>,
    cursor: usize,
    excepted: bool,
    base: Option<Slot>,
    others: Option<Slot>,
    odd: Option<Slot>,
    even: Option<Slot>,
    /// The repeats just told of on which the pace went, whose times may follow, and
    /// where the next repeat stood then.
    faded: Option<(Scope, usize)>,
    /// Which repeats a time is of stands behind it.
    behind: bool,
}

/// Reads a stretch as what became of the repeats of `spec`.
pub fn tell<'a>(c: &Clause<'a, '_>, spec: Spec<'a>) -> Told {
    let mut teller = Teller {
        c,
        spec,
        told: Told { used: vec![false; c.len()], ..Told::default() },
        scope: Scope::Sequential,
        from_end: Vec::new(),
        cursor: 0,
        excepted: false,
        base: None,
        others: None,
        odd: None,
        even: None,
        faded: None,
        behind: false,
    };
    teller.behind = teller.tells_behind();
    let mut at = 0;
    while at < c.len() {
        at += teller.step(at).max(1);
    }
    teller.close()
}

/// True for words of losing the pace rather than of leaving out.
fn is_fading(text: &str) -> bool {
    const FADES: [&str; 5] = ["died", "fell", "blew", "faded", "lost"];
    FADES.iter().any(|word| text.starts_with(word))
}

impl<'a, 't> Teller<'_, 'a, 't> {
    fn piece(&self, at: usize) -> Option<&'a Piece<'t>> {
        self.c.at(at)
    }

    fn means(&self, at: usize, concept: Concept) -> bool {
        self.piece(at).is_some_and(|piece| piece.means(concept))
    }

    fn uses(&mut self, at: usize, length: usize) -> usize {
        (at..(at + length).min(self.told.used.len()))
            .for_each(|place| self.told.used[place] = true);
        length
    }

    /// A figure as the time of a repeat.
    fn time_of(&self, figure: Figure) -> Option<(Centis, bool)> {
        let expected =
            self.spec.whose.and_then(|known| known.expected(self.spec.distance, self.stroke()));
        let fit = |time: &Centis| {
            fits(*time, self.spec.distance, self.c.sit.course, self.stroke(), expected)
        };
        let time = figure.times().into_iter().find(fit)?;
        Some((time, figure.has_tenths()))
    }

    fn stroke(&self) -> Stroke {
        self.told.stroke.unwrap_or(self.spec.stroke)
    }

    /// The time that stands at a place, and how many pieces it takes.
    fn time_at(&self, at: usize) -> Option<((Centis, bool), usize, bool)> {
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
                let expected = self
                    .spec
                    .whose
                    .and_then(|known| known.expected(self.spec.distance, self.stroke()));
                let fit =
                    fits(time, self.spec.distance, self.c.sit.course, self.stroke(), expected);
                let rests = self.near_rest(at);
                (fit && !rests).then_some(((time, false), 1, false))
            }
            _ => None,
        }
    }

    /// True where a word of rest stands beside.
    fn near_rest(&self, at: usize) -> bool {
        self.means(at + 1, Concept::RestWord) || at > 0 && self.means(at - 1, Concept::RestWord)
    }

    /// True if there is no other figure that could be a time.
    fn only_plural(&self, at: usize) -> bool {
        let other = |(place, piece): (usize, &Piece<'_>)| {
            place != at
                && matches!(piece.item, Item::Figure(figure) | Item::Each(figure) if self.time_of(figure).is_some())
        };
        !self.c.pieces.iter().enumerate().any(other)
    }

    /// `5 of the 50s`: the repeats themselves.
    fn is_counted(&self, at: usize) -> bool {
        let before = (0..at).rev().find(|before| !self.means(*before, Concept::Article));
        before.is_some_and(|of| self.means(of, Concept::Of) && of > 0)
    }

    /// A small number that counts repeats.
    fn count_at(&self, at: usize) -> Option<u32> {
        match self.piece(at)?.item {
            Item::Figure(Figure::Whole { value, .. }) if (1..=60).contains(&value) => Some(value),
            _ => None,
        }
    }

    fn little(&self, at: usize) -> bool {
        self.piece(at).is_some_and(|piece| {
            [
                Concept::Article,
                Concept::Of,
                Concept::In,
                Concept::At,
                Concept::On,
                Concept::My,
                Concept::They,
                Concept::Refers,
            ]
            .iter()
            .any(|concept| piece.means(*concept))
                && piece.item == Item::Word
                || matches!(piece.text, "were" | "was" | "i")
        })
    }

    fn after_little(&self, mut at: usize) -> usize {
        while self.little(at) {
            at += 1;
        }
        at
    }

    /// `las tandas de 50`: the repeats themselves, and no time.
    fn names_repeats(&self, at: usize) -> bool {
        let named = |place: usize| {
            [Concept::Round, Concept::Reps, Concept::Set].iter().any(|one| self.means(place, *one))
        };
        let far = matches!(self.piece(at).map(|piece| piece.item), Some(Item::Figure(Figure::Whole { value, .. })) if value == self.spec.distance);
        let of = at > 1 && self.piece(at - 1).is_some_and(|of| of.text == "de") && named(at - 2);
        far && (of || self.counts_off(at))
    }

    /// `the 6th 50`, `seis de los ocho 50`, `first 50 was 49`: behind what says which of them,
    /// the distance is no time; of the first and the last where another time is told.
    fn counts_off(&self, at: usize) -> bool {
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
    fn is_former_send_off(&self, at: usize) -> bool {
        let Some(Item::Figure(figure)) = self.piece(at).map(|piece| piece.item) else {
            return false;
        };
        let known = self.spec.send_off.map(|known| f64::from(known.seconds()));
        at > 0
            && self.means(at - 1, Concept::Instead)
            && figure.times().iter().any(|time| Some(time.seconds()) == known)
    }

    /// `took 1:15 rather than 1:05`, `on the minute instead of 1:05`: what they left on, as
    /// what they would have left on stands behind it.
    fn new_send_off(&mut self, at: usize) -> Option<usize> {
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
    fn dropped(&mut self, at: usize) -> Option<usize> {
        let listed = at > 0 && self.time_at(at - 1).is_some() && self.time_at(at + 1).is_some();
        (listed && self.means(at, Concept::Dnf)).then(|| {
            self.place(Slot::Missed);
            self.uses(at, 1)
        })
    }

    /// `last 200 cut to 100`, `skipped the final 200`: of a part that is none of theirs.
    fn another_part(&mut self, at: usize) -> Option<usize> {
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
    fn stopped_after(&mut self, at: usize) -> Option<usize> {
        let ended = [Concept::Dnf, Concept::Stopped, Concept::Short];
        let stops = (0..at).any(|place| ended.iter().any(|one| self.means(place, *one)));
        let after = self.means(at, Concept::Past) && self.piece(at)?.text == "after";
        let total = self.told.count.or(self.spec.count)?;
        let count = self.count_at(at + 1).filter(|count| stops && after && *count < total)?;
        self.told.made = self.told.made.or(Some((count, Some(total))));
        Some(self.uses(at, 2) + self.ones(at + 2))
    }

    /// `half the fifties`, `la mitad de los 50`: so many were swum.
    fn half_of_them(&mut self, at: usize) -> Option<usize> {
        let half = self.means(at, Concept::Half);
        let next = self.after_little(at + 1);
        let them = matches!(self.piece(next)?.item, Item::Plural(value) if value == self.spec.distance)
            || self.means(next, Concept::Reps) && !self.means(next, Concept::Set);
        let total = self.told.count.or(self.spec.count).filter(|_| half && them)?;
        self.told.made = Some((total / 2, Some(total)));
        Some(self.uses(at, next + 1 - at))
    }

    fn step(&mut self, at: usize) -> usize {
        let Some(piece) = self.piece(at) else { return 1 };
        if self.names_repeats(at) || self.is_former_send_off(at) {
            return self.uses(at, 1);
        }
        let first = self.stopped_after(at).or_else(|| self.new_send_off(at));
        if let Some(length) = first.or_else(|| self.another_part(at)).or_else(|| self.dropped(at)) {
            return length;
        }
        if let Some(length) = self.half_of_them(at).or_else(|| self.time_of_some(at)) {
            return length;
        }
        if let Some(length) = self.scope_word(at).or_else(|| self.condition(at)) {
            return length;
        }
        match piece.item {
            Item::Rpe(tenths) => {
                self.told.rpe = Some(tenths);
                self.uses(at, 1)
            }
            Item::Pulse(beats) => {
                self.told.pulse = Some(beats);
                self.uses(at, 1)
            }
            Item::Day(named) => {
                self.told.day = Some(named);
                self.uses(at, 1)
            }
            Item::OfAll(some, all)
                if all <= 60 && self.spec.count.is_none_or(|count| count == all) =>
            {
                self.told.made = Some((some, Some(all)));
                self.uses(at, 1)
            }
            Item::Range(from, to) => match (self.time_of(from), self.time_of(to)) {
                (Some((low, _)), Some((high, _))) => {
                    let middle =
                        Centis::new((low.hundredths() + high.hundredths()) / 2).unwrap_or(low);
                    self.told.vague = true;
                    self.told.average = self.told.average.or(Some((middle, true)));
                    self.uses(at, 1)
                }
                _ => 1,
            },
            // `died on the last 3. 47 47 48 …`, `all eight! 48 48 49 …`: the list begins anew.
            Item::Mark('.' | '!' | ',' | ':') | Item::Line if self.lists_all(at) => {
                self.scope = Scope::Sequential;
                self.faded = None;
                1
            }
            Item::Mark('.' | ';') | Item::Line => {
                // What was said of some of them ends with its sentence.
                if self.told.send_off.is_some() {
                    self.scope = Scope::Sequential;
                }
                1
            }
            Item::Mark('-') if self.in_list(at) && !self.speaks_on(at) => {
                self.place(Slot::Missed);
                self.uses(at, 1)
            }
            Item::Word if piece.text == "x" && self.in_list(at) => {
                self.place(Slot::Missed);
                self.uses(at, 1)
            }
            _ => self.figure(at).or_else(|| self.word(at)).unwrap_or(1),
        }
    }

    /// `47 for the first 4 and 51 for the last 4`: each time stands before its repeats.
    fn tells_behind(&self) -> bool {
        let is_scope =
            |at: &usize| self.means(*at, Concept::First) || self.means(*at, Concept::Last);
        let scopes: Vec<usize> = (0..self.c.len()).filter(is_scope).collect();
        let [first, .., last] = scopes.as_slice() else { return false };
        let is_time = |at| self.time_at(at).is_some();
        (0..*first).any(is_time) && !(*last + 1..self.c.len()).any(is_time)
    }

    /// A time with the repeats that it is of, where those stand behind.
    fn time_of_some(&mut self, at: usize) -> Option<usize> {
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

    /// True where as many times follow as there were repeats, and none was told before.
    fn lists_all(&self, at: usize) -> bool {
        let told = self.told.slots.iter().any(|slot| *slot != Slot::Unsaid);
        let times = (at + 1..self.c.len()).filter(|place| self.time_at(*place).is_some()).count();
        !told && self.told.count.or(self.spec.count).is_some_and(|total| total as usize == times)
    }

    /// `55, 56, 57 - she slows`: a dash before words is none for a missed one.
    fn speaks_on(&self, at: usize) -> bool {
        self.piece(at + 1).is_some_and(|next| {
            matches!(next.item, Item::Word | Item::Chatter | Item::Unknown | Item::Person(_))
        })
    }

    /// True between or behind the times of a list.
    fn in_list(&self, at: usize) -> bool {
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

    /// Words that say which repeats come next.
    fn scope_word(&mut self, at: usize) -> Option<usize> {
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

    /// True where some repeats are told of and several times in a row come next.
    fn lists_behind(&self, at: usize) -> bool {
        let Some(first) = (at + 1..self.c.len()).find(|place| self.time_at(*place).is_some())
        else {
            return false;
        };
        let some = self.told.slots.iter().any(|slot| matches!(slot, Slot::Swum(..)));
        let length = self.time_at(first).map_or(1, |(_, length, _)| length);
        some && first > at + 1 && self.time_at(first + length).is_some()
    }

    /// `48 all the way`: the one time told before.
    fn lone_time_before(&self, at: usize) -> Option<(Centis, bool)> {
        // `every one on 4 min`: no time of theirs.
        let leaves = |place: usize| {
            place > 0
                && self.means(place - 1, Concept::SetTime)
                && matches!(self.piece(place).map(|piece| piece.item), Some(Item::Span(_)))
        };
        let times: Vec<_> = (0..self.c.len())
            .filter(|place| !leaves(*place))
            .filter_map(|place| self.time_at(place))
            .collect();
        match (self.told.slots.as_slice(), times.len()) {
            ([Slot::Swum(time, tenths)], 1) if at > 0 => Some((*time, *tenths)),
            _ => None,
        }
    }

    /// Words for the repeats behind a number of them.
    fn ones(&mut self, at: usize) -> usize {
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

    /// `last wed` is a day.
    fn day_behind(&self, at: usize) -> bool {
        matches!(self.piece(at + 1).map(|piece| piece.item), Some(Item::Day(_)))
    }

    /// `rest 20`, `20 sec rest`, `rest was 30 s`: a pause, not the other repeats.
    fn is_pause(&self, at: usize) -> bool {
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
    fn is_feminine(&self, at: usize) -> bool {
        self.piece(at).is_some_and(|piece| {
            piece.text == "la" && matches!(piece.item, Item::TimeOfDay(1..=40, 0))
        })
    }

    /// `no 6`, `7 and 8`, `5th and 6th`, `the third`.
    fn ordinals(&mut self, at: usize) -> Option<usize> {
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
                    (value <= total && self.time_at(place).is_none()).then_some(value)
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

    /// Send-offs, rests, targets, stroke and kit.
    fn condition(&mut self, at: usize) -> Option<usize> {
        let piece = self.piece(at)?;
        if let Some(stroke) = stroke_of(piece) {
            // `el ultimo lo hice a crol` says nothing of the others.
            if self.scope == Scope::Sequential || self.told.stroke.is_none() {
                self.told.stroke = Some(stroke);
            }
            return Some(self.uses(at, 1));
        }
        if let Some(kit) = piece.sense(|sense| match sense {
            Sense::Kit(kit) => Some(*kit),
            _ => None,
        }) {
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
    fn send_off(&mut self, at: usize) -> Option<usize> {
        let piece = self.piece(at)?;
        let leaves = piece.means(Concept::SetTime) || piece.item == Item::Mark('@');
        if !leaves {
            return None;
        }
        let swapped = (at + 1..self.c.len()).any(|place| self.is_former_send_off(place));
        let mut next = at + 1;
        while self.piece(next).is_some_and(|p| {
            p.means(Concept::Article) && p.item == Item::Word
                || p.means(Concept::SetTime)
                || matches!(p.item, Item::Mark(':' | '/'))
        }) {
            next += 1;
        }
        // `on 2 10`
        let apart = self.c.minutes_apart(next).and_then(|figure| figure.times().first().copied());
        let width = if apart.is_some() { 2 } else { 1 };
        let seconds = match self.piece(next)?.item {
            _ if let Some(time) = apart => time.seconds(),
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
        let expected =
            self.spec.whose.and_then(|known| known.expected(self.spec.distance, self.stroke()));
        let known = self
            .spec
            .send_off
            .is_some_and(|known| (f64::from(known.seconds()) - seconds).abs() < 0.5);
        let others = (0..self.c.len())
            .filter(|place| *place < at || *place >= next + width)
            .any(|place| self.time_at(place).is_some());
        // What they leave on is longer than what they swim.
        let longest = (0..self.c.len())
            .filter(|place| *place >= next + width)
            .filter_map(|place| self.time_at(place))
            .map(|((time, _), ..)| time.seconds())
            .fold(0.0, f64::max);
        if longest > seconds && !known {
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
            && self.told.each.is_some_and(|(time, _)| seconds > time.seconds() * 1.05);
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

    /// A figure: a time of the repeats in question, or how many.
    fn figure(&mut self, at: usize) -> Option<usize> {
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

    fn timed(&mut self, at: usize, time: (Centis, bool), length: usize, each: bool) -> usize {
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
    fn scope_behind(&mut self, at: usize) -> Option<(Scope, usize)> {
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
    fn numbered(&self, at: usize) -> Option<(Scope, usize)> {
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
    fn faded_times(&mut self, at: usize, scope: &Scope) -> Option<usize> {
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
                for (at, slot) in places.iter().zip(listed) {
                    self.told.slots[*at as usize - 1] = slot;
                }
            }
            _ => self.relist(scope, &listed),
        }
        Some(self.uses(at, place - at))
    }

    /// Both ends of a set told, and nothing between.
    fn has_ends(&self) -> bool {
        let times = (0..self.c.len()).filter(|place| self.time_at(*place).is_some()).count();
        times <= 2 && self.c.has(Concept::Started) || times == 1 && self.c.has(Concept::Ended)
    }

    /// How many repeats a time before was swum in, and where that ends.
    fn how_often(&self, at: usize) -> Option<(u32, usize)> {
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

    /// Words that tell of repeats without a figure.
    fn word(&mut self, at: usize) -> Option<usize> {
        let piece = self.piece(at)?;
        if piece.means(Concept::Missed) {
            return self.missed(at);
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
                if self.scope == Scope::All || self.means(at + 1, Concept::All) {
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
    fn missed(&mut self, at: usize) -> Option<usize> {
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
    fn miss(&mut self, fade: bool) {
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

    /// Puts what was told where the scope says.
    fn place(&mut self, slot: Slot) {
        self.faded = None;
        let scope = std::mem::replace(&mut self.scope, Scope::Sequential);
        match scope {
            Scope::Sequential => self.put(slot),
            Scope::Next(count) => (0..count).for_each(|_| self.put(slot)),
            Scope::Last(count) => self.from_end.push((count, slot)),
            Scope::Places(places) => {
                for place in places {
                    let place = place as usize - 1;
                    self.reach(place);
                    self.told.slots[place] = slot;
                }
            }
            Scope::Others => self.others = Some(slot),
            Scope::All => match slot {
                Slot::Swum(time, tenths) => self.told.each = Some((time, tenths)),
                Slot::Held => self.told.made_all = true,
                _ => self.base = Some(slot),
            },
            Scope::Odd => self.odd = Some(slot),
            Scope::Even => self.even = Some(slot),
        }
    }

    fn relist(&mut self, scope: &Scope, listed: &[Slot]) {
        match scope {
            Scope::Next(count) => {
                let count = *count as usize;
                self.cursor -= count;
                self.told.slots.truncate(self.cursor);
                listed.iter().for_each(|slot| self.put(*slot));
            }
            Scope::Last(count) => {
                self.from_end.pop();
                let of = |(at, slot): (usize, &Slot)| (*count - at as u32, *slot);
                // Later ones overwrite the end of earlier ones.
                self.from_end.extend(listed.iter().enumerate().map(of));
            }
            _ => {}
        }
    }

    /// `41 on no 3`, `44 on the last`, told at the poolside: the times of the
    /// repeats that are named, and nothing of the others.
    fn only_swum(&mut self) {
        let swum = |slot: &Slot| matches!(slot, Slot::Swum(..));
        let others = self.others.is_some() || self.odd.is_some() || self.even.is_some();
        let named = self.told.slots.iter().filter(|slot| **slot != Slot::Unsaid);
        let all_swum = named.clone().all(swum) && self.from_end.iter().all(|(_, slot)| swum(slot));
        if others || !all_swum || self.told.each.is_some() {
            return;
        }
        self.told.slots.retain(swum);
        for (count, slot) in std::mem::take(&mut self.from_end) {
            self.told.slots.extend(std::iter::repeat_n(slot, count as usize));
        }
        self.cursor = self.told.slots.len();
    }

    fn reach(&mut self, place: usize) {
        if self.told.slots.len() <= place {
            self.told.slots.resize(place + 1, Slot::Unsaid);
        }
    }

    fn put(&mut self, slot: Slot) {
        // Places that were told of by their number are passed over.
        self.reach(self.cursor);
        self.told.slots[self.cursor] = slot;
        self.cursor += 1;
    }

    fn close(mut self) -> Told {
        if self.spec.so_far {
            self.only_swum();
        }
        let total = self.told.count.or(self.spec.count);
        let told = &mut self.told;
        let structured = !self.from_end.is_empty()
            || self.others.is_some()
            || self.odd.is_some()
            || self.even.is_some()
            || told.slots.contains(&Slot::Unsaid)
            || told.each.is_some() && !told.slots.is_empty();
        if let Some(total) = total.filter(|_| structured) {
            let total = total as usize;
            if told.slots.len() < total {
                told.slots.resize(total, Slot::Unsaid);
            }
            for (count, slot) in &self.from_end {
                let from = told.slots.len().saturating_sub(*count as usize);
                told.slots[from..].fill(*slot);
            }
            for (place, slot) in told.slots.iter_mut().enumerate() {
                let side = if place % 2 == 0 { self.odd } else { self.even };
                if *slot == Slot::Unsaid
                    && let Some(side) = side.or(self.others)
                {
                    *slot = side;
                }
            }
            let each = told.each.map(|(time, tenths)| Slot::Swum(time, tenths));
            let held = (told.made_all || self.excepted).then_some(Slot::Held);
            if let Some(base) = each.or(held).or(self.base) {
                told.slots
                    .iter_mut()
                    .filter(|slot| **slot == Slot::Unsaid)
                    .for_each(|slot| *slot = base);
                told.each = None;
            }
        } else if structured {
            told.vague = true;
        }
        // A lone time for a set of several is the time of each.
        if let [Slot::Swum(time, tenths)] = told.slots.as_slice()
            && told.each.is_none()
            && total.is_some_and(|total| total > 1)
            && !structured
            && told.average.is_none()
            && !self.spec.so_far
        {
            told.each = Some((*time, *tenths));
            told.slots.clear();
        }
        self.told
    }
}
