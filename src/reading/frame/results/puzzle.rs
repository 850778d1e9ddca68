//! What became of a set's repeats, by what adds up: where the text told from left to right
//! leaves more or fewer times than repeats, every number is tried as a time, a count, a
//! place or nothing, and the way that fills all repeats is the one to ask about.
//!
//! `first four in 48, after this 50`; `todos a 49 menos el quinto que fue 54`; `48 up to
//! number 6, then 50 and 50`.

use super::narrative::Spec;
use crate::reading::frame::Clause;
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Figure, Item, Named, Piece};
use crate::units::Centis;

/// How far a time may be from what was to be held, or is to be expected.
const LIKE: std::ops::RangeInclusive<f64> = 0.72..=1.5;

/// More numbers than this are a list, and no puzzle.
const NUMBERS: usize = 20;

/// What a way may cost at most.
const DEAREST: f32 = 2.6;

/// How many times of a row may be something else.
const PASSED_OVER: usize = 2;

/// A time, and whether tenths were given.
pub type Timed = (Centis, bool);

/// What a number may be.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Role {
    Time(Timed),
    Count(u32),
    Place(u32),
    Nothing,
}

/// A word about which repeats are meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Which {
    First,
    Last,
    Others,
    All,
    Except,
    Until,
    Missed,
}

/// What matters of a text here.
#[derive(Debug, Clone, PartialEq)]
enum Token {
    Number(Vec<(Role, f32)>),
    Word(Which),
}

/// The repeats that a time is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Subset {
    Next(u32),
    Last(u32),
    Place(u32),
    Until(u32),
    Others(Option<u32>),
    All,
}

/// One time for each of `total` repeats, none for one that was missed.
pub fn solve(c: &Clause<'_, '_>, spec: &Spec<'_>, total: u32) -> Option<Vec<Option<Timed>>> {
    // A mean, a span of times or rounds tell less than each.
    let sums = c.has_any(&[Concept::Average, Concept::Round])
        || c.pieces.iter().any(|piece| matches!(piece.item, Item::Range(..)));
    if sums {
        return None;
    }
    let tokens = tokens(c, spec, total);
    let numbers = tokens.iter().filter(|token| matches!(token, Token::Number(_))).count();
    if numbers == 0 || numbers > NUMBERS {
        return None;
    }
    let stopped = c.has_any(&[
        Concept::Missed,
        Concept::Stopped,
        Concept::Only,
        Concept::Short,
        Concept::Left,
        Concept::Cant,
        Concept::Didnt,
    ]);
    let mut search =
        Search { tokens: &tokens, roles: Vec::new(), total: total as usize, stopped, best: None };
    search.go(0, 0.0, 0);
    let (cost, times) = search.best?;
    (cost <= DEAREST && times.iter().any(Option::is_some)).then_some(times)
}

/// The numbers and words of a text, in order.
fn tokens(c: &Clause<'_, '_>, spec: &Spec<'_>, total: u32) -> Vec<Token> {
    let mut tokens = Vec::new();
    let mut at = 0;
    while at < c.len() {
        let piece = &c.pieces[at];
        if let Some(which) = word(c, at) {
            tokens.push(Token::Word(which));
            at += 1;
            continue;
        }
        let (roles, length) = match c.minutes_apart(at) {
            Some(figure) if time(spec, figure).is_some() => {
                (of_figure(spec, figure, total, piece), 2)
            }
            _ => (roles(c, spec, total, at), 1),
        };
        if !roles.is_empty() {
            tokens.push(Token::Number(roles));
        }
        at += length;
    }
    tokens
}

fn word(c: &Clause<'_, '_>, at: usize) -> Option<Which> {
    let piece = &c.pieces[at];
    if !matches!(piece.item, Item::Word | Item::Chatter | Item::Unknown) {
        return None;
    }
    let until = piece.means(Concept::Until);
    let words = [
        (Concept::First, Which::First),
        (Concept::Last, Which::Last),
        (Concept::Except, Which::Except),
        (Concept::Missed, Which::Missed),
    ];
    if let Some((_, which)) = words.into_iter().find(|(concept, _)| piece.means(*concept)) {
        return Some(which);
    }
    if piece.means(Concept::Rest) && piece.text != "rest"
        || piece.text == "rest" && at > 0 && c.pieces[at - 1].text == "the"
        || matches!(piece.text, "after" | "thereafter" | "afterwards" | "después" | "despues")
    {
        return Some(Which::Others);
    }
    if piece.means(Concept::All) && !piece.means(Concept::Average)
        || matches!(piece.text, "mostly" | "casi")
    {
        return Some(Which::All);
    }
    until.then_some(Which::Until)
}

/// What the number at a place may be; nothing where it is none, or one of something else.
fn roles(c: &Clause<'_, '_>, spec: &Spec<'_>, total: u32, at: usize) -> Vec<(Role, f32)> {
    let piece = &c.pieces[at];
    let before = |concept: Concept| at > 0 && c.pieces[at - 1].means(concept);
    let over = |place: usize| {
        [Concept::Under, Concept::Goal, Concept::Targets, Concept::Fastest, Concept::Slowest]
            .iter()
            .any(|one| c.pieces[place].means(*one))
    };
    let aside = at > 0 && over(at - 1);
    let leaves = before(Concept::SetTime) || before(Concept::Every) || before(Concept::SendOffWord);
    match piece.item {
        Item::Figure(figure) => {
            let known = spec.send_off.is_some_and(|send_off| {
                figure.times().iter().any(|time| time.seconds() == f64::from(send_off.seconds()))
            });
            if leaves && known {
                return vec![];
            }
            let mut roles = of_figure(spec, figure, total, piece);
            if known {
                roles.iter_mut().for_each(|(role, cost)| match role {
                    Role::Nothing => *cost = 0.1,
                    _ => *cost += 1.0,
                });
            }
            if aside || leaves {
                roles.iter_mut().for_each(|(role, cost)| match role {
                    Role::Time(_) => *cost += if aside { 1.5 } else { 0.3 },
                    Role::Nothing => *cost = if aside { 0.0 } else { 0.6 },
                    _ => {}
                });
            }
            roles
        }
        Item::Each(figure) => match time(spec, figure) {
            Some(time) => vec![(Role::Time(time), 0.0), (Role::Nothing, 1.2)],
            None => vec![],
        },
        Item::Plural(value) => {
            let figure = Figure::Whole { value, places: 2 };
            let names = value == spec.distance;
            match time(spec, figure) {
                Some(time) if names => vec![(Role::Nothing, 0.0), (Role::Time(time), 0.6)],
                Some(time) => vec![(Role::Time(time), 0.0), (Role::Nothing, 1.2)],
                None => vec![],
            }
        }
        Item::Ordinal(place) => of_place(place, total),
        Item::Day(Named::OfMonth(place)) => of_place(u32::from(place), total),
        _ => vec![],
    }
}

fn of_place(place: u32, total: u32) -> Vec<(Role, f32)> {
    match (1..=total).contains(&place) {
        true => vec![(Role::Place(place), 0.0), (Role::Nothing, 0.8)],
        false => vec![],
    }
}

fn of_figure(spec: &Spec<'_>, figure: Figure, total: u32, piece: &Piece<'_>) -> Vec<(Role, f32)> {
    let time = time(spec, figure);
    let mut roles: Vec<(Role, f32)> =
        time.map(|time| (Role::Time(time), 0.0)).into_iter().collect();
    let whole = figure.whole().filter(|value| (1..=total).contains(value));
    if let Some(value) = whole {
        roles.push((Role::Count(value), 0.2));
        roles.push((Role::Place(value), 0.5));
    }
    let nothing = match (time.is_some(), whole) {
        (true, _) => 1.2,
        (false, Some(1)) if piece.is_spelled() => 0.0,
        (false, Some(_)) => 0.5,
        (false, None) => 0.4,
    };
    roles.push((Role::Nothing, nothing));
    roles
}

/// A figure as the time of one repeat.
fn time(spec: &Spec<'_>, figure: Figure) -> Option<Timed> {
    let expected = spec
        .target
        .map(|target| target.seconds())
        .or_else(|| spec.whose.and_then(|known| known.expected(spec.distance, spec.stroke)))?;
    let like = |time: &Centis| LIKE.contains(&(time.seconds() / expected));
    figure.times().into_iter().find(like).map(|time| (time, figure.has_tenths()))
}

/// Goes through every way to take the numbers.
struct Search<'t> {
    tokens: &'t [Token],
    roles: Vec<Role>,
    total: usize,
    stopped: bool,
    best: Option<(f32, Vec<Option<Timed>>)>,
}

impl Search<'_> {
    fn go(&mut self, at: usize, cost: f32, passed: usize) {
        if cost > DEAREST || self.best.as_ref().is_some_and(|(known, _)| cost >= *known) {
            return;
        }
        let Some(token) = self.tokens.get(at) else {
            // Who stopped and leaves times unread tells something else.
            let stopped = self.stopped && passed == 0;
            let row = Row::of(self.tokens, &self.roles, self.total, stopped);
            if let Some((more, times)) = row
                && self.best.as_ref().is_none_or(|(known, _)| cost + more < *known)
            {
                self.best = Some((cost + more, times));
            }
            return;
        };
        let Token::Number(options) = token else {
            self.roles.push(Role::Nothing);
            self.go(at + 1, cost, passed);
            self.roles.pop();
            return;
        };
        for (role, more) in options {
            let over = passed + usize::from(*role == Role::Nothing && *more > 1.0);
            if over > PASSED_OVER {
                continue;
            }
            self.roles.push(*role);
            self.go(at + 1, cost + more, over);
            self.roles.pop();
        }
    }
}

/// One repeat of a way that is tried.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Slot {
    Unsaid,
    Missed,
    Swum(Timed),
}

/// The repeats, as one way of taking the numbers fills them.
struct Row<'t> {
    tokens: &'t [Token],
    roles: &'t [Role],
    slots: Vec<Slot>,
    cursor: usize,
    /// Times told one after the other without a word about which they are of.
    plain: Vec<(usize, Timed)>,
    all: Option<Timed>,
    others: Option<(Timed, Option<u32>)>,
    /// What is told of the last ones, put at the end once all else stands.
    ends: Vec<(u32, Vec<Slot>)>,
    cost: f32,
}

impl<'t> Row<'t> {
    fn of(
        tokens: &'t [Token],
        roles: &'t [Role],
        total: usize,
        stopped: bool,
    ) -> Option<(f32, Vec<Option<Timed>>)> {
        let mut row = Row {
            tokens,
            roles,
            slots: vec![Slot::Unsaid; total],
            cursor: 0,
            plain: Vec::new(),
            all: None,
            others: None,
            ends: Vec::new(),
            cost: 0.0,
        };
        let mut at = 0;
        while at < tokens.len() {
            at = row.step(at)?;
        }
        row.close(stopped)
    }

    /// The subset that begins at a place, and what stands behind it.
    fn subset(&self, at: usize) -> Option<(Subset, usize)> {
        let count = |at: usize| match self.roles.get(at)? {
            Role::Count(count) => Some(*count),
            _ => None,
        };
        let place = |at: usize| match self.roles.get(at)? {
            Role::Place(place) => Some(*place),
            _ => None,
        };
        match self.tokens.get(at)? {
            Token::Word(Which::First) => Some(match count(at + 1) {
                Some(count) => (Subset::Next(count), at + 2),
                None => (Subset::Next(1), at + 1),
            }),
            Token::Word(Which::Last) => Some(match count(at + 1) {
                Some(count) => (Subset::Last(count), at + 2),
                None => (Subset::Last(1), at + 1),
            }),
            Token::Word(Which::Others) => Some(match count(at + 1) {
                Some(count) => (Subset::Others(Some(count)), at + 2),
                None => (Subset::Others(None), at + 1),
            }),
            Token::Word(Which::All) => {
                let whole = count(at + 1).filter(|count| *count as usize == self.slots.len());
                Some((Subset::All, at + 1 + usize::from(whole.is_some())))
            }
            Token::Word(Which::Until) => {
                Some((Subset::Until(place(at + 1).or_else(|| count(at + 1))?), at + 2))
            }
            Token::Word(_) => None,
            Token::Number(_) => match (place(at), count(at)) {
                (Some(place), _) => Some((Subset::Place(place), at + 1)),
                // `los 4 primeros`, `the 2 last`
                (_, Some(count)) => Some(match self.tokens.get(at + 1) {
                    Some(Token::Word(Which::First)) => (Subset::Next(count), at + 2),
                    Some(Token::Word(Which::Last)) => (Subset::Last(count), at + 2),
                    _ => (Subset::Next(count), at + 1),
                }),
                _ => None,
            },
        }
    }

    /// How many times stand one behind the other from a place.
    fn times_from(&self, at: usize) -> Vec<Timed> {
        let time = |role: &Role| match role {
            Role::Time(time) => Some(*time),
            _ => None,
        };
        self.roles[at.min(self.roles.len())..].iter().map_while(time).collect()
    }

    fn step(&mut self, at: usize) -> Option<usize> {
        if self.tokens[at] == Token::Word(Which::Missed) {
            // Which ones were missed, or how many at the end.
            if let Some((subset, next)) = self.subset(at + 1)
                && self.times_from(next).is_empty()
            {
                match subset {
                    Subset::Next(count) => {
                        self.ends.push((count, vec![Slot::Missed; count as usize]))
                    }
                    subset => self.assign(subset, &[Slot::Missed])?,
                }
                return Some(next);
            }
            return Some(at + 1);
        }
        if let Some((subset, next)) = self.subset(at) {
            if matches!(self.tokens[at], Token::Word(Which::First)) {
                self.cursor = 0;
            }
            let times = self.times_from(next);
            // A new row of all repeats: `all eight! 48 48 49 …`
            if times.len() == self.slots.len() {
                return Some(next);
            }
            if times.is_empty() {
                self.cost += match subset {
                    Subset::Next(count) if count as usize == self.slots.len() => 0.1,
                    Subset::All => 0.1,
                    _ => 0.7,
                };
                return Some(next);
            }
            let many = match subset {
                Subset::Next(count) | Subset::Last(count) | Subset::Others(Some(count)) => {
                    count as usize
                }
                _ => 1,
            };
            let listed = if many > 1 && times.len() == many { many } else { 1 };
            let slots: Vec<Slot> = times[..listed].iter().map(|time| Slot::Swum(*time)).collect();
            self.assign(subset, &slots)?;
            return Some(next + listed);
        }
        let Some(Role::Time(time)) = self.roles.get(at).copied() else { return Some(at + 1) };
        // `48 for the first 6`, `49 hasta la 5`: which they are stands behind.
        if self.times_from(at).len() == 1
            && let Some((subset, next)) = self.subset(at + 1)
            && self.times_from(next).is_empty()
            && !matches!(subset, Subset::Place(_))
        {
            if matches!(self.tokens[at + 1], Token::Word(Which::First)) {
                self.cursor = 0;
            }
            self.assign(subset, &[Slot::Swum(time)])?;
            return Some(next);
        }
        while self.slots.get(self.cursor).is_some_and(|slot| *slot != Slot::Unsaid) {
            self.cursor += 1;
        }
        *self.slots.get_mut(self.cursor)? = Slot::Swum(time);
        self.plain.push((self.cursor, time));
        self.cursor += 1;
        Some(at + 1)
    }

    /// Puts what was told of some of them; nothing where there are not so many.
    fn assign(&mut self, subset: Subset, told: &[Slot]) -> Option<()> {
        let first = *told.first()?;
        match subset {
            Subset::Next(count) => {
                for number in 0..count as usize {
                    let slot = told.get(number).copied().unwrap_or(first);
                    *self.slots.get_mut(self.cursor)? = slot;
                    self.cursor += 1;
                }
            }
            Subset::Last(count) => {
                let slots = (0..count as usize).map(|at| told.get(at).copied().unwrap_or(first));
                self.ends.push((count, slots.collect()));
            }
            Subset::Place(place) => *self.slots.get_mut(place.checked_sub(1)? as usize)? = first,
            Subset::Until(place) => {
                let until = place as usize;
                self.slots.get_mut(self.cursor..until)?.fill(first);
                self.cursor = until;
            }
            Subset::Others(count) => match first {
                Slot::Swum(time) if told.len() == 1 => self.others = Some((time, count)),
                _ => return self.assign(Subset::Next(told.len() as u32), told),
            },
            Subset::All => match first {
                Slot::Swum(time) => self.all = Some(time),
                _ => self.slots.fill(first),
            },
        }
        Some(())
    }

    fn close(mut self, stopped: bool) -> Option<(f32, Vec<Option<Timed>>)> {
        for (count, slots) in std::mem::take(&mut self.ends) {
            let from = self.slots.len().checked_sub(count as usize)?;
            self.slots[from..].copy_from_slice(&slots);
        }
        let unsaid = self.slots.iter().filter(|slot| **slot == Slot::Unsaid).count();
        let fill = |slots: &mut Vec<Slot>, with: Slot| {
            slots.iter_mut().filter(|slot| **slot == Slot::Unsaid).for_each(|slot| *slot = with);
        };
        if let Some((time, count)) = self.others {
            if unsaid == 0 {
                return None;
            }
            if count.is_some_and(|count| count as usize != unsaid) {
                self.cost += 0.8;
            }
            fill(&mut self.slots, Slot::Swum(time));
        } else if let Some(time) = self.all {
            if unsaid == 0 {
                self.cost += 1.0;
            }
            fill(&mut self.slots, Slot::Swum(time));
        } else if let ([(_, time)], 1..) = (self.plain.as_slice(), unsaid) {
            let time = *time;
            self.cost += 0.3;
            fill(&mut self.slots, Slot::Swum(time));
        } else if unsaid > 0 {
            if !stopped || self.slots.last() != Some(&Slot::Unsaid) {
                return None;
            }
            self.cost += 0.5;
            fill(&mut self.slots, Slot::Missed);
        }
        let times = self.slots.iter().map(|slot| match slot {
            Slot::Swum(time) => Some(*time),
            _ => None,
        });
        Some((self.cost, times.collect()))
    }
}
