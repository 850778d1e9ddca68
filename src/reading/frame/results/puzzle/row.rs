//! The repeats, as one way of taking the numbers fills them.

use super::Timed;
use super::token::{Role, Token, Which};

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

/// One repeat of a way that is tried.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Slot {
    Unsaid,
    Missed,
    Swum(Timed),
}

/// The repeats, as one way of taking the numbers fills them.
pub struct Row<'t> {
    tokens: &'t [Token],
    roles: &'t [Role],
    slots: Vec<Slot>,
    cursor: usize,
    /// Times told one after the other without a word about which they are of.
    plain: Vec<Timed>,
    all: Option<Timed>,
    others: Option<(Timed, Option<u32>)>,
    /// What is told of the last ones, put at the end once all else stands.
    ends: Vec<(u32, Vec<Slot>)>,
    cost: f32,
}

impl<'t> Row<'t> {
    /// The cost of this way and one time for each repeat; nothing where it does not come out.
    pub fn of(
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
            Token::Word(which @ (Which::First | Which::Last | Which::Others)) => {
                let counted = count(at + 1);
                let subset = match which {
                    Which::First => Subset::Next(counted.unwrap_or(1)),
                    Which::Last => Subset::Last(counted.unwrap_or(1)),
                    _ => Subset::Others(counted),
                };
                Some((subset, at + 1 + usize::from(counted.is_some())))
            }
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
        self.roles.iter().skip(at).map_while(time).collect()
    }

    fn step(&mut self, at: usize) -> Option<usize> {
        let here = self.tokens.get(at)?;
        if *here == Token::Word(Which::Missed) {
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
            if matches!(here, Token::Word(Which::First)) {
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
            let slots: Vec<Slot> =
                times.iter().take(listed).map(|time| Slot::Swum(*time)).collect();
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
            if matches!(self.tokens.get(at + 1), Some(Token::Word(Which::First))) {
                self.cursor = 0;
            }
            self.assign(subset, &[Slot::Swum(time)])?;
            return Some(next);
        }
        while self.slots.get(self.cursor).is_some_and(|slot| *slot != Slot::Unsaid) {
            self.cursor += 1;
        }
        *self.slots.get_mut(self.cursor)? = Slot::Swum(time);
        self.plain.push(time);
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
            self.slots.iter_mut().skip(from).zip(slots).for_each(|(one, slot)| *one = slot);
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
        } else if let ([time], 1..) = (self.plain.as_slice(), unsaid) {
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
