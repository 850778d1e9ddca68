//! From pieces to the lines of a set, from left to right.

use super::item::Swim;
use crate::message::{Effort, Length, Rounds, SetLine, SetPiece};
use crate::reading::frame::Clause;
use crate::reading::frame::clause::stroke_of;
use crate::reading::lexicon::{Concept, Sense, UnitWord};
use crate::reading::piece::{Far, Figure, Item, Piece};
use crate::session::Part;
use crate::units::{Centis, Equipment, Level, SendOff, Stroke};

/// Several swims, once or in rounds.
#[derive(Debug, Clone, PartialEq)]
pub enum Part2 {
    /// One swim.
    One(Swim),
    /// Rounds of several, with the rest between them.
    Rounds(u32, Vec<Part2>, Option<Centis>),
}

/// What a text writes of a set.
#[derive(Debug, Default)]
pub struct Written {
    /// What is to be swum.
    pub parts: Vec<Part2>,
    /// The total that the text itself states.
    pub stated: Option<u32>,
    /// Warm-up and swim-down stay those of the set that is known.
    pub keeps_ends: bool,
    /// Which pieces were understood.
    pub used: Vec<bool>,
}

impl Written {
    /// All of its metres.
    pub fn total(&self) -> u32 {
        total(&self.parts)
    }

    /// Every swim, each as often as it stands.
    pub fn swims(&self) -> Vec<&Swim> {
        fn gather<'s>(parts: &'s [Part2], into: &mut Vec<&'s Swim>) {
            for part in parts {
                match part {
                    Part2::One(swim) => into.push(swim),
                    Part2::Rounds(_, inside, _) => gather(inside, into),
                }
            }
        }
        let mut swims = Vec::new();
        gather(&self.parts, &mut swims);
        swims
    }
}

/// The metres of some parts.
pub fn total(parts: &[Part2]) -> u32 {
    let one = |part: &Part2| match part {
        Part2::One(swim) => swim.metres(),
        Part2::Rounds(times, inside, _) => times * total(inside),
    };
    parts.iter().map(one).sum()
}

struct Writer<'c, 'a, 't> {
    c: &'c Clause<'a, 't>,
    /// Open groups: rounds, what is inside, and whether a bracket closes it.
    groups: Vec<(u32, Vec<Part2>, bool)>,
    parts: Vec<Part2>,
    written: Written,
    /// A part's name that waits for its swim.
    waiting: Option<Part>,
    /// Qualities that stand before their swim.
    ahead: Vec<usize>,
}

/// Reads the pieces as a set.
pub fn write(c: &Clause<'_, '_>) -> Written {
    let mut writer = Writer {
        c,
        groups: Vec::new(),
        parts: Vec::new(),
        written: Written { used: vec![false; c.len()], ..Written::default() },
        waiting: None,
        ahead: Vec::new(),
    };
    let mut at = 0;
    while at < c.len() {
        at += writer.step(at).max(1);
    }
    while !writer.groups.is_empty() {
        writer.close_group(None);
    }
    let mut written = writer.written;
    written.parts = writer.parts;
    written
}

impl<'a, 't> Writer<'_, 'a, 't> {
    fn piece(&self, at: usize) -> Option<&'a Piece<'t>> {
        self.c.at(at)
    }

    fn means(&self, at: usize, concept: Concept) -> bool {
        self.piece(at).is_some_and(|piece| piece.means(concept))
    }

    fn uses(&mut self, from: usize, to: usize) -> usize {
        self.written.used[from..to.min(self.c.len())].fill(true);
        to - from
    }

    fn inside(&mut self) -> &mut Vec<Part2> {
        match self.groups.last_mut() {
            Some((_, inside, _)) => inside,
            None => &mut self.parts,
        }
    }

    fn last(&mut self) -> Option<&mut Swim> {
        fn deepest(parts: &mut [Part2]) -> Option<&mut Swim> {
            match parts.last_mut()? {
                Part2::One(swim) => Some(swim),
                Part2::Rounds(_, inside, _) => deepest(inside),
            }
        }
        match self.groups.last_mut() {
            Some((_, inside, _)) if !inside.is_empty() => deepest(inside),
            Some(_) => None,
            None => deepest(&mut self.parts),
        }
    }

    fn step(&mut self, at: usize) -> usize {
        let Some(piece) = self.piece(at) else { return 1 };
        if let Some(length) = self.opens(at).or_else(|| self.closes(at)) {
            return length;
        }
        if let Some(length) = self.total_at(at).or_else(|| self.both_ends(at)) {
            return length;
        }
        if let Some(length) = self.shares(at) {
            return length;
        }
        if let Some(length) = self.ladder(at).or_else(|| self.swim(at)) {
            return length;
        }
        if let Some(length) = self.timing(at) {
            return length;
        }
        if let Some(length) = self.quality(at) {
            return length;
        }
        match piece.item {
            Item::Mark('(' | '[') => self.aside(at),
            Item::Mark('.' | ';' | '|') | Item::Line => {
                self.ends_open_group();
                self.uses(at, at + 1)
            }
            Item::Mark(_) | Item::Picture => self.uses(at, at + 1),
            Item::Day(_) | Item::Lanes(_) => self.uses(at, at + 1),
            _ if [
                Concept::And,
                Concept::Then,
                Concept::Set,
                Concept::Of,
                Concept::With,
                Concept::For,
                Concept::Session,
                Concept::Please,
                Concept::In,
                Concept::To,
                Concept::Want,
                Concept::Can,
                Concept::We,
                Concept::Me,
                Concept::Will,
                Concept::Squad,
                Concept::Everyone,
                Concept::They,
                Concept::Make,
                Concept::Held,
            ]
            .iter()
            .any(|one| piece.means(*one)) =>
            {
                self.uses(at, at + 1)
            }
            _ => 1,
        }
    }

    /// `3x(`, `3 rounds of`, `2 rds:`, `3 times (`.
    fn opens(&mut self, at: usize) -> Option<usize> {
        let count = match self.piece(at)?.item {
            Item::Figure(Figure::Whole { value, .. }) if (1..=30).contains(&value) => value,
            _ => return None,
        };
        let is_bracket = |place: usize| {
            matches!(self.piece(place).map(|piece| piece.item), Some(Item::Mark('(' | '[' | '{')))
        };
        let crossed = self.piece(at + 1).is_some_and(|piece| {
            piece.text == "x" || piece.item == Item::Mark('*') || piece.means(Concept::Times)
        });
        if crossed && is_bracket(at + 2) {
            self.groups.push((count, Vec::new(), true));
            return Some(self.uses(at, at + 3));
        }
        if is_bracket(at + 1)
            && self.piece(at + 2).is_some_and(|next| {
                matches!(next.item, Item::Repeat(..) | Item::Figure(_) | Item::Far(_))
            })
            && count <= 10
            && self.brackets_swims(at + 2)
        {
            self.groups.push((count, Vec::new(), true));
            return Some(self.uses(at, at + 2));
        }
        if self.means(at + 1, Concept::Round) {
            let mut next = at + 2;
            while self.piece(next).is_some_and(|piece| {
                matches!(piece.item, Item::Mark(':' | '-' | ',')) || piece.means(Concept::Of)
            }) {
                next += 1;
            }
            let bracket = is_bracket(next);
            self.groups.push((count, Vec::new(), bracket));
            return Some(self.uses(at, if bracket { next + 1 } else { next }));
        }
        None
    }

    /// True if what stands in a bracket is swims, and no breakdown of one.
    fn brackets_swims(&self, from: usize) -> bool {
        let end = self.bracket_end(from);
        (from..end)
            .filter(|place| {
                matches!(
                    self.c.pieces[*place].item,
                    Item::Repeat(..) | Item::Far(_) | Item::Figure(_)
                )
            })
            .count()
            > 1
    }

    fn bracket_end(&self, from: usize) -> usize {
        (from..self.c.len())
            .find(|place| matches!(self.c.pieces[*place].item, Item::Mark(')' | ']' | '}')))
            .unwrap_or(self.c.len())
    }

    fn closes(&mut self, at: usize) -> Option<usize> {
        if !matches!(self.piece(at)?.item, Item::Mark(')' | ']' | '}'))
            || !self.groups.iter().any(|(_, _, bracket)| *bracket)
        {
            return None;
        }
        while let Some((_, _, bracket)) = self.groups.last() {
            let bracket = *bracket;
            self.close_group(None);
            if bracket {
                break;
            }
        }
        let mut end = at + 1;
        if let Some((rest, next)) = self.rest_at(end) {
            if let Some(Part2::Rounds(_, _, between)) = self.inside().last_mut() {
                *between = Some(rest);
            }
            end = next;
        }
        Some(self.uses(at, end))
    }

    /// A sentence's end closes rounds that no bracket opened.
    fn ends_open_group(&mut self) {
        while self.groups.last().is_some_and(|(_, inside, bracket)| !bracket && !inside.is_empty())
        {
            self.close_group(None);
        }
    }

    fn close_group(&mut self, rest: Option<Centis>) {
        let Some((times, inside, _)) = self.groups.pop() else { return };
        if inside.is_empty() {
            return;
        }
        // An end that stands behind rounds belongs to none of them.
        self.inside().push(Part2::Rounds(times, inside, rest));
    }

    /// `1300 all up`, `1600 in total`, `should come to 1,200 m`.
    fn total_at(&mut self, at: usize) -> Option<usize> {
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
            let mut next = at + 1;
            while self.piece(next).is_some_and(|piece| {
                matches!(piece.item, Item::Mark(':' | '='))
                    || piece.means(Concept::To)
                    || piece.means(Concept::About)
                    || piece.means(Concept::Of)
            }) {
                next += 1;
            }
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
    fn both_ends(&mut self, at: usize) -> Option<usize> {
        let keeps = self.piece(at).is_some_and(|piece| {
            piece.means(Concept::Same)
                || matches!(piece.text, "usual" | "keep" | "same" | "remain" | "stay" | "planned")
        });
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
            let mut end = at + 1;
            while self.piece(end).is_some_and(|piece| {
                piece.means(Concept::And)
                    || piece.means(Concept::Same)
                    || piece
                        .sense(|sense| {
                            matches!(sense, Sense::Part(_) | Sense::Level(_)).then_some(())
                        })
                        .is_some()
                    || matches!(piece.item, Item::Plural(_) | Item::Mark('+'))
                    || matches!(
                        piece.text,
                        "the"
                            | "as"
                            | "planned"
                            | "like"
                            | "always"
                            | "front"
                            | "back"
                            | "stay"
                            | "final"
                            | "end"
                            | "remain"
                    )
            }) {
                end += 1;
            }
            return Some(self.uses(at, end));
        }
        let (length, mut end) = self.distance(at)?;
        while self.piece(end).is_some_and(|piece| {
            piece.sense(|sense| matches!(sense, Sense::Level(_)).then_some(())).is_some()
                || piece.text == "the"
        }) {
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
            let mut next = end + 1;
            while self.piece(next).is_some_and(|piece| {
                piece.means(Concept::And) || matches!(piece.item, Item::Mark(','))
            }) {
                next += 1;
            }
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
            self.parts.insert(0, Part2::One(swim));
            return Some(self.uses(at, end + 1));
        }
        None
    }

    fn wrap(&mut self, before: Length, after: Length, at: usize) {
        let end = |length, part| {
            let mut swim = Swim::new(1, length, at);
            swim.part = Some(part);
            swim.level = Some(Level::Easy);
            Part2::One(swim)
        };
        while !self.groups.is_empty() {
            self.close_group(None);
        }
        self.parts.insert(0, end(before, Part::WarmUp));
        self.parts.push(end(after, Part::SwimDown));
    }

    /// A distance that stands alone.
    fn distance(&self, at: usize) -> Option<(Length, usize)> {
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

    /// `25-50-75-100`, `50 100 150 200 150 100 50`, `50/100/150`: one of each.
    fn ladder(&mut self, at: usize) -> Option<usize> {
        let mut rungs: Vec<u32> = Vec::new();
        let mut place = at;
        let mut end = at;
        loop {
            let value = match self.piece(place).map(|piece| piece.item) {
                Some(Item::Figure(Figure::Whole { value, .. })) if is_swum(value) => Some(value),
                Some(Item::Range(
                    Figure::Whole { value: from, .. },
                    Figure::Whole { value: to, .. },
                )) if is_swum(from) && is_swum(to) => {
                    rungs.push(from);
                    Some(to)
                }
                _ => None,
            };
            let Some(value) = value else { break };
            rungs.push(value);
            place += 1;
            end = place;
            if self
                .piece(place)
                .is_some_and(|piece| matches!(piece.item, Item::Mark('-' | '/' | ',')))
            {
                place += 1;
            }
        }
        // The slowest ladders have three rungs, none of them like its neighbour.
        if rungs.len() < 3 || rungs.windows(2).any(|pair| pair[0] == pair[1]) {
            return None;
        }
        if self.piece(end).is_some_and(|piece| {
            piece
                .sense(|sense| matches!(sense, Sense::Stroke(_) | Sense::Part(_)).then_some(()))
                .is_some()
        }) && rungs.len() == 3
            && self
                .piece(at + 1)
                .is_some_and(|piece| !matches!(piece.item, Item::Figure(_) | Item::Mark('-' | '/')))
        {
            return None;
        }
        let mut swims: Vec<Part2> = rungs
            .iter()
            .map(|rung| Part2::One(Swim::new(1, Length { amount: *rung, unit: None }, at)))
            .collect();
        let mut stop = end;
        // `then back down`
        let back = (end..end + 8).find(|place| {
            self.piece(*place)
                .is_some_and(|piece| piece.text == "back" || piece.text == "backwards")
                && self.piece(*place + 1).is_some_and(|piece| {
                    piece.text == "down" || matches!(piece.item, Item::Mark(_))
                })
        });
        if let Some(back) = back {
            let rising = rungs.windows(2).all(|pair| pair[0] < pair[1]);
            if rising {
                let down: Vec<Part2> = swims.iter().rev().skip(1).cloned().collect();
                swims.extend(down);
                self.written.used[back..(back + 2).min(self.c.len())].fill(true);
            }
        }
        let times = (end..end + 7).find_map(|place| {
            let piece = self.piece(place)?;
            match piece.text {
                "twice" => Some((2, place + 1)),
                "thrice" => Some((3, place + 1)),
                _ => match piece.item {
                    Item::Figure(Figure::Whole { value: value @ 2..=6, .. })
                        if self.means(place + 1, Concept::Times)
                            || self.piece(place + 1).is_some_and(|piece| {
                                piece.text == "times" || piece.text == "x"
                            }) =>
                    {
                        Some((value, place + 2))
                    }
                    _ => None,
                },
            }
        });
        if let Some((times, after)) = times {
            self.inside().push(Part2::Rounds(times, swims, None));
            let mut after = after;
            while self.piece(after).is_some_and(|piece| matches!(piece.text, "through" | "thru")) {
                after += 1;
            }
            self.written.used[at..end].fill(true);
            self.written.used[after - 2..after].fill(true);
            stop = stop.max(end);
            let _ = stop;
            self.rest_of_all(end);
            return Some(self.uses(at, end));
        }
        self.inside().extend(swims);
        self.rest_of_all(end);
        Some(self.uses(at, end))
    }

    /// A rest behind a ladder holds for each of its rungs.
    fn rest_of_all(&mut self, end: usize) {
        let rest = (end..end + 6).find_map(|place| self.rest_at(place));
        if let Some((rest, _)) = rest {
            fn put(parts: &mut [Part2], rest: Centis) {
                for part in parts {
                    match part {
                        Part2::One(swim)
                            if swim.rest.is_none() && swim.send_off.is_none() && swim.is_bare() =>
                        {
                            swim.rest = Some(rest)
                        }
                        Part2::One(_) => {}
                        Part2::Rounds(_, inside, _) => put(inside, rest),
                    }
                }
            }
            put(self.inside(), rest);
        }
    }

    /// `8x50`, `200`, `ten fifties`.
    fn swim(&mut self, at: usize) -> Option<usize> {
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
        self.inside().push(Part2::One(swim));
        let ahead: Vec<usize> = std::mem::take(&mut self.ahead);
        for place in ahead {
            self.apply_quality(place);
        }
        Some(self.uses(at, at + 1))
    }

    /// `16x50 as 4 @1:10 4 @1:05 4 @1:00 4 @55`, `12x50, 4 kick 4 drill 4 swim`: the
    /// repeats before it in several ways, which add up to all of them.
    fn shares(&mut self, at: usize) -> Option<usize> {
        let Part2::One(whole) = self.inside().last()?.clone() else { return None };
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
            self.inside().push(Part2::One(own));
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

    /// What stands in a bracket behind a swim: words on how to swim it.
    fn aside(&mut self, at: usize) -> usize {
        let end = self.bracket_end(at + 1);
        let comment = self.c.typed(at + 1, end).to_owned();
        match self.last() {
            Some(last) => {
                last.comment.push(comment);
                self.uses(at, (end + 1).min(self.c.len()))
            }
            None => 1,
        }
    }

    /// A rest at a place: `20 sec rest`, `rest 20`, `r30`, `with :10 rest`, `+1:00 RI`,
    /// `2 min btw`, `45s between rounds`.
    fn rest_at(&self, at: usize) -> Option<(Centis, usize)> {
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
            let mut next = place + 1;
            while self.piece(next).is_some_and(|piece| {
                matches!(piece.item, Item::Mark('.' | ':'))
                    || piece.means(Concept::Of)
                    || piece.text == "is"
            }) {
                next += 1;
            }
            return Some((pause(next)?, next + 1));
        }
        let rest = pause(place)?;
        let behind = place + 1;
        let mut next = behind;
        while self.piece(next).is_some_and(|piece| {
            piece.means(Concept::Of)
                || piece.text == "s"
                || matches!(piece.item, Item::Mark('"' | '\''))
        }) {
            next += 1;
        }
        if self.means(next, Concept::RestWord) {
            return Some((rest, next + 1));
        }
        let between = self.piece(next).is_some_and(|piece| {
            matches!(piece.text, "between" | "btw" | "btwn" | "entre")
                || piece.text == "in" && self.piece(next + 1).is_some_and(|p| p.text == "between")
        });
        if between {
            let mut stop = next + 1;
            while self.piece(stop).is_some_and(|piece| {
                piece.means(Concept::Round)
                    || piece.means(Concept::Article)
                    || piece.means(Concept::Set)
                    || matches!(piece.text, "between" | "each" | "go" | "them")
            }) {
                stop += 1;
            }
            return Some((rest, stop));
        }
        // `4x50 with 30 sec`
        let with = place > at && self.piece(at).is_some_and(|piece| piece.means(Concept::With));
        (with && matches!(self.piece(place)?.item, Item::Span(_))).then_some((rest, behind))
    }

    /// Send-offs and rests.
    fn timing(&mut self, at: usize) -> Option<usize> {
        if let Some((rest, end)) = self.rest_at(at) {
            let between = (at..end).any(|place| {
                self.piece(place).is_some_and(|piece| {
                    matches!(piece.text, "between" | "btw" | "btwn" | "entre")
                        || piece.means(Concept::Round)
                })
            });
            if between && matches!(self.inside().last(), Some(Part2::Rounds(..))) {
                if let Some(Part2::Rounds(_, _, rests)) = self.inside().last_mut() {
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

    /// Stroke, kit, level, effort, part.
    fn quality(&mut self, at: usize) -> Option<usize> {
        let piece = self.piece(at)?;
        if let Some(part) = piece.sense(|sense| match sense {
            Sense::Part(part) => Some(*part),
            _ => None,
        }) {
            return Some(self.part(at, part));
        }
        let is_quality = piece
            .sense(|sense| {
                matches!(
                    sense,
                    Sense::Stroke(_) | Sense::Kit(_) | Sense::Level(_) | Sense::Effort(_)
                )
                .then_some(())
            })
            .is_some()
            || piece.means(Concept::Fast)
            || matches!(piece.text, "k" | "p" | "s" | "swim" | "loose" | "loosen");
        if !is_quality {
            return None;
        }
        // `odds drill evens build` says each of half of them.
        if at > 0
            && self
                .piece(at - 1)
                .is_some_and(|before| before.means(Concept::Odd) || before.means(Concept::Even))
        {
            let comment = self.c.typed(at - 1, at + 1).to_owned();
            if let Some(last) = self.last() {
                last.comment.push(comment);
            }
            return Some(self.uses(at - 1, at + 1) - 1);
        }
        if self.last().is_none() || self.stands_ahead(at) {
            self.ahead.push(at);
        } else {
            self.apply_quality(at);
        }
        Some(self.uses(at, at + 1))
    }

    /// True where a quality begins a sentence and its swim follows.
    fn stands_ahead(&self, at: usize) -> bool {
        let begins = at == 0
            || self.piece(at - 1).is_some_and(|piece| {
                matches!(piece.item, Item::Mark('.' | ';' | '|')) || piece.item == Item::Line
            });
        let follows = self.piece(at + 1).is_some_and(|piece| {
            matches!(piece.item, Item::Repeat(..) | Item::Far(_))
                || matches!(piece.item, Item::Figure(Figure::Whole { value, .. }) if is_swum(value))
        });
        begins && follows
    }

    fn apply_quality(&mut self, at: usize) {
        let Some(piece) = self.piece(at) else { return };
        let text = piece.text;
        let stroke = stroke_of(piece);
        let kit: Option<Equipment> = piece.sense(|sense| match sense {
            Sense::Kit(kit) => Some(*kit),
            _ => None,
        });
        let level: Option<Level> = piece.sense(|sense| match sense {
            Sense::Level(level) => Some(*level),
            _ => None,
        });
        let effort = piece.sense(|sense| match sense {
            Sense::Effort("descend") => Some(Effort::Descend(None)),
            Sense::Effort("ascend") => Some(Effort::Ascend(None)),
            Sense::Effort("build") => Some(Effort::Build),
            Sense::Effort("negative") => Some(Effort::NegativeSplit),
            Sense::Effort("even") => Some(Effort::Even),
            Sense::Effort("best-average") => Some(Effort::BestAverage),
            Sense::Effort("im-order") => Some(Effort::ImOrder),
            _ => None,
        });
        let Some(last) = self.last() else { return };
        if let Some(effort) = effort {
            last.effort.push(effort);
            return;
        }
        if let Some(kit) = kit {
            last.kit.push(kit);
            return;
        }
        let stroke = stroke.or(match text {
            "k" => Some(Stroke::Kick),
            "p" => Some(Stroke::Pull),
            _ => None,
        });
        if let Some(stroke) = stroke {
            last.stroke = last.stroke.or(Some(stroke));
            return;
        }
        last.level = last.level.or(level);
    }

    /// A part's name: of the swim behind it, or of the one before.
    fn part(&mut self, at: usize, part: Part) -> usize {
        let mut next = at + 1;
        while self.piece(next).is_some_and(|piece| {
            matches!(piece.item, Item::Mark(':' | '-' | '='))
                || piece.means(Concept::Of)
                || piece.means(Concept::Set)
                || piece.means(Concept::Article)
                || piece.text == "is"
        }) {
            next += 1;
        }
        let follows = self.piece(next).is_some_and(|piece| matches!(piece.item, Item::Repeat(..) | Item::Far(_)) || matches!(piece.item, Item::Figure(Figure::Whole { value, .. }) if is_swum(value) || self.means(next + 1, Concept::Round)));
        // `200 warm up`, `300 m warming up`, `100 easy to finish`
        let before = self.last().is_some_and(|last| last.part.is_none() && last.at + 4 > at)
            && at > 0
            && !self.piece(at - 1).is_some_and(|piece| {
                matches!(piece.item, Item::Mark('.' | ',' | ';' | '|' | '-' | '/'))
                    || piece.item == Item::Line
                    || piece.means(Concept::And)
            });
        if before && !(follows && matches!(part, Part::Main)) {
            if let Some(last) = self.last() {
                last.part = Some(part);
            }
            return self.uses(at, at + 1);
        }
        if follows {
            self.ends_open_group();
            self.waiting = Some(part);
            return self.uses(at, next);
        }
        if matches!(part, Part::Main | Part::Test) {
            self.waiting = Some(part);
        } else if let Some(last) = self.last() {
            last.part = last.part.or(Some(part));
        } else {
            self.waiting = Some(part);
        }
        self.uses(at, at + 1)
    }
}

/// True for a number of metres that a set's line may have.
pub const fn is_swum(value: u32) -> bool {
    value >= 25 && value <= 5000 && value.is_multiple_of(25)
}

/// The lines of a set: warm-up, main part, swim-down.
pub fn lines(parts: Vec<Part2>) -> Option<Vec<SetLine>> {
    let mut lines: Vec<SetLine> = Vec::new();
    for part in parts {
        let named = match &part {
            Part2::One(swim) => swim.part,
            Part2::Rounds(..) => None,
        };
        let piece = piece(part)?;
        match (named, lines.last_mut()) {
            (None, Some(line)) if !matches!(line.part, Some(Part::WarmUp | Part::SwimDown)) => {
                line.pieces.push(piece)
            }
            (named, Some(line)) if named == line.part && named.is_some() => line.pieces.push(piece),
            (named, before) => {
                let named = named.or(before
                    .is_some_and(|before| before.part == Some(Part::WarmUp))
                    .then_some(Part::Main));
                lines.push(SetLine { part: named, pieces: vec![piece] });
            }
        }
    }
    Some(lines)
}

fn piece(part: Part2) -> Option<SetPiece> {
    Some(match part {
        Part2::One(swim) => SetPiece::Item(swim.into_item()?),
        Part2::Rounds(times, inside, rest) => SetPiece::Rounds(Rounds {
            times: u16::try_from(times).ok().filter(|times| (1..=50).contains(times))?,
            pieces: inside.into_iter().map(piece).collect::<Option<Vec<_>>>()?,
            rest,
        }),
    })
}
